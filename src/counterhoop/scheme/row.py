"""A row of equal fittings to be placed, and the ways worth trying."""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from counterhoop.development.place import Place
from counterhoop.fittings.entry import Fitting
from counterhoop.scheme.draft import Draft
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.placing import place_row
from counterhoop.scheme.put_down import Placed
from counterhoop.scheme.puzzle import Reach
from counterhoop.shell.shop_rules import ShopRules


@dataclass(frozen=True, slots=True, kw_only=True)
class RowWanted:
    """Equal fittings at equal spacing.

    Attributes
    ----------
    head : str
        Whose row it is; empty for a fitting that belongs to none.
    called : str
        "long lug" gives "long lug 1" and so on, numbered along, in a row.
    first : Place
        Where the eye expects the reference point of the first fitting.
    free_turn : bool
        Whether its hoop may be turned.
    over : tuple of int
        Holes that a plate is to lie over; those that no screw of it takes stay open under it.
    """

    fitting: Fitting
    count: int
    head: Literal["batter", "resonant", "both", ""]
    called: str
    first: Place
    turned_deg: float = 0.0
    free_turn: bool = False
    proper: str = "their proper height"
    over: tuple[int, ...] = ()


def row_turn_deg(lugs: Sequence[FittingPlan]) -> float:
    """Return the angle of the first lug of the evenly spaced row that fits a row as found best.

    The median of how far each lug lies from even spacing, about the circular mean (Fisher,
    Statistical Analysis of Circular Data, 1993, sections 2.3.1 and 2.3.2, from memory), so that
    a lug that was drilled in the wrong place does not move the row at all.
    """
    count = len(lugs)
    spacing = 360.0 / count
    angles = [math.radians(lug.place.along_deg * count) for lug in lugs]
    mean = math.degrees(math.atan2(sum(map(math.sin, angles)), sum(map(math.cos, angles)))) / count
    off = [math.remainder(lug.place.along_deg - mean, spacing) for lug in lugs]
    turn = mean + statistics.median(off)
    nearest = min(lugs, key=lambda lug: lug.place.along_deg).place.along_deg
    return (turn + spacing * round((nearest - turn) / spacing)) % 360.0


def rows_tried(draft: Draft, wanted: RowWanted, *, rules: ShopRules) -> list[Draft]:
    """Place a row within the rules; also off its height, or turned, where that saves holes.

    The first draft keeps to the rules when any place does. Each further one is there because it
    lets more old holes serve, or stands clear where the first cannot, and says so.
    """
    surface = draft.ground.flat.surface
    strict = Reach(turn_mm=(0.0, 0.0), down_mm=(-rules.off_middle_mm, rules.off_middle_mm))
    best = place_row(draft, wanted, reach=strict, rules=rules)
    drafts = [best.draft]
    half_mm = surface.circumference_mm / wanted.count / 2.0
    wider = [replace(strict, down_mm=(-rules.look_further_mm, rules.look_further_mm))]
    if wanted.free_turn:
        wider.append(replace(strict, turn_mm=(-half_mm, half_mm)))
    for reach in wider:
        other = place_row(draft, wanted, reach=reach, rules=rules)
        clears = best.fouls and not other.fouls
        if not clears and (other.fouls or other.value <= best.value):
            continue
        sentence = _near_miss(best, other, wanted, rules=rules)
        drafts[0] = drafts[0].saying(sentence).only_here(sentence)
        off = abs(other.off_down_mm) > rules.off_middle_mm + 1e-6
        moved = other.draft.named(called=_moved_words(other)).saying(sentence).only_here(sentence)
        drafts.append(replace(moved, centred=moved.centred and not off))
    return drafts


def _moved_words(placed: Placed) -> str:
    words = []
    if abs(placed.off_down_mm) > 0.05:
        edge = "resonant" if placed.off_down_mm > 0 else "batter"
        words.append(f"{abs(placed.off_down_mm):.1f} mm toward the {edge} edge")
    if abs(placed.off_turn_mm) > 0.05:
        way = "right" if placed.off_turn_mm > 0 else "left"
        words.append(f"turned {abs(placed.off_turn_mm):.1f} mm to the {way}")
    return ", ".join(words)


def _near_miss(best: Placed, other: Placed, wanted: RowWanted, *, rules: ShopRules) -> str:
    """Say in one sentence what more freedom brings and what it costs the eye."""
    moves = []
    if abs(other.off_down_mm) > 0.05:
        edge = "resonant" if other.off_down_mm > 0 else "batter"
        moves.append(f"moving the row {abs(other.off_down_mm):.1f} mm toward the {edge} edge")
    if abs(other.off_turn_mm) > 0.05:
        moves.append(f"turning it {abs(other.off_turn_mm):.1f} mm along")
    start = " and ".join(moves) or "this place"
    gain = other.reused - best.reused
    if best.fouls and not other.fouls:
        brings = f"would clear {best.fouls}"
    elif gain > 0:
        brings = f"would let {gain} more old {'hole' if gain == 1 else 'holes'} serve"
    else:
        brings = "would use the old holes with less cutting"
    off_mm = abs(other.off_down_mm)
    cost = ""
    if off_mm > rules.off_middle_mm:
        cost = (
            f", and puts the {wanted.called}s {off_mm:.1f} mm off {wanted.proper};"
            f" your rule is {rules.off_middle_mm:.1f}"
        )
    elif abs(other.off_turn_mm) > 0.05:
        cost = ", and takes the row off its line"
    sentence = f"{start} {brings}{cost}."
    return sentence[0].upper() + sentence[1:]
