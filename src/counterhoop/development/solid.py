"""An outline as an area, checked, and cut into convex pieces."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, TypeAlias

from counterhoop.development.outline import Outline
from counterhoop.errors import BadInput

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from shapely import Polygon

Point: TypeAlias = tuple[float, float]
# Corners flatter than this (mm2 of turn) count as straight.
_FLAT_MM2 = 1e-9


@lru_cache(maxsize=4096)
def solid(outline: Outline) -> Polygon:
    """Outline as a shapely polygon about its own reference point.

    Raises
    ------
    BadInput
        When it has fewer than three corners, encloses nothing or crosses itself.
    """
    import shapely

    if len(outline.points) < 3:
        raise BadInput(
            "an outline needs three corners or more", where="outline", given=len(outline.points)
        )
    area = shapely.Polygon(outline.points)
    if not area.is_valid or area.area <= 0.0:
        raise BadInput(
            "the outline crosses itself or encloses nothing",
            where="outline",
            given=outline.points[:4],
            wanted="its corners in order, once round",
        )
    return area


@lru_cache(maxsize=4096)
def corners_of(outline: Outline) -> NDArray[np.float64]:
    """Corners of an outline that ``solid`` takes, (n, 2), to be shifted all at once.

    Raises
    ------
    BadInput
        As ``solid``.
    """
    import numpy as np

    solid(outline)
    return np.array(outline.points, dtype=float)


@lru_cache(maxsize=4096)
def convex_pieces(outline: Outline) -> tuple[tuple[Point, ...], ...]:
    """Cut an outline into convex pieces that cover it without overlap, few but not fewest.

    Triangles first, then neighbours joined while the corner between them stays convex (Hertel and
    Mehlhorn, 1983: at most four times the fewest). A convex outline is one piece. Every piece
    turns from right toward down.
    """
    import shapely

    whole = _turning(list(outline.points))
    area = solid(outline)
    if _convex(whole):
        return (tuple(whole),)
    triangles = shapely.constrained_delaunay_triangles(area).geoms
    pieces = [_turning(list(one.exterior.coords)[:-1]) for one in triangles]
    return tuple(tuple(piece) for piece in _joined(pieces))


def _joined(pieces: list[list[Point]]) -> list[list[Point]]:
    whose = {edge: n for n, piece in enumerate(pieces) for edge in pairwise([*piece, piece[0]])}
    live = dict(enumerate(pieces))
    for p, q in list(whose):
        first, second = whose.get((p, q)), whose.get((q, p))
        if first is None or second is None or first == second:
            continue
        a, b = live[first], live[second]
        i, j = a.index(p), b.index(q)
        # a: p -> q is cut away and b's way from p round to q put in its place.
        joined = a[i + 1 :] + a[: i + 1] + (b[j + 1 :] + b[: j + 1])[1:-1]
        if not _convex(joined):
            continue
        del live[second]
        live[first] = joined
        del whose[(p, q)], whose[(q, p)]
        for edge in pairwise([*joined, joined[0]]):
            whose[edge] = first
    return list(live.values())


def _turning(ring: list[Point]) -> list[Point]:
    twice = sum(p[0] * q[1] - q[0] * p[1] for p, q in pairwise([*ring, ring[0]]))
    return ring if twice > 0.0 else ring[::-1]


def _convex(ring: list[Point]) -> bool:
    count = len(ring)
    for n in range(count):
        (x0, y0), (x1, y1), (x2, y2) = ring[n - 2], ring[n - 1], ring[n]
        if (x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1) < -_FLAT_MM2:
            return False
    return True
