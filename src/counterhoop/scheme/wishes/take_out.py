"""Take a fitting off: its holes are plugged, or lie under a cover plate."""

from __future__ import annotations

from counterhoop.development.place import Place
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting
from counterhoop.scheme.draft import Draft
from counterhoop.scheme.phrases import listed
from counterhoop.scheme.placing import place_row
from counterhoop.scheme.plate import held_by_sound_holes
from counterhoop.scheme.puzzle import Reach
from counterhoop.scheme.row import RowWanted
from counterhoop.shell.hole import Hole
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.wish import TakeOut


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
    row = RowWanted(
        fitting=plate,
        count=1,
        head="",
        called=label,
        first=middle,
        over=tuple(hole.number for hole in holes),
    )
    reach = Reach(turn_mm=(-slack_mm[0], slack_mm[0]), down_mm=(-slack_mm[1], slack_mm[1]))
    placed = place_row(draft, row, reach=reach, rules=rules)
    held = held_by_sound_holes(draft, placed.draft)
    return held.named(called=f"{plate.name} over its holes")


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
