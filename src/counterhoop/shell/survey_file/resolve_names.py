"""Labels, hole numbers and marks: what the things on one drum are called by."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from counterhoop.errors import BadInput
from counterhoop.shell.survey_file.faults import Faults
from counterhoop.shell.survey_file.models_job import DrumWritten
from counterhoop.shell.survey_file.resolve_along import PlaceFinder, mean_deg
from counterhoop.shell.survey_file.resolve_fitting import FittingSites
from counterhoop.shell.survey_file.resolve_hole import Site
from counterhoop.shell.survey_file.resolve_row import RowSites
from counterhoop.shell.survey_file.resolve_shell import resolve_seam

MOST_HOLES = 2000


def check_labels(
    rows: Sequence[RowSites], fittings: Sequence[FittingSites], *, where: str, faults: Faults
) -> None:
    """Note rows and fittings that cannot be told apart by their labels."""
    taken: dict[str, str] = {}
    for row in rows:
        for lug in row.lugs:
            if lug.label.casefold() in taken:
                faults.add(
                    BadInput(
                        f"a second row whose lugs are called {lug.label.rsplit(' ', 1)[0]}",
                        where=row.path,
                        wanted='a name of its own, such as called = "old lug"',
                    )
                )
                break
            taken[lug.label.casefold()] = row.path
    for fitting in fittings:
        label = fitting.written.label
        if label.casefold() in taken:
            faults.add(
                BadInput(
                    "two fittings of one label",
                    where=f"{fitting.path}.label",
                    given=label,
                    wanted="a label of its own",
                    step=f"It stands at {taken[label.casefold()]} too.",
                )
            )
        taken.setdefault(label.casefold(), fitting.path)


def number_sites(sites: Sequence[Site], *, faults: Faults) -> list[int]:
    """Return a number for each hole: those given by hand are kept, the rest fill up from 1.

    The order is that of the rows, lug by lug along, then of the fittings, then of single holes.
    """
    by_hand: dict[int, str] = {}
    if len(sites) > MOST_HOLES:
        faults.add(
            BadInput(
                f"{len(sites)} holes in one drum",
                where=sites[0].path,
                wanted=f"at most {MOST_HOLES}",
            )
        )
    for site in sites:
        if site.number is None:
            continue
        if site.number in by_hand:
            faults.add(
                BadInput(
                    "two holes of one number",
                    where=f"{site.path}.number",
                    given=site.number,
                    wanted="a number of its own",
                    step=f"It stands at {by_hand[site.number]} too.",
                )
            )
        by_hand[site.number] = site.path
    free = (number for number in range(1, len(sites) + len(by_hand) + 1) if number not in by_hand)
    return [site.number if site.number is not None else next(free) for site in sites]


def register_marks(
    written: DrumWritten,
    fittings: Sequence[FittingSites],
    singles: Sequence[Site],
    sites: Sequence[Site],
    numbers: Sequence[int],
    *,
    finder: PlaceFinder,
    where: str,
) -> None:
    """Let holes by number, vent, badge and seam be places to tell others from."""
    for site, number in zip(sites, numbers, strict=True):
        finder.holes[number] = cache(site.along)
    by_label = [(fitting.written.label.casefold(), fitting.along) for fitting in fittings]
    by_purpose = [
        (hole.purpose.casefold(), cache(site.along))
        for site, hole in zip(singles, written.holes, strict=True)
        if hole.purpose
    ]
    for mark in ("vent", "badge"):
        finder.marks[mark] = next(
            filter(
                None,
                (
                    [along for label, along in by_label if label == mark],
                    [along for purpose, along in by_purpose if mark in purpose.split()],
                    [along for label, along in by_label if label.split()[0] == mark],
                ),
            ),
            [],
        )
    purposes = [purpose for purpose, _ in by_purpose]
    for purpose, along in by_purpose:
        if purposes.count(purpose) == 1:
            finder.named.setdefault(purpose, along)
    if written.seam is not None:

        def middle() -> float:
            seam = resolve_seam(written, finder=finder, where=where)
            assert seam is not None
            return mean_deg((seam.from_deg, seam.to_deg))

        finder.marks["seam"] = [middle]
