"""The tuning sheet: what each head of the kit is to sound like, and what its rods then pull."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from counterhoop.development.flat import End
from counterhoop.heads.kit import HeadPlan, PlannedDrum
from counterhoop.heads.kit_words import GUIDES_MEAN
from counterhoop.heads.mode import Standing
from counterhoop.heads.rods import RodTorque, print_n, print_nm
from counterhoop.heads.tension import print_tension
from counterhoop.heads.turns import in_turns
from counterhoop.papers.cautions import DEFER
from counterhoop.papers.drawing.pens import PRINT
from counterhoop.papers.drawing.records import Drawing
from counterhoop.papers.facts import facts_of, foot_facts, listed, sheet_for
from counterhoop.papers.job_facts import NOT_WRITTEN
from counterhoop.papers.order_strip import draw_order
from counterhoop.papers.printable import set_readable
from counterhoop.papers.sheets import MARGIN_MM
from counterhoop.papers.svg import to_svg
from counterhoop.quantities.print_pitch import EAR_CENTS, print_hz, print_note
from counterhoop.shell.job import Job

MUTE = (
    "Tap softly two fingers in from each rod, a folded cloth on the other head, and let it settle."
)
ORDER = (
    "Seat the head finger-tight all round, then go round in the order printed, a sixteenth of a "
    "turn at a time and every rod alike, and listen at each round."
)
"""Common practice, no source."""
CASTINGS = "Old castings crack without warning: stop at your own limit, or sooner."
BY_EAR = "by ear"


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadToTune:
    """A head as the sheet names it.

    Attributes
    ----------
    head : End
    film : str
        What it is.
    assumed : bool
        Nobody wrote that down.
    rods : tuple of (int, float)
        Each rod's number, and where it is along the shell.
    """

    head: End
    film: str
    assumed: bool
    rods: tuple[tuple[int, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumToPitch:
    """A drum of the kit.

    Attributes
    ----------
    key, what : str
        Its name, and its size in words.
    planned : PlannedDrum or None
        Its pitches; None where there is no plan, and ``refusal`` says why.
    refusal : str
    heads : tuple of HeadToTune
    limit_n : float or None
        The restorer's own limit for a rod.
    says : tuple of str
        What a second head does, a sentence each.
    assumed : tuple of str
        What was taken for granted besides the heads, a sentence each.
    """

    key: str
    what: str
    planned: PlannedDrum | None
    refusal: str = ""
    heads: tuple[HeadToTune, ...] = ()
    limit_n: float | None = None
    says: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()


def tuning_sheet_pdf(
    job: Job,
    drums: Sequence[DrumToPitch],
    *,
    says: Sequence[str] = (),
    a4_hz: float = 440.0,
    paper: str = "A4",
) -> bytes:
    """Set the tuning sheet of a kit.

    Parameters
    ----------
    job : Job
        Whose names are printed.
    drums : sequence of DrumToPitch
        In the order of their pitches.
    says : sequence of str
        Of the plan as a whole.
    a4_hz : float
        What notes are named by.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    sheet = sheet_for(paper)
    strips = order_strips(drums, wide_mm=sheet.short_mm - 2 * MARGIN_MM)
    data = {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        **tuning_data(job, drums, strips=strips, says=says, a4_hz=a4_hz),
    }
    images = {
        name: to_svg(strip, palette=PRINT, ident=f"{name}-")
        for each in strips
        for name, strip in each.items()
    }
    return set_readable(
        "tuning_sheet", data, title=f"Tuning sheet, job {job.number}", images=images
    )


def tuning_data(
    job: Job,
    drums: Sequence[DrumToPitch],
    *,
    strips: Sequence[dict[str, Drawing]],
    says: Sequence[str],
    a4_hz: float,
) -> dict[str, Any]:
    """Return what the tuning sheet says, as plain data."""
    facts = facts_of(job)
    return {
        "facts": foot_facts(job, what="tuning sheet"),
        "block": (
            ("job", f"{facts.job}, {facts.client}" if facts.client else facts.job),
            ("paper", "tuning sheet"),
            ("drums", str(len(drums))),
            ("A is", print_hz(a4_hz, resolution_cents=EAR_CENTS)),
            ("date", facts.date or NOT_WRITTEN),
        ),
        "how": [MUTE, ORDER, *(says or (CASTINGS,)), GUIDES_MEAN],
        "drums": [
            _drum(drum, strips=strip, a4_hz=a4_hz)
            for drum, strip in zip(drums, strips, strict=True)
        ],
        "taken": _taken(drums),
        "standing": _standing(drums),
        "defer": DEFER,
    }


def order_strips(drums: Sequence[DrumToPitch], *, wide_mm: float) -> list[dict[str, Drawing]]:
    """Return the strips of each drum by name: one where both heads have their rods alike."""
    found: list[dict[str, Drawing]] = []
    for number, drum in enumerate(drums):
        wanted: dict[End, tuple[tuple[tuple[int, float], ...], tuple[int, ...]]] = {}
        for head in drum.heads:
            plan = _plan_of(drum, head.head)
            if plan is None or not head.rods:
                continue
            if (one := (head.rods, plan.order)) not in wanted.values():
                wanted[head.head] = one
        found.append(
            {
                f"order-{number}-{end}": draw_order(
                    rods, order, said="rod" if len(wanted) == 1 else end, wide_mm=wide_mm,
                    name=f"order-{number}-{end}",
                )
                for end, (rods, order) in wanted.items()
            }
        )  # fmt: skip
    return found


def _plan_of(drum: DrumToPitch, end: End) -> HeadPlan | None:
    if drum.planned is None:
        return None
    return next((plan for plan in drum.planned.heads if plan.head == end), None)


def _drum(drum: DrumToPitch, *, strips: dict[str, Drawing], a4_hz: float) -> dict[str, Any]:
    planned = drum.planned
    limit = f"Your limit: {print_n(drum.limit_n)} on a rod." if drum.limit_n is not None else ""
    return {
        "name": drum.key,
        "what": drum.what,
        "limit": limit,
        "refusal": drum.refusal if planned is None else "",
        "middle": "" if planned is None else print_note(planned.middle_hz, a4_hz=a4_hz),
        "middle-hz": "" if planned is None else print_hz(planned.middle_hz),
        "wished": planned is not None and planned.wished,
        "heads": [
            _head(head, plan, a4_hz=a4_hz)
            for head in drum.heads
            if (plan := _plan_of(drum, head.head)) is not None
        ],
        "strips": [
            {
                "name": name,
                "alt": f"{strip.title} of the {drum.key}, {name.rpartition('-')[2]} head. "
                f"{strip.says}",
            }
            for name, strip in strips.items()
        ],
        "says": list(drum.says),
    }


def _head(head: HeadToTune, plan: HeadPlan, *, a4_hz: float) -> dict[str, Any]:
    torque, start = plan.torque, plan.start
    return {
        "head": head.head,
        "film": f"{head.film}{', assumed' if head.assumed else ''}",
        "note": print_note(plan.rim_hz, a4_hz=a4_hz),
        "hz": print_hz(plan.rim_hz),
        "tension": print_tension(plan.n_per_m),
        "pull": print_n(plan.force.n),
        "most": print_n(plan.force.most_n),
        "torque": "–" if torque is None else print_nm(torque.nm),
        "scatter": "" if torque is None else _scatter(torque),
        "turns": BY_EAR if start is None else in_turns(start.turns),
        "at-least": "" if start is None else "at the least" if start.at_least else "as heard on it",
    }


def _taken(drums: Sequence[DrumToPitch]) -> list[str]:
    """Say what was taken for granted, each sentence once, with the drums that it is about."""
    every = list(dict.fromkeys(said for drum in drums for said in drum.assumed))
    found = []
    for said in every:
        names = [drum.key for drum in drums if said in drum.assumed]
        found.append(said if len(drums) == 1 else f"{said[:-1]} ({listed(names)}).")
    return found


def _scatter(torque: RodTorque) -> str:
    """Say what a rod may pull at that torque."""
    low, high = print_n(torque.force_low_n), print_n(torque.force_high_n)
    return f"pulls {low.removesuffix(' N')} to {high}"


def _standing(drums: Sequence[DrumToPitch]) -> list[str]:
    """Say for which drums the figures were checked against something, and for which not."""
    said = []
    for standing in Standing:
        names = [d.key for d in drums if d.planned is not None and d.planned.standing is standing]
        if names:
            which = "All drums" if len(names) == len(drums) > 1 else listed(names)
            said.append(f"{which[0].upper()}{which[1:]}: {standing.value}.")
    return said
