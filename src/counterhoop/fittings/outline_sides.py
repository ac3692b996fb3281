"""An outline side by side, as plain arithmetic: reading a book must not load heavy libraries."""

from __future__ import annotations

import math

from counterhoop.development.outline import Outline

LEAST_AREA_MM2 = 0.1
"""Less than this is a line and no base: the smallest pin's foot is larger."""


def room_mm(outline: Outline, *, right_mm: float, down_mm: float) -> float:
    """Distance of a point from an outline's nearest side; below zero outside of it.

    Parameters
    ----------
    outline : Outline
        Its own sides; it does not cross itself.
    right_mm, down_mm : float
        The point, from the same reference point.

    Examples
    --------
    >>> from counterhoop.development.outline import rounded
    >>> room_mm(rounded(24.0, 57.0), right_mm=0.0, down_mm=21.0)
    7.5
    """
    inside = False
    nearest = math.inf
    for (x0, y0), (x1, y1) in _sides(outline):
        if (y0 > down_mm) != (y1 > down_mm):
            crossing = x0 + (down_mm - y0) * (x1 - x0) / (y1 - y0)
            inside ^= right_mm < crossing
        dx, dy = x1 - x0, y1 - y0
        long2 = dx * dx + dy * dy
        t = 0.0 if long2 == 0.0 else ((right_mm - x0) * dx + (down_mm - y0) * dy) / long2
        t = min(1.0, max(0.0, t))
        nearest = min(nearest, math.hypot(x0 + t * dx - right_mm, y0 + t * dy - down_mm))
    return nearest if inside else -nearest


def _sides(
    outline: Outline,
) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    points = outline.points
    return list(zip(points, (*points[1:], points[0]), strict=True))


def is_outline(outline: Outline) -> bool:
    """Tell whether the corners go round an area without crossing their own way.

    Sides that only touch do not cross: see ``LEAST_AREA_MM2`` for what counts as no area.

    Examples
    --------
    >>> is_outline(Outline(((0.0, 0.0), (10.0, 0.0), (10.0, 8.0), (0.0, 8.0))))
    True
    >>> is_outline(Outline(((0.0, 0.0), (10.0, 8.0), (10.0, 0.0), (0.0, 9.0))))
    False
    """
    sides = _sides(outline)
    area = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in sides) / 2.0
    if abs(area) < LEAST_AREA_MM2:
        return False
    return not any(
        _cross(*sides[i], *sides[j])
        for i in range(len(sides))
        for j in range(i + 2, len(sides))
        if not (i == 0 and j == len(sides) - 1)
    )


def _cross(
    a: tuple[float, float],
    b: tuple[float, float],
    c: tuple[float, float],
    d: tuple[float, float],
) -> bool:
    def side(p: tuple[float, float], q: tuple[float, float], r: tuple[float, float]) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0
