"""Take a fitting off: its holes are plugged, or lie under a cover plate."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.development.place import Place
from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting
from counterhoop.scheme.draft import Draft
from counterhoop.scheme.placing import place_row
from counterhoop.scheme.puzzle import Reach
from counterhoop.scheme.row import RowWanted
from counterhoop.shell.hole import Hole
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.wish import TakeOut


def take_out(draft: Draft, wish: TakeOut, *, book: Book, rules: ShopRules) -> list[Draft]:
    """Return the draft with plugs, and the one with a plate when a plate is wished."""
    there = {f.label: f for f in draft.standing}
    for label in wish.labels:
        if label not in there:
            raise no_such_fitting(label, draft)
    holes = tuple(draft.ground.hole(n) for label in wish.labels for n in there[label].holes)
    names = " and ".join(wish.labels)
    bare = draft.without(*wish.labels).named(pattern=f"take out the {names}")
    plugged = bare.named(called="holes plugged")
    if not wish.plate:
        return [plugged]
    plate = book.find(wish.plate, where="wish.plate")
    return [_plated(bare, plate, holes, rules=rules), plugged]


def _plated(draft: Draft, plate: Fitting, holes: tuple[Hole, ...], *, rules: ShopRules) -> Draft:
    """Screw a plate over the holes; those that it does not use stay open under it."""
    surface = draft.ground.flat.surface
    first = holes[0].place.along_deg
    xs = [surface.apart_mm(first, hole.place.along_deg) for hole in holes]
    ys = [hole.place.down_mm for hole in holes]
    middle = Place(first + surface.along_deg((min(xs) + max(xs)) / 2.0), (min(ys) + max(ys)) / 2.0)
    slack_mm = _slack_mm(plate, xs, ys, holes)
    row = RowWanted(fitting=plate, count=1, head="batter", called="cover plate", first=middle)
    reach = Reach(turn_mm=(-slack_mm[0], slack_mm[0]), down_mm=(-slack_mm[1], slack_mm[1]))
    placed = place_row(draft, row, reach=reach, rules=rules)
    under = tuple(hole.number for hole in holes)
    return replace(placed.draft, open_under=under).named(called=f"{plate.name} over the holes")


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


def no_such_fitting(label: str, draft: Draft) -> BadInput:
    """Complain of a label that no fitting on the drum has."""
    known = ", ".join(f'"{f.label}"' for f in draft.standing if not f.row)
    return BadInput(
        "nothing on this drum is called that",
        where=f"drums.{draft.ground.drum.key}.wish",
        given=label,
        wanted=f"one of {known}" if known else "a fitting entered under fittings",
    )
