"""Holes that stay in use: play, play used up, openings under the base, washers, broken wood."""

from __future__ import annotations

import math

from counterhoop.development.polygon import covers
from counterhoop.development.shape import HoleShape, Round
from counterhoop.errors import Finding, Grade
from counterhoop.scheme.findings.afterwards import Afterwards, Base, Opening, off_mm
from counterhoop.scheme.findings.tally import PRINTS_ALIKE, ROUNDING_MM, Tally
from counterhoop.scheme.findings.wording import figure, first_up, holes_named, the
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.hole import Condition

OPENED = (Verdict.ENLARGE, Verdict.SLOT)


def check_openings(after: Afterwards, tally: Tally) -> None:
    """Go through the holes that a fitting goes on using."""
    bases = {base.label: base for base in after.bases}
    close: list[int] = []
    for opening in after.openings:
        base = bases.get(opening.of)
        if opening.plan.verdict is Verdict.KEEP:
            close += _kept(after, tally, opening, base)
        elif opening.plan.verdict in OPENED:
            _under_base(after, tally, opening, base)
            _washer(after, tally, opening)
        if opening.plan.verdict in (Verdict.KEEP, *OPENED):
            _broken(tally, opening)
    if close:
        _offer_up(tally, close)


def _kept(after: Afterwards, tally: Tally, opening: Opening, base: Base | None) -> list[int]:
    """A kept hole lies off no more than the screw's play, and no more than the rule.

    Returns its number when it lies inside both, but by less than the doubt of its reading.
    """
    wanted, seat = opening.wanted, opening.seat
    if wanted is None or seat is None or base is None or not base.new:
        return []
    along, down = off_mm(after.surface, seat, opening.place)
    # Slots in the part itself let the screw travel along them.
    off = math.hypot(
        max(abs(along) - wanted.slot_along_mm / 2.0, 0.0),
        max(abs(down) - wanted.slot_down_mm / 2.0, 0.0),
    )
    play = max((min(opening.shape.size_mm) - wanted.screw_mm) / 2.0, 0.0)
    by_rule = after.rules.keep_mm <= play
    limit = min(play, after.rules.keep_mm)
    if off <= limit + PRINTS_ALIKE:
        return [opening.number] if limit - off < opening.doubt_mm - ROUNDING_MM else []
    tally.hold(
        "kept-too-far-off",
        off,
        limit=limit,
        doubt=opening.doubt_mm,
        grade=Grade.STOP,
        fact=(
            f"hole {opening.number} is kept for {opening.of} and lies {figure(off)} mm off,"
            f" where the screw has {figure(play)} of play"
        ),
        again=f"hole {opening.number}",
        rule="keep_mm" if by_rule else "the screw's play in the hole",
        remedy="Enlarge the hole with a washer behind, or plug and drill.",
        where=f"hole {opening.number}",
        place=opening.place,
        holes=(opening.number,),
        most=True,
    )
    return []


def _offer_up(tally: Tally, numbers: list[int]) -> None:
    """Kept holes of which a tape cannot say whether the screw will enter."""
    where = holes_named(numbers, most=8)
    one = len(numbers) == 1
    tally.say(
        Finding(
            code="kept-too-far-off",
            grade=Grade.NOTE,
            says=(
                f"Whether the screws enter {where}, which {'is' if one else 'are'} kept, is too"
                " close to call with a tape: offer the fittings up before anything is plugged."
            ),
            where=where,
            rule="the screw's play in the hole",
            remedy="Offer the fitting up; if a screw will not enter, ease the hole.",
            too_close=True,
            holes=tuple(numbers),
        )
    )


def _under_base(after: Afterwards, tally: Tally, opening: Opening, base: Base | None) -> None:
    """An enlarged hole or a slot lies inside the base, with a little to spare."""
    margin = after.rules.opening_inside_mm
    if base is not None and covers(
        base.outline,
        base.place,
        opening.place,
        opening.shape,
        surface=after.surface,
        by_mm=margin - 1e-6,
    ):
        return
    covered = base is not None and covers(
        base.outline, base.place, opening.place, opening.shape, surface=after.surface
    )
    label = base.label if base is not None else "the base"
    tally.say(
        Finding(
            code="opening-not-under-base",
            grade=Grade.STOP,
            says=(
                f"Hole {opening.number}, opened, lies less than {figure(margin)} mm inside the rim"
                f" of {the(label)}; your rule is {figure(margin)}."
                if covered
                else f"Hole {opening.number}, opened, looks out from under {the(label)}."
            ),
            where=f"hole {opening.number}",
            along_deg=opening.place.along_deg,
            down_mm=opening.place.down_mm,
            limit=margin,
            rule="opening_inside_mm",
            remedy="Plug and drill instead, or take a fitting with a larger base.",
            holes=(opening.number,),
        )
    )


def _washer(after: Afterwards, tally: Tally, opening: Opening) -> None:
    """The washer behind an opening reaches past its far end, seen from the screw."""
    need = washer_needed_mm(after, opening)
    has = opening.plan.backing_washer_mm
    if has is not None and has >= need - 0.05:
        return
    tally.say(
        Finding(
            code="backing-washer",
            grade=Grade.TAKE_CARE,
            says=(
                f"Hole {opening.number} is opened and has no backing washer: it wants one of at"
                f" least {figure(need)} mm inside."
                if has is None
                else f"The backing washer of {figure(has)} mm at hole {opening.number} is too"
                f" small: the opening wants at least {figure(need)}."
            ),
            where=f"hole {opening.number}",
            along_deg=opening.place.along_deg,
            down_mm=opening.place.down_mm,
            measured=has,
            limit=need,
            rule="opening_inside_mm",
            remedy=f"Put a washer of {math.ceil(need - 1e-6)} mm or more behind it.",
            holes=(opening.number,),
        )
    )


def washer_needed_mm(after: Afterwards, opening: Opening) -> float:
    """Least diameter of a washer about the screw that covers an opening with the rule to spare.

    The screw stands where the fitting's pattern wants it. A slot's far end is what counts.
    """
    seat = opening.seat or opening.place
    along, down = off_mm(after.surface, seat, opening.place)
    return 2.0 * (_far_mm(opening.shape, abs(along), abs(down)) + after.rules.opening_inside_mm)


def _far_mm(shape: HoleShape, along: float, down: float) -> float:
    """Distance from the screw to the farthest point of an opening; its box for odd shapes."""
    wide, high = shape.size_mm
    if isinstance(shape, Round):
        return math.hypot(along, down) + wide / 2.0
    radius = min(wide, high) / 2.0
    return math.hypot(along + wide / 2.0 - radius, down + high / 2.0 - radius) + radius


def _broken(tally: Tally, opening: Opening) -> None:
    hole = opening.found
    if hole is None or hole.condition is not Condition.BROKEN_OUT:
        return
    tally.say(
        Finding(
            code="broken-out-kept",
            grade=Grade.TAKE_CARE,
            says=first_up(
                f"hole {opening.number} is broken out and is to hold"
                f" {opening.of or 'a screw'} again."
            ),
            where=f"hole {opening.number}",
            along_deg=opening.place.along_deg,
            down_mm=opening.place.down_mm,
            rule="sound wood under a screw",
            remedy="Plug it with face grain and drill again, or glue it and put a wide washer in.",
            holes=(opening.number,),
        )
    )
