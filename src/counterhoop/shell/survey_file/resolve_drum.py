"""One drum of the file becomes the frozen record of a drum as found."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from typing import TypeVar

from counterhoop.development.flat import End
from counterhoop.errors import BadInput, Finding
from counterhoop.shell.drum import Drum, Row
from counterhoop.shell.hole import Hole
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.survey_file.crosscheck import closing_finding, crosscheck
from counterhoop.shell.survey_file.faults import Faults
from counterhoop.shell.survey_file.models_job import DrumWritten
from counterhoop.shell.survey_file.resolve_along import PlaceFinder, mean_deg
from counterhoop.shell.survey_file.resolve_fitting import FittingSites, build_fitting, place_sites
from counterhoop.shell.survey_file.resolve_hole import (
    Site,
    check_on_shell,
    from_batter_mm,
    single_site,
)
from counterhoop.shell.survey_file.resolve_mark import resolve_inside, resolve_mark
from counterhoop.shell.survey_file.resolve_row import RowSites, build_row, row_sites
from counterhoop.shell.survey_file.resolve_shell import (
    ENDS,
    check_finish,
    check_wall,
    resolve_beds,
    resolve_depth,
    resolve_edges,
    resolve_finish,
    resolve_girth,
    resolve_lines,
    resolve_rings,
    resolve_seam,
)
from counterhoop.shell.survey_file.resolve_wish import resolve_plan, resolve_wish

T = TypeVar("T")
R = TypeVar("R")
MOST_HOLES = 2000


def resolve_drum(
    key: str, written: DrumWritten, *, tape: object, rules: ShopRules, faults: Faults
) -> tuple[DrumWanted, tuple[Finding, ...]] | None:
    """Return the drum with its wishes and what the readings say against each other.

    Faults are added to ``faults``; None when there was any.
    """
    before = len(faults.found)
    where = f"drums.{key}"
    try:
        girth = resolve_girth(written, tape=written.tape or tape, where=where)
        depth_mm, depths = resolve_depth(written, where=where)
        check_wall(written, girth=girth, where=where)
        check_finish(written, where=where)
        rings = resolve_rings(written, depth_mm=depth_mm, where=where)
    except BadInput as fault:
        faults.add(fault)
        return None
    finder = PlaceFinder(read_girth_mm=girth.read_mm, girth_mm=girth.circumference.mean_mm)
    rows = _each(
        written.rows,
        lambda one, path: row_sites(
            one, finder=finder, depth_mm=depth_mm, read_with=written.read_with, where=path
        ),
        where=f"{where}.rows",
        faults=faults,
    )
    fittings = _each(
        written.fittings,
        lambda one, path: place_sites(
            one, finder=finder, depth_mm=depth_mm, read_with=written.read_with, where=path
        ),
        where=f"{where}.fittings",
        faults=faults,
    )
    singles = _each(
        written.holes,
        lambda one, path: single_site(
            one, finder=finder, depth_mm=depth_mm, read_with=written.read_with, where=path
        ),
        where=f"{where}.holes",
        faults=faults,
    )
    _check_labels(rows, fittings, where=where, faults=faults)
    if len(faults.found) > before:
        return None
    sites = [
        *(site for row in rows for lug in row.lugs for site in lug.sites),
        *(site for fitting in fittings for site in fitting.sites),
        *singles,
    ]
    numbers = number_sites(sites, faults=faults)
    _register(written, fittings, singles, sites, numbers, finder=finder, where=where)
    holes: dict[int, Hole] = {}
    for site, number in zip(sites, numbers, strict=True):
        try:
            holes[number] = site.build(number)
        except BadInput as fault:
            faults.add(fault)
    if len(faults.found) > before:
        return None
    ready = iter(numbers)

    def next_holes(count: int) -> list[Hole]:
        return [holes[next(ready)] for _ in range(count)]

    try:
        built_rows = tuple(
            _row(row, written, next_holes, finder=finder, depth_mm=depth_mm) for row in rows
        )
        drum = Drum(
            key=key,
            says=written.says,
            kind=written.kind,
            material=written.material,
            size_as_written=str(written.size) if written.size is not None else "",
            nominal_diameter_mm=written.size.dia.mm if written.size is not None else None,
            heads=written.heads,
            circumference=girth.circumference,
            wall_mm=written.wall.mm,
            depth_mm=depth_mm,
            depth_readings_mm=depths,
            plies=written.plies,
            finish=resolve_finish(written),
            rings=rings,
            edges=resolve_edges(written),
            rows=built_rows,
            fittings=tuple(
                build_fitting(one, holes=next_holes(len(one.sites)), finder=finder)
                for one in fittings
            ),
            holes=tuple(holes[number] for number in sorted(holes)),
            hoops=_hoops(written),
            seam=resolve_seam(written, finder=finder, where=where),
            lines=resolve_lines(written, finder=finder, depth_mm=depth_mm, where=where),
            beds=resolve_beds(written, finder=finder, where=where),
            inside=tuple(
                resolve_inside(
                    one, finder=finder, depth_mm=depth_mm, where=f"{where}.inside[{index}]"
                )
                for index, one in enumerate(written.inside, 1)
            ),
            marks=tuple(
                resolve_mark(one, finder=finder, depth_mm=depth_mm, where=f"{where}.marks[{index}]")
                for index, one in enumerate(written.marks, 1)
            ),
        )
        plan = resolve_plan(written, drum=drum, where=where)
    except BadInput as fault:
        faults.add(fault)
        return None
    wishes = _each(
        written.wish,
        lambda one, path: resolve_wish(one, drum=drum, finder=finder, where=path),
        where=f"{where}.wish",
        faults=faults,
    )
    if len(faults.found) > before:
        return None
    findings = [
        *crosscheck(drum, written=written, rules=rules),
        *(f for row in rows if (f := closing_finding(row.closing, head=row.head)) is not None),
    ]
    return DrumWanted(drum=drum, wishes=tuple(wishes), finish=plan), tuple(findings)


def _each(
    written: Sequence[T], make: Callable[[T, str], R], *, where: str, faults: Faults
) -> list[R]:
    made = []
    for index, one in enumerate(written, 1):
        try:
            made.append(make(one, f"{where}[{index}]"))
        except BadInput as fault:
            faults.add(fault)
    return made


def _check_labels(
    rows: Sequence[RowSites], fittings: Sequence[FittingSites], *, where: str, faults: Faults
) -> None:
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


def _register(
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


def _row(
    row: RowSites,
    written: DrumWritten,
    next_holes: Callable[[int], list[Hole]],
    *,
    finder: PlaceFinder,
    depth_mm: float,
) -> Row:
    middle_mm = None
    middle = row.written.middle
    if middle is not None:
        middle_mm = from_batter_mm(middle.mm, from_edge=row.written.from_edge, depth_mm=depth_mm)
        check_on_shell(
            middle_mm, depth_mm=depth_mm, where=f"{row.path}.middle", given=middle.as_written
        )
    return build_row(
        row,
        holes={lug.label: next_holes(len(lug.sites)) for lug in row.lugs},
        finder=finder,
        middle_mm=middle_mm,
        hoop=dict(_hoops(written)).get(row.head, ""),
    )


def _hoops(written: DrumWritten) -> tuple[tuple[End, str], ...]:
    named: dict[End, str | None] = {
        "batter": written.hoops.batter,
        "resonant": written.hoops.resonant,
    }
    return tuple((end, hoop) for end in ENDS if (hoop := named[end]) is not None)
