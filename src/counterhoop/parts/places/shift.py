"""The shift of a part, at one turn, that leaves its screws most room: by closed forms."""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from counterhoop.parts.places.screw import Screws

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]

ZERO = 1e-9
AT_ONCE = 200_000


def best_shifts(screws: Screws, turns: Floats) -> tuple[Floats, Floats]:
    """Return for each turn (n, radians) the most room and the shift (n x 2) that leaves it.

    How far a screw lies out is a convex function of the shift: the distance from a point (a round
    hole in the part), a line or a box (a slot) less its play. The least of the greatest of such
    functions in the plane is settled by three of them at the most (Helly, 1923, from memory), each
    made of distances from corners and of straight slopes. So every pair and every three of corners
    and slopes is solved, as Apollonius did for circles, and the best of all answers is the best
    there is.
    """
    features = _Features(screws)
    rooms, shifts = [], []
    step = max(1, AT_ONCE // max(1, features.count * len(screws.play)))
    for start in range(0, len(turns), step):
        misfits = screws.misfits(turns[start : start + step])
        # Threes that settle nothing (three corners in line, say) come out as no number.
        with np.errstate(divide="ignore", invalid="ignore"):
            tried = features.answers(misfits)
        room = screws.least_room(misfits[:, None], tried)
        best = np.argmax(room, axis=1)
        here = np.arange(len(best))
        rooms.append(room[here, best])
        shifts.append(tried[here, best])
    return np.concatenate(rooms), np.concatenate(shifts)


class _Features:
    """Corners (distance from a point) and slopes (distance along a normal) of all screws."""

    def __init__(self, screws: Screws) -> None:
        corners: list[tuple[int, float, float]] = []
        slopes: list[tuple[int, float, float, float]] = []
        for k, (along, down) in enumerate(screws.half):
            for x in {-along, along}:
                corners.extend((k, x, y) for y in {-down, down})
            if along:
                slopes.extend([(k, 0.0, 1.0, down), (k, 0.0, -1.0, down)])
            if down:
                slopes.extend([(k, 1.0, 0.0, along), (k, -1.0, 0.0, along)])
            if along and down:
                slopes.append((k, 0.0, 0.0, 0.0))  # anywhere in a wide opening is all the same
        of_corner = np.array(corners).reshape(-1, 3)
        of_slope = np.array(slopes).reshape(-1, 4)
        self.corner = of_corner[:, 0].astype(np.intp)
        self.offset = of_corner[:, 1:]
        self.corner_play = screws.play[self.corner]
        self.slope = of_slope[:, 0].astype(np.intp)
        self.normal = of_slope[:, 1:3]
        self.slope_off = of_slope[:, 3] + screws.play[self.slope]

    @property
    def count(self) -> int:
        """How many answers are tried at each turn."""
        p, q = len(self.corner), len(self.slope)
        return p + p * (p - 1) // 2 + p * q + sum(2 * len(one) for one in _threes(p, q))

    def answers(self, misfits: Floats) -> Floats:
        """Every shift that may be the best at each turn (n x answers x 2)."""
        points = misfits[:, self.corner] + self.offset
        levels = np.einsum("nqi,qi->nq", misfits[:, self.slope], self.normal) + self.slope_off
        tried = [
            points,
            self._between_corners(points),
            self._corner_and_slope(points, levels),
            *(self._three(points, levels, three) for three in _threes(*self._counts)),
        ]
        together = np.concatenate(tried, axis=1)
        usable = np.isfinite(together).all(axis=2, keepdims=True)
        answers: Floats = np.where(usable, together, points[:, :1])
        return answers

    @property
    def _counts(self) -> tuple[int, int]:
        return len(self.corner), len(self.slope)

    def _between_corners(self, points: Floats) -> Floats:
        i, j = np.triu_indices(len(self.corner), k=1)
        way = points[:, j] - points[:, i]
        long = np.hypot(way[..., 0], way[..., 1])
        part = (long + self.corner_play[i] - self.corner_play[j]) / 2.0
        share = np.clip(part, 0.0, long) / np.where(long > 0.0, long, 1.0)
        return np.add(points[:, i], share[..., None] * way, dtype=np.float64)

    def _corner_and_slope(self, points: Floats, levels: Floats) -> Floats:
        p, q = (grid.ravel() for grid in np.indices(self._counts))
        height = np.einsum("npi,pi->np", points[:, p], self.normal[q])
        # A slope's level is where it would be worth nothing; its value is height less level.
        far = np.maximum(0.0, (height - levels[:, q] + self.corner_play[p]) / 2.0)
        shifts: Floats = points[:, p] - far[..., None] * self.normal[q]
        return shifts

    def _three(self, points: Floats, levels: Floats, three: Ints) -> Floats:
        """Shifts at which three features are worth the same: two answers or none."""
        corners = len(self.corner)
        (a1, b1), (a2, b2) = (
            self._level_with(points, levels, three[:, 0], three[:, n]) for n in (1, 2)
        )
        way: Floats = np.cross(a1, a2)
        square = (way * way).sum(axis=2)
        start = (b1[..., None] * np.cross(a2, way) + b2[..., None] * np.cross(way, a1)) / square[
            ..., None
        ]
        if three.size and three[0, 0] >= corners:  # three slopes: a line meets a plane
            first = three[:, 0] - corners
            plane = np.column_stack([self.normal[first], np.full(len(first), -1.0)])
            along = (way * plane).sum(axis=2)
            t = (levels[:, first] - (start * plane).sum(axis=2)) / along
            level: Floats = (start + t[..., None] * way)[..., :2]
            return level
        # A line meets a cone: (u - c)^2 = (v + play)^2.
        first = three[:, 0]
        tip = np.concatenate(
            [
                points[:, first],
                np.broadcast_to(-self.corner_play[first], (len(points), len(first)))[..., None],
            ],
            axis=2,
        )
        cone = np.array([1.0, 1.0, -1.0])
        away = start - tip
        way = way / np.sqrt(square)[..., None]
        a = (way * way * cone).sum(axis=2)
        b = (way * away * cone).sum(axis=2)
        c = (away * away * cone).sum(axis=2)
        under = b * b - a * c
        # What touches meets by a hair or misses by one.
        under = np.where(under > -ZERO * (b * b + np.abs(a * c)), np.maximum(under, 0.0), np.nan)
        q = -(b + np.copysign(np.sqrt(under), b))
        met = [(start + t[..., None] * way)[..., :2] for t in (q / a, c / q)]
        return np.concatenate(met, axis=1)

    def _level_with(
        self, points: Floats, levels: Floats, first: Ints, other: Ints
    ) -> tuple[Floats, Floats]:
        """Plane in (shift, value) in which a feature is worth as much as the first."""
        corners = len(self.corner)
        n, t = len(points), len(first)
        normal, level = np.empty((n, t, 3)), np.empty((n, t))
        sloped = other >= corners
        at = np.flatnonzero(sloped)
        slope = other[at] - corners
        normal[:, at, :2], normal[:, at, 2] = self.normal[slope], -1.0
        level[:, at] = levels[:, slope]
        at = np.flatnonzero(~sloped)
        p, q = points[:, first[at]], points[:, other[at]]
        r, s = self.corner_play[first[at]], self.corner_play[other[at]]
        normal[:, at, :2] = 2.0 * (q - p)
        normal[:, at, 2] = -2.0 * (r - s)
        level[:, at] = r * r - s * s - (p * p).sum(axis=2) + (q * q).sum(axis=2)
        long = np.sqrt((normal * normal).sum(axis=2))
        return normal / long[..., None], level / long


@lru_cache(maxsize=256)
def _threes(corners: int, slopes: int) -> tuple[Ints, ...]:
    """Every three of all features, a corner first; those of slopes alone apart."""
    every = np.array(list(combinations(range(corners + slopes), 3)), dtype=np.intp).reshape(-1, 3)
    flat = every[:, 0] >= corners
    return tuple(part for part in (every[~flat], every[flat]) if len(part))
