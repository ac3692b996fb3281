"""From the search's answer to fittings on the shell, holes used again and holes to drill."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape, Round, Slot
from counterhoop.development.surface import Surface
from counterhoop.fittings.entry import PatternHole
from counterhoop.scheme.draft import Cut, Draft, Use, serves
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.plan import ReuseProof
from counterhoop.scheme.puzzle import Puzzle, Reach, turned
from counterhoop.scheme.reuse import Match, Reuse, Tier
from counterhoop.scheme.verdict import Verdict

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
    reach: Reach,
    fouls: str,
) -> Placed:
    """Put a row where the search says, numbered along, with the proof of the search."""
    surface, ideal = draft.ground.flat.surface, puzzle.ideal
    fittings = tuple(_fitting(wanted, found, index, surface) for index in range(wanted.count))
    fittings = _numbered(fittings, wanted)
    by_hole = {(m.lug, m.hole): m for m in found.matches}
    uses, cuts = [], []
    for index, plan in enumerate(fittings):
        for j, hole in enumerate(wanted.fitting.holes):
            said = serves(plan, j)
            right, down = turned(hole.right_mm, hole.down_mm, wanted.turned_deg)
            centre = Place(
                plan.place.along_deg + right * 360.0 / surface.circumference_mm,
                plan.place.down_mm + down,
            )
            match = by_hole.get((index, j))
            if match is None:
                cuts.append(Cut(place=centre, shape=Round(hole.hole_mm), serves=said))
            else:
                uses.append(_use(match, draft, centre, said, hole))
    off_turn, off_down = found.turn_mm - ideal[0], found.down_mm - ideal[1]
    proof = ReuseProof(
        kept=found.kept,
        enlarged=found.enlarged,
        slotted=found.slotted,
        wanted=found.wanted,
        candidates=found.candidates,
        off_middle_mm=off_down,
        turn_mm=off_turn,
        within=f"turn {reach.turn_mm[0]:.1f} to {reach.turn_mm[1]:.1f} mm,"
        f" down {reach.down_mm[0]:.1f} to {reach.down_mm[1]:.1f} mm",
    )
    after = draft.with_fittings(fittings, uses=tuple(uses), cuts=tuple(cuts))
    return Placed(
        draft=replace(after, reuse=(*after.reuse, proof)),
        value=found.value,
        reused=found.used,
        off_turn_mm=off_turn,
        off_down_mm=off_down,
        fouls=fouls,
    )


def _fitting(wanted: RowWanted, found: Reuse, index: int, surface: Surface) -> FittingPlan:
    along = found.turn_mm * 360.0 / surface.circumference_mm + index * 360.0 / wanted.count
    row = wanted.head if wanted.count > 1 else ""
    return FittingPlan(
        label=wanted.called,
        fitting=wanted.fitting,
        place=Place(along, found.down_mm),
        turned_deg=wanted.turned_deg,
        status="new",
        row=row,
    )


def _numbered(fittings: tuple[FittingPlan, ...], wanted: RowWanted) -> tuple[FittingPlan, ...]:
    """Number along from the datum; a single fitting keeps its name."""
    if wanted.count == 1:
        return fittings
    order = sorted(range(len(fittings)), key=lambda i: fittings[i].place.along_deg)
    number = {index: place + 1 for place, index in enumerate(order)}
    return tuple(
        replace(plan, label=f"{wanted.called} {number[i]}") for i, plan in enumerate(fittings)
    )


def _use(
    match: Match,
    draft: Draft,
    centre: Place,
    serves: str,
    hole: PatternHole,
) -> Use:
    """Opening afterwards: an enlarged hole or slot lies midway between old centre and new."""
    verdict = VERDICTS[match.tier]
    if match.tier is Tier.KEEP:
        return Use(number=match.number, verdict=verdict, serves=serves, off_mm=match.off_mm)
    surface = draft.ground.flat.surface
    old = draft.ground.hole(match.number)
    new: HoleShape
    if match.tier is Tier.SLOT:
        new = Slot(match.width_mm, match.length_mm, "along")
    else:
        new = Round(match.width_mm)
    old_mm, new_mm = max(old.shape.size_mm), hole.hole_mm
    share = _midway(match.off_mm, old_mm=old_mm, new_mm=new_mm, slot=match.tier is Tier.SLOT)
    middle = Place(
        centre.along_deg
        + share
        * surface.apart_mm(centre.along_deg, old.place.along_deg)
        * 360.0
        / surface.circumference_mm,
        centre.down_mm + share * (old.place.down_mm - centre.down_mm),
    )
    washer = max(match.width_mm, match.length_mm) + 5.0
    return Use(
        number=match.number,
        verdict=verdict,
        serves=serves,
        off_mm=match.off_mm,
        new=new,
        new_place=middle,
        washer_mm=washer,
    )


def _midway(off_mm: float, *, old_mm: float, new_mm: float, slot: bool) -> float:
    """How far the opening's centre lies from the new centre toward the old, as a share.

    The smallest circle round both holes has its centre half-way between their far sides.
    """
    if off_mm == 0.0 or slot:
        return 0.5
    if max(old_mm, new_mm) >= off_mm + (old_mm + new_mm) / 2.0:
        return 0.0 if new_mm >= old_mm else 1.0
    return 0.5 + (old_mm - new_mm) / (4.0 * off_mm)
