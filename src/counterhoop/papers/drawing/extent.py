"""How far a stroke reaches."""

from __future__ import annotations

from functools import lru_cache

from counterhoop.papers.drawing.hatch import flattened
from counterhoop.papers.drawing.lettering import Box, box_of
from counterhoop.papers.drawing.records import Circle, Line, Stroke, Text


def extent_box(stroke: Stroke) -> Box:
    """Left, top, right and bottom of a stroke, without its pen; ends of slots included.

    Examples
    --------
    >>> from counterhoop.papers.drawing.records import Layer
    >>> extent_box(Circle(layer=Layer.KEEP, x_mm=10.0, y_mm=20.0, diameter_mm=6.0))
    (7.0, 17.0, 13.0, 23.0)
    """
    if isinstance(stroke, Text):
        return box_of(stroke)
    if isinstance(stroke, Circle):
        r = stroke.diameter_mm / 2
        return (stroke.x_mm - r, stroke.y_mm - r, stroke.x_mm + r, stroke.y_mm + r)
    if isinstance(stroke, Line):
        x1, y1, x2, y2 = stroke.x1_mm, stroke.y1_mm, stroke.x2_mm, stroke.y2_mm
        left, right = (x1, x2) if x1 <= x2 else (x2, x1)
        return (left, y1, right, y2) if y1 <= y2 else (left, y2, right, y1)
    return _round_corners(stroke.points, stroke.bulges)


@lru_cache(maxsize=1024)
def _round_corners(points: tuple[tuple[float, float], ...], bulges: tuple[float, ...]) -> Box:
    corners = flattened(points, bulges)
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return (min(xs), min(ys), max(xs), max(ys))
