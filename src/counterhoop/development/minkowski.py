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
# Arcs are drawn as chords: widened by this much the chords touch the arc from outside.
OUTWARD = 1.0 / math.cos(math.pi / (4 * QUAD_SEGS))


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
    sums = [
        shapely.Polygon(_sum_of_convex(a, b)).convex_hull
        for a in convex_pieces(obstacle)
        for b in mirrored
    ]
    region = sums[0] if len(sums) == 1 else shapely.union_all(sums)
    return widened(region, clear_mm)


def widened(region: Region, by_mm: float) -> Region:
    """Widen a region by a distance all round, with arcs that lie outside the true ones."""
    if by_mm == 0.0:
        return region
    return region.buffer(by_mm * OUTWARD, quad_segs=QUAD_SEGS)


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
    _not_below_nothing(radius_mm, "radius_mm")
    whole = solid(base)
    if radius_mm == 0.0:
        return whole
    # Taken from outside, so that the arcs at concave corners err inward.
    around = whole.envelope.buffer(2.0 * radius_mm + 1.0, join_style="mitre")
    return whole.difference(widened(around.difference(whole), radius_mm))


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
