"""Which boxes meet which: near pairs without trying them all."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from counterhoop.scheme.reuse.region import TOLERANCE_MM

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]


def spread(starts: Ints, counts: Ints) -> tuple[Ints, Ints]:
    """Expand runs: the row that each element belongs to, and the element's index.

    Examples
    --------
    >>> rows, items = spread(np.array([5, 0]), np.array([2, 1]))
    >>> rows.tolist(), items.tolist()
    ([0, 0, 1], [5, 6, 0])
    """
    rows = np.repeat(np.arange(len(starts)), counts)
    before = np.cumsum(counts) - counts
    return rows, np.arange(len(rows)) - np.repeat(before - starts, counts)


def meeting(a: Floats, b: Floats) -> tuple[Ints, Ints]:
    """Pairs of boxes (left, top, right, bottom; n x 4 and m x 4) that meet, within tolerance.

    Sorted by the index into ``b``. Boxes ``a`` of like width make it quick.
    """
    if not len(a) or not len(b):
        none = np.zeros(0, dtype=np.intp)
        return none, none
    order = np.argsort(a[:, 0], kind="stable")
    left = a[order, 0]
    widest = float(np.max(a[:, 2] - a[:, 0]))
    low = np.searchsorted(left, b[:, 0] - widest - 2 * TOLERANCE_MM, side="left")
    high = np.searchsorted(left, b[:, 2] + 2 * TOLERANCE_MM, side="right")
    of_b, at = spread(low, high - low)
    of_a = order[at]
    p, q = a[of_a], b[of_b]
    meets = (
        (p[:, 2] >= q[:, 0] - TOLERANCE_MM)
        & (p[:, 0] <= q[:, 2] + TOLERANCE_MM)
        & (p[:, 3] >= q[:, 1] - TOLERANCE_MM)
        & (p[:, 1] <= q[:, 3] + TOLERANCE_MM)
    )
    return of_a[meets], of_b[meets]


def pairs_within(group: Ints, *, at_once: int) -> Iterator[tuple[Ints, Ints]]:
    """Pairs of positions that share a group, about ``at_once`` at a time; ``group`` is sorted.

    Examples
    --------
    >>> [(a.tolist(), b.tolist()) for a, b in pairs_within(np.array([0, 0, 0, 7]), at_once=99)]
    [([0, 0, 1], [1, 2, 2])]
    """
    here = np.arange(len(group))
    counts = np.searchsorted(group, group, side="right") - here - 1
    block = np.cumsum(counts) // at_once
    for begin, end in pairwise([0, *(np.flatnonzero(np.diff(block)) + 1).tolist(), len(group)]):
        rows, second = spread(here[begin:end] + 1, counts[begin:end])
        yield begin + rows, second
