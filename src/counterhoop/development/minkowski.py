"""Where a base may not stand: the region of its poses that bring it too near an obstacle.

A pose is (along, down) in millimetres of the base's reference point from the obstacle's.
"""

from __future__ import annotations

import math
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, TypeAlias

from counterhoop.development.outline import Outline
from counterhoop.development.solid import Point, convex_pieces, solid
from counterhoop.errors import BadInput

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

    Region: TypeAlias = Polygon | MultiPolygon

QUAD_SEGS = 32
_STEP = math.pi / 2.0 / QUAD_SEGS


@lru_cache(maxsize=1024)
def barred(base: Outline, obstacle: Outline, *, clear_mm: float) -> Region:
    """Poses at which a base comes nearer than ``clear_mm`` to an obstacle, or overlaps it.

    The sum of the obstacle and the base reflected in its reference point (Lozano-Perez, 1983),
    widened by the clearance. The forbidden poses are the inside; on the boundary the base stands
    exactly at the clearance, which is allowed.

    Parameters
    ----------
    base, obstacle : Outline
        Each about its own reference point, turned as it stands. Neither need be convex.
    clear_mm : float
        0 or more.

    Returns
    -------
    shapely.Polygon or MultiPolygon
        In (along, down) millimetres of the base's reference point from the obstacle's. Exact for
        polygons but for the round corners of the clearance, which lie outside the true arc by at
        most ``clear_mm`` x 0.0003. On one plane: copies round the shell are the caller's.

    Examples
    --------
    >>> from counterhoop.development.outline import rounded
    >>> barred(rounded(24, 57), rounded(60, 70), clear_mm=0.0).bounds
    (-42.0, -63.5, 42.0, 63.5)
    """
    import shapely

    _not_below_nothing(clear_mm, "clear_mm")
    mirrored = [tuple((-x, -y) for x, y in piece) for piece in convex_pieces(base)]
    sums = [_sum_of_convex(a, b) for a in convex_pieces(obstacle) for b in mirrored]
    # Widening each piece and joining them is the same as widening the whole.
    regions = [shapely.Polygon(_widened(ring, clear_mm)).convex_hull for ring in sums]
    return regions[0] if len(regions) == 1 else shapely.union_all(regions)


@lru_cache(maxsize=1024)
def eroded(base: Outline, radius_mm: float) -> Region:
    """Places of a hole's centre at which the base covers the whole hole.

    Parameters
    ----------
    base : Outline
        About its reference point, turned as it stands.
    radius_mm : float
        Of the hole, with the margin wanted all round added to it.

    Returns
    -------
    shapely.Polygon or MultiPolygon
        In millimetres right and down of the hole's centre from the base's reference point; empty
        where the base covers no such hole. The base covers a given hole for the poses of this
        region reflected in the hole's centre. Exact for polygons, but for concave corners, where
        it is smaller than the true region by at most ``radius_mm`` x 0.0003.
    """
    import shapely

    _not_below_nothing(radius_mm, "radius_mm")
    whole = solid(base)
    if radius_mm == 0.0:
        return whole
    if len(convex_pieces(base)) == 1:
        return whole.buffer(-radius_mm)
    # The centre keeps its distance from every side: off goes a capsule about each.
    sides = pairwise([*base.points, base.points[0]])
    near = [shapely.Polygon(_widened([p, q], radius_mm)) for p, q in sides]
    return whole.difference(shapely.union_all(near))


def _widened(ring: list[Point], by_mm: float) -> list[Point]:
    """Offset a convex ring (or the two ends of a line) outward.

    Sides move by exactly ``by_mm``; round corners become sides that touch the true arc from
    outside.
    """
    if by_mm == 0.0:
        return ring
    ring = [p for n, p in enumerate(ring) if math.dist(p, ring[n - 1]) > 1e-9]
    wide: list[Point] = []
    for n, (x, y) in enumerate(ring):
        (x0, y0), (x1, y1) = ring[n - 1], ring[(n + 1) % len(ring)]
        start = math.atan2(-(x - x0), y - y0)
        turn = (math.atan2(-(x1 - x), y1 - y) - start) % (2.0 * math.pi)
        # A straight corner may come out as a hair less than once round.
        turn = 0.0 if turn > 1.5 * math.pi else turn
        steps = max(1, math.ceil(turn / _STEP))
        out_mm = by_mm / math.cos(turn / steps / 2.0)
        for step in range(steps):
            a = start + turn * (step + 0.5) / steps
            wide.append((x + out_mm * math.cos(a), y + out_mm * math.sin(a)))
    return wide


def _sum_of_convex(a: tuple[Point, ...], b: tuple[Point, ...]) -> list[Point]:
    """Minkowski sum of two convex rings with positive turn, by merging edges in order of angle."""
    a, b = _from_lowest(a), _from_lowest(b)
    edges_a = [(q[0] - p[0], q[1] - p[1]) for p, q in pairwise([*a, a[0]])]
    edges_b = [(q[0] - p[0], q[1] - p[1]) for p, q in pairwise([*b, b[0]])]
    x, y = a[0][0] + b[0][0], a[0][1] + b[0][1]
    ring = [(x, y)]
    i = j = 0
    while i < len(edges_a) or j < len(edges_b):
        if i == len(edges_a):
            turn = -1.0
        elif j == len(edges_b):
            turn = 1.0
        else:
            turn = edges_a[i][0] * edges_b[j][1] - edges_a[i][1] * edges_b[j][0]
        if turn >= 0.0:
            x, y = x + edges_a[i][0], y + edges_a[i][1]
            i += 1
        else:
            x, y = x + edges_b[j][0], y + edges_b[j][1]
            j += 1
        ring.append((x, y))
    return ring[:-1]


def _from_lowest(ring: tuple[Point, ...]) -> tuple[Point, ...]:
    start = min(range(len(ring)), key=lambda i: (ring[i][1], ring[i][0]))
    return ring[start:] + ring[:start]


def _not_below_nothing(value_mm: float, where: str) -> None:
    if not 0.0 <= value_mm < math.inf:
        raise BadInput(
            "a distance is not less than nothing", where=where, given=value_mm, wanted="0 or more"
        )
