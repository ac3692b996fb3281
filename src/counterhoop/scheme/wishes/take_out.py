"""Take a fitting off: its holes are plugged, or lie under a cover plate."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.development.place import Place
from counterhoop.development.web import web
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting
from counterhoop.scheme.draft import Cut, Draft
from counterhoop.scheme.phrases import listed
from counterhoop.scheme.placing import place_row
from counterhoop.scheme.puzzle import Reach
from counterhoop.scheme.row import RowWanted
from counterhoop.shell.hole import Hole
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.wish import TakeOut

LEAST_SCREWS = 2  # common practice, no source: one screw lets a plate turn


def take_out(draft: Draft, wish: TakeOut, *, book: Book, rules: ShopRules) -> list[Draft]:
    """Return the draft with plugs, and the one with a plate when a plate is wished."""
    numbers = {n for label in wish.labels for n in draft.called(label).holes}
    holes = tuple(hole for hole in draft.ground.holes if hole.number in numbers)
    names = listed(wish.labels)
    bare = draft.without(*wish.labels).named(pattern=f"take out the {names}")
    plugged = bare.named(called="holes plugged")
    if not wish.plate:
        return [plugged]
    plate = book.find(wish.plate, where="wish.plate")
    if not holes:
        return [plugged.saying(f"There is no hole for the {plate.name} to cover.")]
    return [_plated(bare, plate, holes, rules=rules), plugged]


def _plated(draft: Draft, plate: Fitting, holes: tuple[Hole, ...], *, rules: ShopRules) -> Draft:
    """Screw a plate over the holes; those that it does not use stay open under it."""
    surface = draft.ground.flat.surface
    first = holes[0].place.along_deg
    xs = [surface.apart_mm(first, hole.place.along_deg) for hole in holes]
    ys = [hole.place.down_mm for hole in holes]
    middle = Place(first + surface.along_deg((min(xs) + max(xs)) / 2.0), (min(ys) + max(ys)) / 2.0)
    label = draft.unused("cover plate")
    slack_mm = _slack_mm(plate, xs, ys, holes)
    row = RowWanted(fitting=plate, count=1, head="", called=label, first=middle)
    reach = Reach(turn_mm=(-slack_mm[0], slack_mm[0]), down_mm=(-slack_mm[1], slack_mm[1]))
    placed = place_row(draft, row, reach=reach, rules=rules)
    held = _held_by_sound_holes(draft, placed.draft, holes)
    return held.named(called=f"{plate.name} over its holes")


def _held_by_sound_holes(before: Draft, after: Draft, holes: tuple[Hole, ...]) -> Draft:
    """Leave out a plate's screw that falls on a hole which cannot hold it.

    Two screws hold a plate, so a broken hole under it may stay as it is. With fewer, that hole is
    plugged and drilled again.
    """
    screws = len(after.uses) - len(before.uses)
    new = after.cuts[len(before.cuts) :]
    falls = {cut: [h for h in holes if _meets(cut, h, after)] for cut in new}
    idle = [cut for cut, met in falls.items() if met]
    numbers = tuple(hole.number for hole in holes)
    if not idle:
        return replace(after, open_under=numbers)
    lost = {hole.number for cut in idle for hole in falls[cut]}
    if screws + len(new) - len(idle) < LEAST_SCREWS:
        return replace(after, open_under=tuple(n for n in numbers if n not in lost))
    named = listed([str(n) for n in sorted(lost)])
    says = (
        f"The plate is held by {screws + len(new) - len(idle)} screws:"
        f" {'hole' if len(lost) == 1 else 'holes'} {named} cannot hold one and"
        f" {'stays' if len(lost) == 1 else 'stay'} open under it."
    )
    cuts = (*before.cuts, *(cut for cut in new if cut not in idle))
    return replace(after, cuts=cuts, open_under=numbers).saying(says)


def _meets(cut: Cut, hole: Hole, draft: Draft) -> bool:
    return web(cut.place, cut.shape, hole.place, hole.shape, flat=draft.ground.flat).least_mm <= 0.0


def _slack_mm(
    plate: Fitting, xs: list[float], ys: list[float], holes: tuple[Hole, ...]
) -> tuple[float, float]:
    """How far a plate may slide and still cover every hole by a millimetre."""
    if plate.base is None:
        return (0.0, 0.0)
    left, top, right, bottom = plate.base.bounds_mm
    most = max(max(hole.shape.size_mm) for hole in holes)
    along = (right - left) - (max(xs) - min(xs)) - most - 2.0
    down = (bottom - top) - (max(ys) - min(ys)) - most - 2.0
    return (max(0.0, along / 2.0), max(0.0, down / 2.0))
