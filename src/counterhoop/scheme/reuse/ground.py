"""Which poses are free: barred regions and drilling discs laid out in the (turn, down) plane."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import BadInput
from counterhoop.scheme.reuse.bars import Barred, BarredDrill, Window
from counterhoop.scheme.reuse.curve import Curves
from counterhoop.scheme.reuse.region import TOLERANCE_MM, Holes, images
from counterhoop.scheme.reuse.wanted import Wanted

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ground:
    """What bars a pose, as far as it meets the window.

    ``bars`` are the edges (n x 4) of each barred region, ``boxes`` their extents; ``discs``
    (x, y, r) are where the wanted hole of the same place in ``drilled`` may not be drilled.
    """

    bars: tuple[Floats, ...]
    boxes: Floats
    discs: Floats
    drilled: Ints

    @property
    def curves(self) -> Curves:
        """Every boundary."""
        none = np.zeros((0, 4))
        return Curves(
            circles=self.discs, segments=np.concatenate([*self.bars, none]) if self.bars else none
        )

    def barred(self, poses: Floats) -> NDArray[np.bool_]:
        """Tell for each pose (n x 2) whether it lies inside a barred region, not on its edge."""
        inside = np.zeros(len(poses), dtype=bool)
        x, y = poses[:, 0], poses[:, 1]
        for edges, (left, top, right, bottom) in zip(self.bars, self.boxes, strict=True):
            at = np.flatnonzero(~inside & (x > left) & (x < right) & (y > top) & (y < bottom))
            if len(at):
                inside[at] = _deep_inside(edges, poses[at], np.full(len(at), TOLERANCE_MM))
        return inside

    def lost(self, boxes: Floats, served: NDArray[np.bool_]) -> NDArray[np.bool_]:
        """Tell of cells (n x 4) in which no pose can be free.

        ``served`` (cells x wanted holes) tells which wanted holes some old hole may serve there.
        """
        middle, half = (boxes[:, :2] + boxes[:, 2:]) / 2.0, (boxes[:, 2:] - boxes[:, :2]) / 2.0
        reach = np.hypot(half[:, 0], half[:, 1]) + 2 * TOLERANCE_MM
        lost = np.zeros(len(boxes), dtype=bool)
        for edges, bar in zip(self.bars, self.boxes, strict=True):
            low, high = boxes[:, :2] > bar[:2], boxes[:, 2:] < bar[2:]
            at = np.flatnonzero(~lost & np.all(low & high, axis=1))
            if len(at):
                lost[at] = _deep_inside(edges, middle[at], reach[at])
        for (x, y, r), wanted in zip(self.discs.tolist(), self.drilled.tolist(), strict=True):
            off = np.abs(middle - (x, y)) + half
            lost |= ~served[:, wanted] & (np.hypot(off[:, 0], off[:, 1]) < r - 2 * TOLERANCE_MM)
        return lost

    def must_serve(self, pose: Floats) -> frozenset[int]:
        """Wanted holes that may not be drilled at this pose."""
        off = self.discs[:, :2] - pose
        deep = np.hypot(off[:, 0], off[:, 1]) < self.discs[:, 2] - TOLERANCE_MM
        return frozenset(self.drilled[deep].tolist())


def _deep_inside(edges: Floats, poses: Floats, margin_mm: Floats) -> NDArray[np.bool_]:
    """Tell which poses lie inside by more than their margin."""
    a, b = edges[None, :, :2], edges[None, :, 2:]
    p = poses[:, None, :]
    edge = b - a
    over = (a[..., 1] > p[..., 1]) != (b[..., 1] > p[..., 1])
    rise = np.where(over, edge[..., 1], 1.0)
    cross = a[..., 0] + (p[..., 1] - a[..., 1]) * edge[..., 0] / rise
    inside: NDArray[np.bool_] = (over & (p[..., 0] < cross)).sum(axis=1) % 2 == 1
    deep = np.flatnonzero(inside)
    to = p[deep] - a
    square = (edge**2).sum(axis=-1)
    t = np.clip((to * edge).sum(axis=-1) / np.where(square > 0.0, square, 1.0), 0.0, 1.0)
    gap = to - t[..., None] * edge
    nearest = np.hypot(gap[..., 0], gap[..., 1]).min(axis=1)
    inside[deep] = nearest > margin_mm[deep]
    return inside


def ground_of(
    wanted: Wanted,
    *,
    holes: Holes,
    window: Window,
    barred: Sequence[Barred],
    barred_drill: Sequence[BarredDrill],
) -> Ground:
    """Lay everything out for each fitting and round the datum.

    Raises
    ------
    BadInput
        A fitting that the group does not have.
    """
    fittings = wanted.fittings
    for lug in (*(bar.lug for bar in barred), *(disc.lug for disc in barred_drill)):
        if lug is not None and not 0 <= lug < len(fittings):
            raise BadInput(
                "the group has no such fitting",
                where="barred",
                given=lug,
                wanted=f"0 to {len(fittings) - 1}",
            )
    shapes = [
        _edges(bar) - np.array([fittings[lug].along_mm, 0.0] * 2)
        for bar in barred
        for lug in (range(len(fittings)) if bar.lug is None else (bar.lug,))
    ]
    boxes = np.array(
        [
            (
                *np.minimum(s[:, :2], s[:, 2:]).min(axis=0),
                *np.maximum(s[:, :2], s[:, 2:]).max(axis=0),
            )
            for s in shapes
        ]
    ).reshape(-1, 4)
    which, shift = images(boxes, window=window, girth_mm=wanted.girth_mm)
    moved = np.column_stack([shift, 0 * shift, shift, 0 * shift])
    bars = tuple(shapes[i] + by for i, by in zip(which, moved, strict=True))

    listed = [
        (disc.along_mm - holes.along[w], disc.down_mm - holes.down[w], disc.radius_mm, w)
        for disc in barred_drill
        if disc.radius_mm > 0.0
        for w in range(len(holes))
        if disc.lug in (None, holes.lug[w]) and disc.hole in (None, holes.hole[w])
    ]
    table = np.array(listed, dtype=float).reshape(-1, 4)
    round_boxes = np.column_stack([table[:, :2] - table[:, 2:3], table[:, :2] + table[:, 2:3]])
    at, by = images(round_boxes, window=window, girth_mm=wanted.girth_mm)
    discs = table[at, :3] + np.column_stack([by, 0 * by, 0 * by])
    return Ground(
        bars=bars, boxes=boxes[which] + moved, discs=discs, drilled=table[at, 3].astype(np.intp)
    )


def _edges(bar: Barred) -> Floats:
    rings = [np.array(ring, dtype=float) for ring in (bar.points, *bar.holes)]
    return np.concatenate([np.column_stack([r, np.roll(r, -1, axis=0)]) for r in rings])
