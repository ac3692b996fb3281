"""Bases, plates and shadows on the skin: gaps, overlaps, and whether one covers a hole."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache
from typing import TYPE_CHECKING

from counterhoop.development.between import core_of
from counterhoop.development.minkowski import barred
from counterhoop.development.outline import Outline
from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape, Oval, Rectangle
from counterhoop.development.solid import corners_of, solid
from counterhoop.development.surface import Surface

if TYPE_CHECKING:
    from shapely import LineString, Point, Polygon

QUAD_SEGS = 64
# A polygon drawn outside the arc: its sides touch the true shape.
OUTWARD = 1.0 / math.cos(math.pi / (4 * QUAD_SEGS))
# Touching is told from overlapping down to this; far below anything a bench can see.
TOUCH_MM = 1e-9


def placed(outline: Outline, place: Place, *, surface: Surface) -> Polygon:
    """Outline on the skin, x = along in mm from the datum, y = down.

    It is not cut at the datum: x may lie below 0 or beyond the circumference.
    """
    return _moved(outline, surface.along_mm(place.along_deg), place.down_mm)


def hole_outline(shape: HoleShape) -> Outline:
    """Outline of a hole about its centre, a polygon that lies just outside the true shape.

    Rectangles are exact; round ends and ovals lie outside the true hole by at most 0.00008 of
    their half length, so that a web measured from it is never too great.
    """
    if isinstance(shape, Oval):
        across, high = shape.size_mm
        return _around(0.0, 0.0, across / 2.0 * OUTWARD, high / 2.0 * OUTWARD)
    half_along, half_down, radius = core_of(shape)
    if isinstance(shape, Rectangle):
        w, h = half_along, half_down
        return Outline(((-w, -h), (w, -h), (w, h), (-w, h)))
    return _around(half_along, half_down, radius * OUTWARD, radius * OUTWARD)


def hole_polygon(shape: HoleShape) -> Polygon:
    """Hole as a shapely polygon about its centre: see ``hole_outline`` for how near it is."""
    return solid(hole_outline(shape))


def gap_mm(
    a_outline: Outline, a_place: Place, b_outline: Outline, b_place: Place, *, surface: Surface
) -> float:
    """Shortest distance on the skin between two outlines, either way round the shell.

    Returns
    -------
    float
        0 where they touch; below 0 they overlap, by the shortest move that would part them.
        Exact for the polygons given.

    Examples
    --------
    A lug on its row line 60 degrees from the middle of a bracket:

    >>> from counterhoop.development.outline import rounded
    >>> from counterhoop.development.surface import Skin
    >>> skin = Surface(skin=Skin.OLD, circumference_mm=math.pi * 302.6)
    >>> lug, block = rounded(24.0, 57.0), rounded(50.8, 38.1)
    >>> round(gap_mm(lug, Place(60, 138), block, Place(90, 130), surface=skin), 1)
    41.8
    """
    along_mm = surface.apart_mm(a_place.along_deg, b_place.along_deg)
    down_mm = b_place.down_mm - a_place.down_mm
    a_box, b_box = a_outline.bounds_mm, b_outline.bounds_mm
    both_boxes = _is_box(a_outline) and _is_box(b_outline)
    gap = math.inf
    for right_mm in _ways(along_mm, a_box, b_box, surface):
        x = max(b_box[0] + right_mm - a_box[2], a_box[0] - b_box[2] - right_mm)
        y = max(b_box[1] + down_mm - a_box[3], a_box[1] - b_box[3] - down_mm)
        least = max(x, y) if x <= 0.0 or y <= 0.0 else math.hypot(x, y)
        if both_boxes:
            gap = min(gap, least)
        elif least < gap:
            gap = min(gap, _apart(a_outline, b_outline, right_mm, down_mm))
    return gap


def overlap_mm2(
    a_outline: Outline, a_place: Place, b_outline: Outline, b_place: Place, *, surface: Surface
) -> float:
    """Area of skin under both outlines; 0 where they only touch."""
    along_mm = surface.apart_mm(a_place.along_deg, b_place.along_deg)
    down_mm = b_place.down_mm - a_place.down_mm
    a = solid(a_outline)
    return math.fsum(
        float(a.intersection(_moved(b_outline, right_mm, down_mm)).area)
        for right_mm in _ways(along_mm, a_outline.bounds_mm, b_outline.bounds_mm, surface)
    )


def hole_gap_mm(
    outline: Outline, place: Place, hole_place: Place, hole_shape: HoleShape, *, surface: Surface
) -> float:
    """Shortest distance on the skin from an outline to the edge of a hole.

    Returns
    -------
    float
        Below 0 they overlap, by the shortest move that would part them. Gaps to round holes, slots
        and rectangles are exact; gaps to ovals and the depth of overlaps go by ``hole_outline``,
        off by at most 0.00008 of the hole's half length.
    """
    if isinstance(hole_shape, Oval | Rectangle):
        return gap_mm(outline, place, hole_outline(hole_shape), hole_place, surface=surface)
    area, radius = solid(outline), core_of(hole_shape)[2]
    gap = math.inf
    for right_mm, down_mm in _centres(outline, place, hole_place, hole_shape, surface):
        away = float(area.distance(_core(hole_shape, right_mm, down_mm))) - radius
        if away < 0.0:
            deep = _apart(outline, hole_outline(hole_shape), right_mm, down_mm)
            away = min(away, deep + radius * (OUTWARD - 1.0))
        gap = min(gap, away)
    return gap


def covers(
    outline: Outline,
    place: Place,
    hole_place: Place,
    hole_shape: HoleShape,
    *,
    surface: Surface,
    by_mm: float = 0.0,
) -> bool:
    """Tell whether an outline covers a hole with a margin all round.

    Parameters
    ----------
    by_mm : float
        Margin between the hole's edge and the outline; exactly that much counts as covered.

    Returns
    -------
    bool
        Exact for round holes, slots and rectangles; ovals by ``hole_outline``, to the safe side.
    """
    return any(
        _covers_at(outline, right_mm, down_mm, shape=hole_shape, by_mm=by_mm)
        for right_mm, down_mm in _centres(outline, place, hole_place, hole_shape, surface)
    )


# While a row is dragged, all others cover the holes that they covered.
@lru_cache(maxsize=8192)
def _covers_at(
    outline: Outline, right_mm: float, down_mm: float, *, shape: HoleShape, by_mm: float
) -> bool:
    area, core = solid(outline), _core(shape, right_mm, down_mm)
    radius = 0.0 if isinstance(shape, Oval) else core_of(shape)[2]
    inside = area.covers(core)
    return inside and float(area.exterior.distance(core)) >= radius + by_mm - TOUCH_MM


def _apart(a: Outline, b: Outline, right_mm: float, down_mm: float) -> float:
    """Signed gap of two outlines, the second moved, on a plane."""
    import shapely

    away = float(solid(a).distance(_moved(b, right_mm, down_mm)))
    if away > 0.0:
        return away
    region = barred(a, b, clear_mm=0.0)
    pose = shapely.Point(-right_mm, -down_mm)
    return -float(region.boundary.distance(pose)) if region.covers(pose) else 0.0


def _centres(
    outline: Outline, place: Place, hole_place: Place, shape: HoleShape, surface: Surface
) -> Iterator[tuple[float, float]]:
    """Centres of the hole from the outline's reference point, every way round that may matter."""
    along_mm = surface.apart_mm(place.along_deg, hole_place.along_deg)
    across, high = shape.size_mm
    hole_box = (-across / 2.0, -high / 2.0, across / 2.0, high / 2.0)
    for right_mm in _ways(along_mm, outline.bounds_mm, hole_box, surface):
        yield (right_mm, hole_place.down_mm - place.down_mm)


def _ways(
    along_mm: float,
    a_box: tuple[float, float, float, float],
    b_box: tuple[float, float, float, float],
    surface: Surface,
) -> list[float]:
    """The same offset along taken round the shell, as often as the two reach.

    Left out are turns whose boxes lie a whole girth apart, with another between.
    """
    girth_mm = surface.circumference_mm
    first = math.floor((a_box[0] - b_box[2] - along_mm) / girth_mm)
    last = math.ceil((a_box[2] - b_box[0] - along_mm) / girth_mm)
    turns = sorted(range(first, last + 1), key=lambda k: abs(along_mm + k * girth_mm))
    return [along_mm + k * girth_mm for k in turns]


def _core(shape: HoleShape, right_mm: float, down_mm: float) -> Point | LineString | Polygon:
    import shapely

    if isinstance(shape, Oval):
        return _moved(hole_outline(shape), right_mm, down_mm)
    w, h, _ = core_of(shape)
    if w and h:
        return shapely.box(right_mm - w, down_mm - h, right_mm + w, down_mm + h)
    if w or h:
        return shapely.LineString([(right_mm - w, down_mm - h), (right_mm + w, down_mm + h)])
    return shapely.Point(right_mm, down_mm)


@lru_cache(maxsize=4096)
def _is_box(outline: Outline) -> bool:
    points = outline.points
    left, top, right, bottom = outline.bounds_mm
    if len(points) != 4 or {*points} != {(x, y) for x in (left, right) for y in (top, bottom)}:
        return False
    return all(
        (p[0] == q[0]) != (p[1] == q[1])
        for p, q in zip(points, points[1:] + points[:1], strict=True)
    )


@lru_cache(maxsize=8192)
def _moved(outline: Outline, right_mm: float, down_mm: float) -> Polygon:
    import numpy as np
    import shapely

    return shapely.polygons(np.add(corners_of(outline), (right_mm, down_mm)))


def _around(half_along: float, half_down: float, rx: float, ry: float) -> Outline:
    """Quarter arcs about the ends of a core, point after point from right toward down."""
    points: list[tuple[float, float]] = []
    for start, cx, cy in (
        (0, half_along, half_down),
        (1, -half_along, half_down),
        (2, -half_along, -half_down),
        (3, half_along, -half_down),
    ):
        for step in range(QUAD_SEGS + 1):
            a = math.pi / 2.0 * (start + step / QUAD_SEGS)
            point = (cx + rx * math.cos(a), cy + ry * math.sin(a))
            if not points or math.dist(point, points[-1]) > 1e-9:
                points.append(point)
    if math.dist(points[0], points[-1]) <= 1e-9:
        points.pop()
    return Outline(tuple(points))
