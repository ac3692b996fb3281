"""From the search's answer to fittings on the shell, holes used again and holes to drill."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape, Round, Slot
from counterhoop.fittings.entry import PatternHole
from counterhoop.scheme.draft import Cut, Draft, Use, serves
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.level import Level
from counterhoop.scheme.plan import ReuseProof
from counterhoop.scheme.puzzle import Puzzle, turned
from counterhoop.scheme.reuse import Match, Reuse, Tier
from counterhoop.scheme.row_put import RowPut
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.hole import Hole

if TYPE_CHECKING:
    from counterhoop.scheme.row import RowWanted

VERDICTS = {Tier.KEEP: Verdict.KEEP, Tier.ENLARGE: Verdict.ENLARGE, Tier.SLOT: Verdict.SLOT}


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A row in its place.

    ``fouls`` names what stands in the way when no place within reach is free; the row then
    stands where it would serve best all the same, and the findings say stop.
    """

    draft: Draft
    value: int
    reused: int
    off_turn_mm: float
    off_down_mm: float
    fouls: str = ""


def put_down(
    draft: Draft,
    wanted: RowWanted,
    found: Reuse,
    *,
    puzzle: Puzzle,
    within: str,
    fouls: str = "",
) -> Placed:
    """Put a row where the search says, numbered along, with the proof of the search.

    ``within`` says where it was sought.
    """
    surface, ideal, level = draft.ground.flat.surface, puzzle.ideal, puzzle.level
    fittings = tuple(_fitting(wanted, found, index, level) for index in range(wanted.count))
    fittings = _numbered(fittings, wanted)
    by_hole = {(m.lug, m.hole): m for m in found.matches}
    uses, cuts = [], []
    for index, plan in enumerate(fittings):
        for j, hole in enumerate(wanted.fitting.holes):
            said = serves(plan, j)
            right, down = turned(hole.right_mm, hole.down_mm, wanted.turned_deg)
            centre = level.place(
                plan.place.along_deg + right * 360.0 / surface.circumference_mm,
                found.down_mm + down,
            )
            match = by_hole.get((index, j))
            if match is None:
                shape = Round(hole.hole_mm)
                cuts.append(Cut(place=centre, shape=shape, of=plan.label, serves=said))
                continue
            use = Use(
                number=match.number,
                verdict=VERDICTS[match.tier],
                of=plan.label,
                serves=said,
                off_mm=match.off_mm,
            )
            if match.tier is not Tier.KEEP:
                inside_mm = puzzle.limits.opening_inside_mm
                old = draft.ground.hole(match.number)
                use = _opened(use, match, old, centre, hole, level=level, inside_mm=inside_mm)
            uses.append(use)
    off_turn, off_down = found.turn_mm - ideal[0], found.down_mm - ideal[1]
    proof = ReuseProof(
        kept=found.kept,
        enlarged=found.enlarged,
        slotted=found.slotted,
        wanted=found.wanted,
        candidates=found.candidates,
        off_middle_mm=off_down,
        turn_mm=off_turn,
        within=within,
    )
    put = RowPut(
        wanted=wanted,
        labels=tuple(plan.label for plan in fittings),
        turn_mm=found.turn_mm,
        down_mm=found.down_mm,
        proof=proof,
    )
    after = draft.with_fittings(fittings, uses=tuple(uses), cuts=tuple(cuts))
    return Placed(
        draft=replace(after, rows=(*after.rows, put)),
        value=found.value,
        reused=found.used,
        off_turn_mm=off_turn,
        off_down_mm=off_down,
        fouls=fouls,
    )


def _fitting(wanted: RowWanted, found: Reuse, index: int, level: Level) -> FittingPlan:
    round_mm = level.flat.surface.circumference_mm
    along = found.turn_mm * 360.0 / round_mm + index * 360.0 / wanted.count
    return FittingPlan(
        label=wanted.called,
        fitting=wanted.fitting,
        place=level.place(along, found.down_mm),
        turned_deg=wanted.turned_deg,
        status="new",
        row=wanted.head,
    )


def _numbered(fittings: tuple[FittingPlan, ...], wanted: RowWanted) -> tuple[FittingPlan, ...]:
    """Number a row along from the datum; what belongs to no row keeps its name."""
    if not wanted.head:
        return fittings
    order = sorted(range(len(fittings)), key=lambda i: fittings[i].place.along_deg)
    number = {index: place + 1 for place, index in enumerate(order)}
    return tuple(
        replace(plan, label=f"{wanted.called} {number[i]}") for i, plan in enumerate(fittings)
    )


def _opened(
    use: Use,
    match: Match,
    old: Hole,
    seat: Place,
    hole: PatternHole,
    *,
    level: Level,
    inside_mm: float,
) -> Use:
    """Add the opening that holds the old hole and takes the screw where the fitting wants it.

    A part with slots of its own takes the screw anywhere along them: the screw stands at the
    point of its travel that lies nearest to the old hole.
    """
    surface = level.flat.surface
    screw = level.place(
        old.place.along_deg - surface.along_deg(match.off_along_mm),
        level.height_mm(old.place) - match.off_down_mm,
    )
    shape: HoleShape
    if match.tier is Tier.SLOT:
        shape, share_along, share_down = _slot(match, old.shape, hole)
    else:
        shape, share_along = _round_both(match.off_mm, old.shape.around_mm, hole.hole_mm)
        share_down = share_along
    middle = level.place(
        screw.along_deg + surface.along_deg(share_along * match.off_along_mm),
        level.height_mm(screw) + share_down * match.off_down_mm,
    )
    farthest_mm = max(
        math.hypot(surface.apart_mm(at.along_deg, middle.along_deg), middle.down_mm - at.down_mm)
        for at in (screw, seat)
    )
    washer_mm = shape.around_mm + 2.0 * (farthest_mm + inside_mm)
    return replace(use, new=shape, new_place=middle, washer_mm=washer_mm)


def _round_both(off_mm: float, old_mm: float, new_mm: float) -> tuple[Round, float]:
    """Smallest round hole that holds two, and its centre as a share of the way to the old one.

    Its centre lies half-way between their far sides.

    Examples
    --------
    >>> _round_both(1.0, 6.0, 6.0), _round_both(1.0, 9.0, 6.0)
    ((Round(diameter_mm=7.0), 0.5), (Round(diameter_mm=9.0), 1.0))
    """
    across_mm = off_mm + (old_mm + new_mm) / 2.0
    if max(old_mm, new_mm) >= across_mm:
        return (Round(new_mm), 0.0) if new_mm >= old_mm else (Round(old_mm), 1.0)
    return Round(across_mm), 0.5 + (old_mm - new_mm) / (4.0 * off_mm)


def _slot(match: Match, old: HoleShape, hole: PatternHole) -> tuple[Slot, float, float]:
    """Slot along the shell that holds the old hole, and its middle as shares of the way to it.

    Down the shell it lies as near to the screw as the old hole lets it, and the screw's own play
    takes up the rest.
    """
    wide_mm = max(match.width_mm, old.size_mm[1])
    longer_mm = max(0.0, old.size_mm[0] - wide_mm)
    slot = Slot(wide_mm, wide_mm + match.off_mm + longer_mm, "along")
    spare_mm = (wide_mm - old.size_mm[1]) / 2.0
    off_mm = abs(match.off_down_mm)
    return slot, 0.5, max(0.0, 1.0 - spare_mm / off_mm) if off_mm else 0.0
