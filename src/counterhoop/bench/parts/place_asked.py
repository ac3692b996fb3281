"""A place on a drum, made of the holes that somebody chose there: what is asked of a fitting."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from counterhoop.development.flat import Development
from counterhoop.development.outline import Outline, disc
from counterhoop.development.place import Place as OnShell
from counterhoop.development.shape import HoleShape, Rectangle, Round
from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.parts.places.match import Turn
from counterhoop.parts.places.place import HoleAt, MarkAt, Place
from counterhoop.scheme.draft import is_plugged
from counterhoop.scheme.ground import Ground, ground_of
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.phrases import listed
from counterhoop.shell.drum import Drum
from counterhoop.shell.hole import Hole
from counterhoop.shell.wish import FinishPlan

if TYPE_CHECKING:
    from shapely import Polygon

LUGS: Final = (Kind.LUG, Kind.LONG_LUG)
MOST_HOLES: Final = 8
"""More holes than this no single fitting has."""
NEAR_MM: Final = 10.0
"""A shadow so near to a chosen hole belongs to the place."""
AROUND_MM: Final = 150.0
"""No base reaches further than this from the middle of its holes."""
SLIT_MM: Final = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceAsked:
    """What a person asks of a place.

    Attributes
    ----------
    holes : tuple of int
        Numbers of the holes that may serve, or are to be covered.
    kinds : tuple of Kind
        What may go there; empty: what stood there, or anything.
    turn : Turn
        How it may stand.
    mirror : bool
        Whether the other hand of a pair may serve.
    takes_mm : float or None
        The arm, post or leg that is to go in; None: that of what stood there.
    """

    holes: tuple[int, ...]
    kinds: tuple[Kind, ...] = ()
    turn: Turn = "upright"
    mirror: bool = False
    takes_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OnDrum:
    """A place, and where it lies on its drum.

    Attributes
    ----------
    place : Place
    middle : OnShell
        Where the place's own middle lies, on the skin as it is.
    instead_of : tuple of str
        Labels of the fittings that stand, or stood, on these holes.
    also_off : tuple of str
        Labels of others that stand over these holes or shadows: they come off for it, and their
        holes are to be covered too.
    """

    place: Place
    middle: OnShell
    instead_of: tuple[str, ...] = ()
    also_off: tuple[str, ...] = ()


def place_on(drum: Drum, asked: PlaceAsked, *, book: Book) -> OnDrum:
    """Return the place that some holes of a drum make.

    Millimetres lie on the skin as it is, where a base will stand. A hole that was plugged already
    is no hole but a plug to be covered; every other one is to be covered too. What stands on the
    holes now, or over them, comes off and leaves its shadow; every other base is in the way.

    Raises
    ------
    BadInput
        For a hole that the drum has not got, none or too many, or holes too far apart for one
        fitting.
    """
    ground = ground_of(drum, finish=FinishPlan(), book=book)
    chosen = _chosen(ground, asked.holes)
    middle = _middle(chosen, ground.flat)
    at = [(hole, *_from(middle, hole.place, ground.flat)) for hole in chosen]
    if any(math.hypot(x, y) > AROUND_MM for _, x, y in at):
        raise BadInput(
            "too far apart for one fitting", where="holes",
            given=listed([str(hole.number) for hole in chosen]),
            wanted=f"holes within {AROUND_MM:.0f} mm of their middle",
        )  # fmt: skip
    numbers = set(asked.holes)
    before = [f for f in (*ground.fittings, *ground.missing) if numbers & set(f.holes)]
    marks = [*_old_holes(at), *_shadows(ground, middle, before, at)]
    also = _over(ground, middle, marks, before)
    freed = [hole for hole in ground.holes if any(hole.number in one.holes for one in also)]
    marks += _old_holes((hole, *_from(middle, hole.place, ground.flat)) for hole in freed)
    kinds = asked.kinds or tuple(dict.fromkeys(f.fitting.kind for f in before))
    takes = asked.takes_mm
    if takes is None:
        takes = next((f.fitting.diameter_mm for f in before if f.fitting.diameter_mm), None)
    place = Place(
        holes=tuple(
            HoleAt(
                along_mm=x, down_mm=y, diameter_mm=_clear_mm(hole.shape), doubt_mm=hole.doubt_mm,
                number=hole.number,
            )
            for hole, x, y in at
            if not is_plugged(hole)
        ),
        marks=tuple(marks),
        kinds=kinds,
        thread=_thread(ground, before) if set(kinds) & set(LUGS) else "",
        takes_mm=takes,
        room=_room(ground, middle, [*before, *also]),
    )  # fmt: skip
    return OnDrum(
        place=place,
        middle=middle,
        instead_of=tuple(f.label for f in before),
        also_off=tuple(f.label for f in also),
    )


def may_be_fixed(book: Book) -> tuple[Fitting, ...]:
    """Return the entries of a book that are fixed to a shell: all others serve at no place."""
    return tuple(one for one in book if one.holes and one.base is not None)


def _chosen(ground: Ground, numbers: Sequence[int]) -> list[Hole]:
    there = {hole.number: hole for hole in ground.holes}
    for number in numbers:
        if number not in there:
            raise BadInput(
                "no such hole on this drum", where="holes", given=number,
                wanted=f"1 to {max(there)}" if there else "a drum with holes",
            )  # fmt: skip
    wanted = dict.fromkeys(numbers)
    if not 1 <= len(wanted) <= MOST_HOLES:
        raise BadInput(
            "which holes?", where="holes", given=len(wanted) or None,
            wanted=f"1 to {MOST_HOLES} holes of one place",
        )  # fmt: skip
    return [there[number] for number in wanted]


def _middle(holes: Sequence[Hole], flat: Development) -> OnShell:
    """The middle of the holes' box, counted from the first, so that the datum parts nothing."""
    first = holes[0].place
    x = [flat.surface.apart_mm(first.along_deg, hole.place.along_deg) for hole in holes]
    y = [hole.place.down_mm for hole in holes]
    along = first.along_deg + flat.surface.along_deg(1.0) * (min(x) + max(x)) / 2.0
    return OnShell(along, (min(y) + max(y)) / 2.0)


def _from(middle: OnShell, place: OnShell, flat: Development) -> tuple[float, float]:
    return (
        flat.surface.apart_mm(middle.along_deg, place.along_deg),
        place.down_mm - middle.down_mm,
    )


def _clear_mm(shape: HoleShape) -> float:
    """The round hole that fits in it."""
    if isinstance(shape, Round):
        return shape.diameter_mm
    return min(shape.size_mm)


def _old_holes(at: Iterable[tuple[Hole, float, float]]) -> list[MarkAt]:
    marks = []
    for hole, x, y in at:
        wide, high = hole.shape.size_mm
        if isinstance(hole.shape, Rectangle):
            half = (wide / 2.0, high / 2.0)
            corners = ((-1, -1), (1, -1), (1, 1), (-1, 1))
            outline = Outline(tuple((half[0] * a, half[1] * b) for a, b in corners))
        else:
            outline = Outline(tuple((px * wide, py * high) for px, py in disc(1.0).points))
        what = "plug" if is_plugged(hole) else "hole"
        marks.append(MarkAt(called=f"{what} {hole.number}", outline=outline.moved(x, y)))
    return marks


def _shadows(
    ground: Ground, middle: OnShell, before: Iterable[FittingPlan],
    at: Sequence[tuple[Hole, float, float]],
) -> list[MarkAt]:  # fmt: skip
    """What somebody saw on the skin near the holes, and what comes to light under what goes."""
    seen = [
        MarkAt(called=f"{mark.kind}{f' of the {mark.of}' if mark.of else ''}", outline=outline)
        for mark in ground.drum.marks
        if _is_near(outline := mark.outline.moved(*_from(middle, mark.place, ground.flat)), at)
    ]
    said = {mark.of for mark in ground.drum.marks}
    return [
        *seen,
        *(
            MarkAt(
                called=f"shadow of the {one.label}",
                outline=one.outline.moved(*_from(middle, one.place, ground.flat)),
            )
            for one in before
            if one.outline is not None and one.label not in said
        ),
    ]


def _over(
    ground: Ground, middle: OnShell, marks: Sequence[MarkAt], before: Sequence[FittingPlan]
) -> list[FittingPlan]:
    """Fittings that stand over the place's holes or shadows."""
    import shapely

    place = shapely.union_all([shapely.Polygon(mark.outline.points) for mark in marks])
    known = {one.label for one in before}
    return [
        one
        for one in ground.fittings
        if one.label not in known
        and one.outline is not None
        and shapely.Polygon(
            one.outline.moved(*_from(middle, one.place, ground.flat)).points
        ).intersects(place)
    ]


def _is_near(outline: Outline, at: Sequence[tuple[Hole, float, float]]) -> bool:
    left, top, right, bottom = outline.bounds_mm
    return any(
        left - NEAR_MM <= x <= right + NEAR_MM and top - NEAR_MM <= y <= bottom + NEAR_MM
        for _, x, y in at
    )


def _thread(ground: Ground, before: Sequence[FittingPlan]) -> str:
    """The rods that are here: by the lug that stood on these holes, else by the first lug."""
    lugs = [f for f in (*before, *ground.fittings) if f.fitting.kind in LUGS]
    return next((f.fitting.thread for f in lugs if f.fitting.thread), "")


def _room(ground: Ground, middle: OnShell, before: Sequence[FittingPlan]) -> Outline | None:
    """Where a base may lie: on the shell, between its edges, clear of every other base.

    The piece of skin round the middle, as one outline: each base is cut out of it together with a
    slit away from the middle, behind which no base that stands here would reach.
    """
    import shapely

    gone = {one.label for one in before}
    top, bottom = -middle.down_mm, ground.flat.depth_at_mm(middle.along_deg) - middle.down_mm
    skin = shapely.box(-AROUND_MM, max(top, -AROUND_MM), AROUND_MM, min(bottom, AROUND_MM))
    for one in ground.fittings:
        if one.outline is None or one.label in gone:
            continue
        x, y = _from(middle, one.place, ground.flat)
        if math.hypot(x, y) < 2.0 * AROUND_MM:
            skin = skin.difference(_in_the_way(one.outline.moved(x, y)))
    pieces = list(getattr(skin, "geoms", [skin]))
    here = min(pieces, key=lambda piece: piece.distance(shapely.Point(0.0, 0.0)), default=None)
    if here is None or here.is_empty:
        return None
    return Outline(tuple(here.exterior.coords)[:-1])


def _in_the_way(base: Outline) -> Polygon:
    import shapely

    area = shapely.Polygon(base.points)
    x, y = area.centroid.x, area.centroid.y
    far = math.hypot(x, y) or 1.0
    out = (x + 4.0 * AROUND_MM * x / far, y + 4.0 * AROUND_MM * y / far)
    slit = shapely.LineString([(x, y), out]).buffer(SLIT_MM)
    return shapely.union_all([area, slit])
