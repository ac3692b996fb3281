"""Circles and segments that bound regions: their crossings, and where they come nearest."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.scheme.reuse.bars import Window
from counterhoop.scheme.reuse.region import TOLERANCE_MM, Regions

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]

LONGEST_MM = 8.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Curves:
    """Circles (x, y, r) and segments (x0, y0, x1, y1) in the (turn, down) plane.

    They hold every boundary, and may hold more: a curve too many only adds poses to compare.
    """

    circles: Floats
    segments: Floats

    def __len__(self) -> int:
        return len(self.circles) + len(self.segments)

    @property
    def boxes(self) -> Floats:
        """Left, top, right, bottom; circles first (n x 4)."""
        c, s = self.circles, self.segments
        return np.concatenate(
            [
                np.column_stack([c[:, :2] - c[:, 2:], c[:, :2] + c[:, 2:]]),
                np.column_stack([np.minimum(s[:, :2], s[:, 2:]), np.maximum(s[:, :2], s[:, 2:])]),
            ]
        )

    def own_points(self) -> Floats:
        """Ends of the segments, and one point of each circle: it may cross nothing at all."""
        c, s = self.circles, self.segments
        return np.concatenate(
            [c[:, :2] + np.column_stack([c[:, 2], 0 * c[:, 2]]), s[:, :2], s[:, 2:]]
        )

    def nearest_points(self, to: Floats) -> Floats:
        """Return the point of each curve nearest to each of the poses ``to`` (n x 2)."""
        c, s = self.circles, self.segments
        found = []
        for goal in to:
            out = goal - c[:, :2]
            far = np.hypot(out[:, 0], out[:, 1])
            ok = far > 0.0
            found.append(c[ok, :2] + out[ok] * (c[ok, 2] / far[ok])[:, None])
            edge = s[:, 2:] - s[:, :2]
            square = (edge**2).sum(axis=1)
            t = ((goal - s[:, :2]) * edge).sum(axis=1) / np.where(square > 0.0, square, 1.0)
            inner = (t > 0.0) & (t < 1.0)
            found.append(s[inner, :2] + t[inner, None] * edge[inner])
        return np.concatenate(found) if found else np.zeros((0, 2))

    def chopped(self) -> Curves:
        """The same with long segments in pieces, so that their boxes are small."""
        s = self.segments
        length = np.hypot(s[:, 2] - s[:, 0], s[:, 3] - s[:, 1])
        pieces = np.maximum(1, np.ceil(length / LONGEST_MM)).astype(np.intp)
        if not len(s) or pieces.max() == 1:
            return self
        at = np.repeat(np.arange(len(s)), pieces)
        step = np.arange(len(at)) - np.repeat(np.cumsum(pieces) - pieces, pieces)
        edge = s[at, 2:] - s[at, :2]
        start = s[at, :2] + edge * (step / pieces[at])[:, None]
        end = s[at, :2] + edge * ((step + 1) / pieces[at])[:, None]
        return Curves(circles=self.circles, segments=np.column_stack([start, end]))

    def crossings(self, a: Ints, b: Ints) -> tuple[Floats, Ints]:
        """Return where pairs of curves cross or touch, and which pair each point is from.

        Indices count circles first; ``a`` is less than ``b`` in every pair. Curves that pass each
        other by less than the tolerance touch. Segments on one line meet at their ends only.
        """
        n = len(self.circles)
        kinds = (
            (np.flatnonzero(b < n), self._circle_circle),
            (np.flatnonzero((a < n) & (b >= n)), self._circle_segment),
            (np.flatnonzero(a >= n), self._segment_segment),
        )
        points, pairs = [], []
        for pair, meet in kinds:
            if len(pair):
                found, which = meet(a[pair], b[pair])
                points.append(found)
                pairs.append(pair[which])
        if not points:
            return np.zeros((0, 2)), np.zeros(0, dtype=np.intp)
        return np.concatenate(points), np.concatenate(pairs)

    def _circle_circle(self, a: Ints, b: Ints) -> tuple[Floats, Ints]:
        p, q = self.circles[a], self.circles[b]
        off = q[:, :2] - p[:, :2]
        far = np.hypot(off[:, 0], off[:, 1])
        outside = far - (p[:, 2] + q[:, 2])
        inside = np.abs(p[:, 2] - q[:, 2]) - far
        meet = np.flatnonzero(
            (outside <= TOLERANCE_MM) & (inside <= TOLERANCE_MM) & (far > TOLERANCE_MM)
        )
        p, q, off, far = p[meet], q[meet], off[meet] / far[meet, None], far[meet]
        along = (far + (p[:, 2] - q[:, 2]) * (p[:, 2] + q[:, 2]) / far) / 2.0
        half = np.sqrt(np.maximum(p[:, 2] ** 2 - along**2, 0.0))
        # circles that pass each other by a hair meet halfway between
        along = np.clip(along, -p[:, 2] - TOLERANCE_MM / 2, p[:, 2] + TOLERANCE_MM / 2)
        foot = p[:, :2] + off * along[:, None]
        side = np.column_stack([-off[:, 1], off[:, 0]]) * half[:, None]
        return np.concatenate([foot + side, foot - side]), np.concatenate([meet, meet])

    def _circle_segment(self, a: Ints, b: Ints) -> tuple[Floats, Ints]:
        c, s = self.circles[a], self.segments[b - len(self.circles)]
        edge = s[:, 2:] - s[:, :2]
        length = np.hypot(edge[:, 0], edge[:, 1])
        unit = edge / np.where(length > 0.0, length, 1.0)[:, None]
        to = c[:, :2] - s[:, :2]
        t = (to * unit).sum(axis=1)
        gap = unit[:, 0] * to[:, 1] - unit[:, 1] * to[:, 0]
        near = np.flatnonzero((np.abs(gap) <= c[:, 2] + TOLERANCE_MM) & (length > 0.0))
        half = np.sqrt(np.maximum(c[near, 2] ** 2 - gap[near] ** 2, 0.0))
        found, which = [], []
        for at in (t[near] - half, t[near] + half):
            on = np.flatnonzero((at >= -TOLERANCE_MM) & (at <= length[near] + TOLERANCE_MM))
            here = np.clip(at[on], 0.0, length[near[on]])
            found.append(s[near[on], :2] + unit[near[on]] * here[:, None])
            which.append(near[on])
        return np.concatenate(found), np.concatenate(which)

    def _segment_segment(self, a: Ints, b: Ints) -> tuple[Floats, Ints]:
        n = len(self.circles)
        p, q = self.segments[a - n], self.segments[b - n]
        u, v, w = p[:, 2:] - p[:, :2], q[:, 2:] - q[:, :2], q[:, :2] - p[:, :2]
        lu, lv = np.hypot(u[:, 0], u[:, 1]), np.hypot(v[:, 0], v[:, 1])
        cross = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
        ok = np.flatnonzero(np.abs(cross) > 1e-12 * lu * lv)
        u, v, w, cross = u[ok], v[ok], w[ok], cross[ok]
        t = (w[:, 0] * v[:, 1] - w[:, 1] * v[:, 0]) / cross
        k = (w[:, 0] * u[:, 1] - w[:, 1] * u[:, 0]) / cross
        slack_t, slack_k = TOLERANCE_MM / lu[ok], TOLERANCE_MM / lv[ok]
        on = (t >= -slack_t) & (t <= 1 + slack_t) & (k >= -slack_k) & (k <= 1 + slack_k)
        return p[ok[on], :2] + u[on] * np.clip(t[on], 0, 1)[:, None], ok[on]


def curves_of_regions(regions: Regions) -> Curves:
    """Every curve that bounds a region."""
    g = regions
    corners = [
        np.column_stack([g.x + sx * g.hx, g.y + sy * g.hy, g.r]) for sx in (1, -1) for sy in (1, -1)
    ]
    circles = np.concatenate(corners)
    long = np.flatnonzero((g.hx > 0.0) | (g.hy > 0.0))
    x, y, hx, hy, r = g.x[long], g.y[long], g.hx[long], g.hy[long], g.r[long]
    segments = []
    for s in (1, -1):
        segments.append(np.column_stack([x - hx, y + s * (hy + r), x + hx, y + s * (hy + r)]))
        segments.append(np.column_stack([x + s * (hx + r), y - hy, x + s * (hx + r), y + hy]))
    flat = np.flatnonzero(g.strip < g.r)
    reach = g.hx[flat] + np.sqrt(g.r[flat] ** 2 - g.strip[flat] ** 2)
    for s in (1, -1):
        level = g.y[flat] + s * (g.hy[flat] + g.strip[flat])
        segments.append(np.column_stack([g.x[flat] - reach, level, g.x[flat] + reach, level]))
    for i in np.flatnonzero(g.cover >= 0):
        # a pose p has the misfit (x, y) - p, so the cover lies turned about the region's centre
        e = g.covers[g.cover[i]].corners
        centre = np.array([g.x[i], g.y[i]])
        ends = np.column_stack([centre - e, centre - np.roll(e, -1, axis=0)])
        middle = (ends[:, :2] + ends[:, 2:]) / 2.0 - centre
        half = np.hypot(ends[:, 2] - ends[:, 0], ends[:, 3] - ends[:, 1]) / 2.0
        far = np.hypot(middle[:, 0], middle[:, 1]) - half
        segments.append(ends[far <= g.r[i] + np.hypot(g.hx[i], g.hy[i])])
    return Curves(circles=circles, segments=np.concatenate(segments))


def within(curves: Curves, *, window: Window) -> Curves:
    """Drop duplicates and curves outside the window; add the window's own edges."""
    w = window
    x0, x1, y0, y1 = w.turn_min_mm, w.turn_max_mm, w.down_min_mm, w.down_max_mm
    edges = np.array([[x0, y0, x1, y0], [x0, y1, x1, y1], [x0, y0, x0, y1], [x1, y0, x1, y1]])
    both = Curves(circles=curves.circles, segments=np.concatenate([curves.segments, edges]))
    box, slack = both.boxes, TOLERANCE_MM
    meets = (
        (box[:, 0] <= x1 + slack)
        & (box[:, 2] >= x0 - slack)
        & (box[:, 1] <= y1 + slack)
        & (box[:, 3] >= y0 - slack)
    )
    n = len(both.circles)
    return Curves(
        circles=_distinct(both.circles[meets[:n]]), segments=_distinct(both.segments[meets[n:]])
    )


def _distinct(rows: Floats) -> Floats:
    """Drop rows that are equal to a thousandth of the tolerance."""
    if len(rows) < 2:
        return rows
    _, first = np.unique(np.round(rows / (1e-3 * TOLERANCE_MM)), axis=0, return_index=True)
    return rows[np.sort(first)]
