"""Put a row of fittings, or one fitting, where the old holes serve best."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from counterhoop.development.outline import Outline
from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape, Oval, Round, Slot
from counterhoop.development.surface import Surface
from counterhoop.fittings.entry import PatternHole
from counterhoop.scheme.bars import Bar, bars_for
from counterhoop.scheme.draft import Cut, Draft, Use, is_vent, may_serve
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.plan import ReuseProof
from counterhoop.scheme.reuse import (
    Barred,
    BarredDrill,
    Limits,
    Match,
    NoRoom,
    OldHole,
    Reuse,
    Tier,
    WantedHole,
    WantedRow,
    Window,
    best_reuse,
)
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.hole import Hole
from counterhoop.shell.shop_rules import ShopRules

if TYPE_CHECKING:
    from counterhoop.scheme.row import RowWanted

VERDICTS = {Tier.KEEP: Verdict.KEEP, Tier.ENLARGE: Verdict.ENLARGE, Tier.SLOT: Verdict.SLOT}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """How far a row may lie from where the eye expects it.

    ``clear_of_old`` asks for a place whose new holes all stand clear of every old hole, and uses
    none of them.
    """

    turn_mm: tuple[float, float] = (0.0, 0.0)
    down_mm: tuple[float, float] = (0.0, 0.0)
    clear_of_old: bool = False


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


def place_row(draft: Draft, wanted: RowWanted, *, reach: Reach, rules: ShopRules) -> Placed:
    """Place a row by the exact search for the best use of the holes that are there."""
    surface = draft.ground.flat.surface
    row = _wanted_row(wanted, surface)
    ideal = (surface.along_mm(wanted.first.along_deg), wanted.first.down_mm)
    window = _window(ideal, reach, wanted, draft, rules)
    bars = bars_for(wanted.fitting, turned_deg=wanted.turned_deg, draft=draft, rules=rules)
    old = () if reach.clear_of_old else _old_holes(draft)
    drills = _no_drilling(draft, wanted, surface, rules, old_too=reach.clear_of_old)
    limits = Limits(
        keep_mm=rules.keep_mm,
        enlarge_mm=rules.enlarge_mm,
        slot_mm=rules.slot_mm,
        opening_inside_mm=rules.opening_inside_mm,
    )
    barred = tuple(Barred(points=bar.corners, holes=bar.holes) for bar in bars)
    found = best_reuse(
        row, old, window=window, ideal=ideal, limits=limits, barred=barred, barred_drill=drills
    )
    fouls = ""
    if isinstance(found, NoRoom):
        found = _unbarred(row, old, window=window, ideal=ideal, limits=limits)
        fouls = _what_fouls(found, bars, row) or "a hole that stays"
    return _placed(draft, wanted, found, ideal, reach=reach, fouls=fouls)


def _unbarred(
    row: WantedRow,
    old: tuple[OldHole, ...],
    *,
    window: Window,
    ideal: tuple[float, float],
    limits: Limits,
) -> Reuse:
    found = best_reuse(row, old, window=window, ideal=ideal, limits=limits)
    if isinstance(found, NoRoom):
        raise RuntimeError("a window without bars always has room")
    return found


def _wanted_row(wanted: RowWanted, surface: Surface) -> WantedRow:
    base = wanted.fitting.base
    return WantedRow(
        holes=tuple(_wanted_hole(hole, wanted.turned_deg) for hole in wanted.fitting.holes),
        count=wanted.count,
        girth_mm=surface.circumference_mm,
        base=base.turned(wanted.turned_deg).points if base else (),
    )


def _wanted_hole(hole: PatternHole, turned_deg: float) -> WantedHole:
    right, down = turned(hole.right_mm, hole.down_mm, turned_deg)
    swapped = turned_deg % 180.0 == 90.0
    return WantedHole(
        right_mm=right,
        down_mm=down,
        hole_mm=hole.hole_mm,
        screw_mm=hole.screw_mm,
        slot_along_mm=hole.slot_down_mm if swapped else hole.slot_along_mm,
        slot_down_mm=hole.slot_along_mm if swapped else hole.slot_down_mm,
    )


def turned(right_mm: float, down_mm: float, turned_deg: float) -> tuple[float, float]:
    """Return a point of a fitting as it stands when the fitting is turned."""
    return Outline(((right_mm, down_mm),)).turned(turned_deg).points[0]


def _window(
    ideal: tuple[float, float], reach: Reach, wanted: RowWanted, draft: Draft, rules: ShopRules
) -> Window:
    """The reach, less the heights at which a hole would come too near an edge."""
    low, high = ideal[1] + reach.down_mm[0], ideal[1] + reach.down_mm[1]
    depth = draft.ground.flat.depth_mm
    least, most = low, high
    for hole in wanted.fitting.holes:
        _, down = turned(hole.right_mm, hole.down_mm, wanted.turned_deg)
        room = rules.edge_mm + hole.hole_mm / 2.0
        least, most = max(least, room - down), min(most, depth - room - down)
    if least <= most:
        low, high = least, most
    return Window(
        turn_min_mm=ideal[0] + reach.turn_mm[0],
        turn_max_mm=ideal[0] + reach.turn_mm[1],
        down_min_mm=low,
        down_max_mm=high,
    )


def _old_holes(draft: Draft) -> tuple[OldHole, ...]:
    surface = draft.ground.flat.surface
    return tuple(
        _old_hole(hole, surface.along_mm(hole.place.along_deg))
        for hole in draft.free_holes
        if may_serve(hole)
    )


def _old_hole(hole: Hole, along_mm: float) -> OldHole:
    width, longer_along, longer_down = _usable(hole.shape)
    return OldHole(
        number=hole.number,
        along_mm=along_mm,
        down_mm=hole.place.down_mm,
        diameter_mm=width,
        longer_along_mm=longer_along,
        longer_down_mm=longer_down,
    )


def _usable(shape: HoleShape) -> tuple[float, float, float]:
    """Width and further length along and down; an oval serves as the circle that fits in it."""
    if isinstance(shape, Slot):
        more = shape.length_mm - shape.width_mm
        return (shape.width_mm, more, 0.0) if shape.lies == "along" else (shape.width_mm, 0.0, more)
    if isinstance(shape, Oval):
        return (shape.width_mm, 0.0, 0.0)
    return (min(shape.size_mm), 0.0, 0.0)


def _no_drilling(
    draft: Draft, wanted: RowWanted, surface: Surface, rules: ShopRules, *, old_too: bool
) -> tuple[BarredDrill, ...]:
    """Discs round holes that stay open or in use, as wide as the web wants at the bore.

    Holes draw together toward the bore, so the disc is widened by R / (R - wall): a little more
    than the exact rule asks down the shell, never less.
    """
    flat = draft.ground.flat
    wider = surface.radius_mm / (surface.radius_mm - flat.wall_mm)
    used = {use.number for use in draft.uses}
    largest = max((hole.hole_mm for hole in wanted.fitting.holes), default=0.0)
    drills = []
    for hole in draft.ground.holes:
        if hole.number in used or is_vent(hole) or old_too:
            size = max(hole.shape.size_mm)
            web_mm = rules.web_needed_mm(size, largest)
            drills.append(
                BarredDrill(
                    along_mm=surface.along_mm(hole.place.along_deg),
                    down_mm=hole.place.down_mm,
                    radius_mm=web_mm * (1.0 if old_too else wider) + (size + largest) / 2.0,
                )
            )
    for cut in draft.cuts:
        size = max(cut.shape.size_mm)
        drills.append(
            BarredDrill(
                along_mm=surface.along_mm(cut.place.along_deg),
                down_mm=cut.place.down_mm,
                radius_mm=rules.web_needed_mm(size, largest) * wider + (size + largest) / 2.0,
            )
        )
    return tuple(drills)


def _what_fouls(found: Reuse, bars: tuple[Bar, ...], row: WantedRow) -> str:
    import shapely

    names = []
    for bar in bars:
        region = shapely.Polygon(bar.corners, bar.holes)
        for fitting in row.fittings:
            for copy in (-1, 0, 1):
                x = found.turn_mm + fitting.along_mm + copy * row.girth_mm
                if region.contains(shapely.Point(x, found.down_mm)):
                    names.append(bar.of)
    return " and ".join(dict.fromkeys(names))


def _placed(
    draft: Draft,
    wanted: RowWanted,
    found: Reuse,
    ideal: tuple[float, float],
    *,
    reach: Reach,
    fouls: str,
) -> Placed:
    surface = draft.ground.flat.surface
    fittings = tuple(_fitting(wanted, found, index, surface) for index in range(wanted.count))
    fittings = _numbered(fittings, wanted)
    by_hole = {(m.lug, m.hole): m for m in found.matches}
    uses, cuts = [], []
    for index, plan in enumerate(fittings):
        for j, hole in enumerate(wanted.fitting.holes):
            serves = f"{plan.label}, {hole.called}" if hole.called else plan.label
            right, down = turned(hole.right_mm, hole.down_mm, wanted.turned_deg)
            centre = Place(
                plan.place.along_deg + right * 360.0 / surface.circumference_mm,
                plan.place.down_mm + down,
            )
            match = by_hole.get((index, j))
            if match is None:
                cuts.append(Cut(place=centre, shape=Round(hole.hole_mm), serves=serves))
            else:
                uses.append(_use(match, draft, centre, serves, hole))
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
