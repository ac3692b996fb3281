"""Cells of the window that may still hold a better pose, and the crossings inside them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.scheme.reuse.bars import Window
from counterhoop.scheme.reuse.curve import Curves
from counterhoop.scheme.reuse.near import meeting, pairs_within, spread
from counterhoop.scheme.reuse.region import TOLERANCE_MM, Regions

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]

FIRST_MM = 4.0
LEAST_MM = 1e-3
ENOUGH_PAIRS = 4000
MOST_PAIRS = 200_000

Promising = Callable[[Floats, Ints, Ints], NDArray[np.bool_]]
"""Cells (n x 4) and which (cell, region) meet, to which cells may hold a better pose."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cells:
    """Boxes (left, top, right, bottom) with the regions and curves that meet each, by cell."""

    boxes: Floats
    region_cell: Ints
    region: Ints
    curve_cell: Ints
    curve: Ints


def crossings_worth_trying(
    regions: Regions, curves: Curves, *, window: Window, promising: Promising
) -> tuple[Floats, Ints, Ints]:
    """Find every crossing of two curves in the cells that may hold a better pose.

    A cell is dropped only when the regions that meet it could not make any pose in it better than
    the best one known, or when fewer than two curves meet it. What is left is quartered while it
    holds many pairs of curves and quartering leaves fewer of them.

    Returns
    -------
    poses : n x 2
    pose, region : pairs of a pose and a region that may hold it
    """
    cells = _start(regions, curves, window=window)
    before = np.inf
    while True:
        count = np.bincount(cells.curve_cell, minlength=len(cells.boxes))
        cells = _only(cells, count > 1)
        cells = _only(cells, promising(cells.boxes, cells.region_cell, cells.region))
        size = np.max(cells.boxes[:, 2:] - cells.boxes[:, :2], initial=0.0)
        count = np.bincount(cells.curve_cell, minlength=len(cells.boxes))
        pairs = (count * (count - 1) // 2).sum()
        idle = pairs > 0.75 * before and pairs <= MOST_PAIRS
        if pairs <= ENOUGH_PAIRS or idle or size < LEAST_MM:
            return _crossings(cells, curves)
        before = pairs
        cells = _quartered(cells, regions, curves)


def _start(regions: Regions, curves: Curves, *, window: Window) -> Cells:
    x = _steps(window.turn_min_mm, window.turn_max_mm)
    y = _steps(window.down_min_mm, window.down_max_mm)
    left, top = (grid.ravel() for grid in np.meshgrid(x[:-1], y[:-1]))
    right, bottom = (grid.ravel() for grid in np.meshgrid(x[1:], y[1:]))
    boxes = np.column_stack([left, top, right, bottom])
    region, region_cell = meeting(regions.boxes, boxes)
    curve, curve_cell = meeting(curves.boxes, boxes)
    cells = Cells(
        boxes=boxes, region_cell=region_cell, region=region, curve_cell=curve_cell, curve=curve
    )
    return _touching(cells, regions, curves)


def _steps(low: float, high: float) -> Floats:
    return np.linspace(low, high, max(1, int(np.ceil((high - low) / FIRST_MM))) + 1)


def _only(cells: Cells, kept: NDArray[np.bool_]) -> Cells:
    new = np.cumsum(kept) - 1
    with_region, with_curve = kept[cells.region_cell], kept[cells.curve_cell]
    return Cells(
        boxes=cells.boxes[kept],
        region_cell=new[cells.region_cell[with_region]],
        region=cells.region[with_region],
        curve_cell=new[cells.curve_cell[with_curve]],
        curve=cells.curve[with_curve],
    )


def _quartered(cells: Cells, regions: Regions, curves: Curves) -> Cells:
    left, top, right, bottom = cells.boxes.T
    across, down = (left + right) / 2.0, (top + bottom) / 2.0
    wide, high = bool(np.any(right > left)), bool(np.any(bottom > top))
    columns = [(left, across), (across, right)] if wide else [(left, right)]
    rows = [(top, down), (down, bottom)] if high else [(top, bottom)]
    parts = [np.column_stack([x0, y0, x1, y1]) for x0, x1 in columns for y0, y1 in rows]
    n, quarters = len(cells.boxes), len(parts)
    # child i of cell c is numbered c * quarters + i, which keeps pairs sorted by cell
    boxes = np.stack(parts, axis=1).reshape(n * quarters, 4)
    child = np.arange(quarters)

    def handed_down(cell: Ints, item: Ints) -> tuple[Ints, Ints]:
        new = (cell[:, None] * quarters + child).ravel()
        both = np.repeat(item, quarters)
        order = np.argsort(new, kind="stable")
        return new[order], both[order]

    region_cell, region = handed_down(cells.region_cell, cells.region)
    curve_cell, curve = handed_down(cells.curve_cell, cells.curve)
    finer = Cells(
        boxes=boxes, region_cell=region_cell, region=region, curve_cell=curve_cell, curve=curve
    )
    return _touching(finer, regions, curves)


def _touching(cells: Cells, regions: Regions, curves: Curves) -> Cells:
    """Drop pairs that do not meet after all."""
    middle = (cells.boxes[:, :2] + cells.boxes[:, 2:]) / 2.0
    half = (cells.boxes[:, 2:] - cells.boxes[:, :2]) / 2.0
    g, r, c = regions, cells.region, cells.region_cell
    dx = np.maximum(np.abs(middle[c, 0] - g.x[r]) - g.hx[r] - half[c, 0], 0.0)
    dy = np.maximum(np.abs(middle[c, 1] - g.y[r]) - g.hy[r] - half[c, 1], 0.0)
    slack = 2 * TOLERANCE_MM
    with_region = (dx * dx + dy * dy <= (g.r[r] + slack) ** 2) & (dy <= g.strip[r] + slack)

    n = len(curves.circles)
    k, c = cells.curve, cells.curve_cell
    box = curves.boxes[k]
    with_curve = (
        (box[:, 2] >= cells.boxes[c, 0] - slack)
        & (box[:, 0] <= cells.boxes[c, 2] + slack)
        & (box[:, 3] >= cells.boxes[c, 1] - slack)
        & (box[:, 1] <= cells.boxes[c, 3] + slack)
    )
    is_circle = np.flatnonzero(with_curve & (k < n))
    circle, cell = curves.circles[k[is_circle]], c[is_circle]
    off = np.abs(middle[cell] - circle[:, :2])
    near, far = np.maximum(off - half[cell], 0.0), off + half[cell]
    with_curve[is_circle] = (np.hypot(near[:, 0], near[:, 1]) <= circle[:, 2] + slack) & (
        np.hypot(far[:, 0], far[:, 1]) >= circle[:, 2] - slack
    )
    return Cells(
        boxes=cells.boxes,
        region_cell=cells.region_cell[with_region],
        region=r[with_region],
        curve_cell=c[with_curve],
        curve=k[with_curve],
    )


def _crossings(cells: Cells, curves: Curves) -> tuple[Floats, Ints, Ints]:
    found, in_cell = [np.zeros((0, 2))], [np.zeros(0, dtype=np.intp)]
    for first, second in pairs_within(cells.curve_cell, at_once=MOST_PAIRS):
        a, b = cells.curve[first], cells.curve[second]
        poses, pair = curves.crossings(np.minimum(a, b), np.maximum(a, b))
        cell = cells.curve_cell[first[pair]]
        box, slack = cells.boxes[cell], 4 * TOLERANCE_MM
        inside = np.all((poses >= box[:, :2] - slack) & (poses <= box[:, 2:] + slack), axis=1)
        found.append(poses[inside])
        in_cell.append(cell[inside])
    poses, cell = np.concatenate(found), np.concatenate(in_cell)
    start = np.searchsorted(cells.region_cell, cell, side="left")
    end = np.searchsorted(cells.region_cell, cell, side="right")
    pose, at = spread(start, end - start)
    return poses, pose, cells.region[at]
