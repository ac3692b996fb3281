"""The smallest ring that a drum with its fittings goes through."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

Point = tuple[float, float]
Circle = tuple[float, float, float]

SHELL_POINTS = 180
"""The shell's round as a polygon drawn outside it; 0.03 mm too wide on a 400 mm drum."""


@lru_cache(maxsize=512)
def overall_width_mm(radius_mm: float, reach: tuple[tuple[float, float], ...]) -> float:
    """Diameter of the smallest circle round a shell and what stands out from it.

    Parameters
    ----------
    radius_mm : float
        Of the shell, finish included.
    reach : tuple of (along_deg, reach_mm)
        Where fittings stand and how far they reach out from the skin. Each counts as a point on
        its own middle line.

    Returns
    -------
    float
        For one fitting alone the shell's diameter and its reach; for fittings all round the
        diameter and twice the reach.

    Notes
    -----
    Smallest enclosing circle by Welzl (1991), "Smallest enclosing disks", in the incremental
    form; exact for the points, the order of which does not matter.

    Examples
    --------
    >>> round(overall_width_mm(150.0, ((90.0, 70.0),)), 1)
    370.0
    >>> round(overall_width_mm(150.0, tuple((k * 60.0, 20.0) for k in range(6))), 1)
    340.0
    """
    out = radius_mm / math.cos(math.pi / SHELL_POINTS)
    points = [_at(out, 360.0 * k / SHELL_POINTS) for k in range(SHELL_POINTS)]
    far = [_at(radius_mm + mm, deg) for deg, mm in reach if mm > 0.0]
    # The outermost first: later points then rarely change the circle.
    return 2.0 * _smallest([*sorted(far, key=lambda p: -math.hypot(*p)), *points])[2]


def _at(radius_mm: float, along_deg: float) -> Point:
    a = math.radians(along_deg)
    return (radius_mm * math.cos(a), radius_mm * math.sin(a))


def _smallest(points: Sequence[Point]) -> Circle:
    circle: Circle = (points[0][0], points[0][1], 0.0)
    for i, p in enumerate(points):
        if _holds(circle, p):
            continue
        circle = (p[0], p[1], 0.0)
        for j, q in enumerate(points[:i]):
            if _holds(circle, q):
                continue
            circle = _across(p, q)
            for r in points[:j]:
                if not _holds(circle, r):
                    circle = _through(p, q, r)
    return circle


def _holds(circle: Circle, point: Point) -> bool:
    return math.hypot(point[0] - circle[0], point[1] - circle[1]) <= circle[2] + 1e-9


def _across(p: Point, q: Point) -> Circle:
    return ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2, math.dist(p, q) / 2)


def _through(p: Point, q: Point, r: Point) -> Circle:
    """Circle through three points; across the two farthest when they lie in line."""
    ax, ay, bx, by = q[0] - p[0], q[1] - p[1], r[0] - p[0], r[1] - p[1]
    d = 2.0 * (ax * by - ay * bx)
    if abs(d) < 1e-12:
        return max((_across(p, q), _across(q, r), _across(p, r)), key=lambda c: c[2])
    a2, b2 = ax * ax + ay * ay, bx * bx + by * by
    x, y = (by * a2 - ay * b2) / d, (ax * b2 - bx * a2) / d
    return (p[0] + x, p[1] + y, math.hypot(x, y))
