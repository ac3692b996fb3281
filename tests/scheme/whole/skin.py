"""Holes and bases on the skin, made with shapely from their own figures and nothing else."""

from __future__ import annotations

import math

import shapely
from shapely import affinity

from counterhoop.development.outline import Outline
from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape, Oval, Rectangle, Round, Slot

QUARTER = 64
SLACK_MM = 5e-3
"""How far a polygon of so many sides lies inside its circle, and more."""


def hole(shape: HoleShape) -> shapely.Geometry:
    """A hole about its own centre."""
    if isinstance(shape, Round):
        return shapely.Point(0, 0).buffer(shape.diameter_mm / 2, quad_segs=QUARTER)
    if isinstance(shape, Slot):
        half = (shape.length_mm - shape.width_mm) / 2
        ends = [(-half, 0), (half, 0)] if shape.lies == "along" else [(0, -half), (0, half)]
        return shapely.LineString(ends).buffer(shape.width_mm / 2, quad_segs=QUARTER)
    wide, high = shape.size_mm
    if isinstance(shape, Oval):
        return affinity.scale(shapely.Point(0, 0).buffer(0.5, quad_segs=QUARTER), wide, high)
    assert isinstance(shape, Rectangle)
    return shapely.box(-wide / 2, -high / 2, wide / 2, high / 2)


def base(outline: Outline) -> shapely.Geometry:
    """A base about its reference point."""
    return shapely.Polygon(outline.points)


def off(place: Place, seen_from: Place, *, girth_mm: float) -> tuple[float, float]:
    """How far a place lies to the right of and below another, the short way round."""
    turn = math.remainder(place.along_deg - seen_from.along_deg, 360.0)
    return turn * girth_mm / 360.0, place.down_mm - seen_from.down_mm


def laid(
    thing: shapely.Geometry, place: Place, seen_from: Place, *, girth_mm: float
) -> shapely.Geometry:
    """A thing at its place, in millimetres from another place."""
    return affinity.translate(thing, *off(place, seen_from, girth_mm=girth_mm))


def holds(outer: shapely.Geometry, inner: shapely.Geometry) -> bool:
    """Whether one holds another whole."""
    return bool(outer.buffer(SLACK_MM).covers(inner))
