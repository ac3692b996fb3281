"""Quantiles, median and number of readings that do not all count the same."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

NEARLY = 1e-12
"""Shares that differ by less are the same: sums of floats end in other last digits."""


def weighted_quantile(values: Array, weights: Array, *, share: float) -> float:
    """Return the smallest value that, with all below it, holds at least that share of the weight.

    Parameters
    ----------
    values, weights : array, shape (n,)
        At least one weight above 0, none below.
    share : float
        From 0 to 1.

    Examples
    --------
    >>> weighted_quantile(np.array([1.0, 2.0, 9.0]), np.array([1.0, 1.0, 6.0]), share=0.25)
    2.0
    """
    return _at(values, weights, share, side="left")


def weighted_median(values: Array, weights: Array) -> float:
    """Return the value with half of the weight on either side.

    Where the halves meet between two values it is the middle of the two, so that turning all
    signs turns its sign.

    Examples
    --------
    >>> weighted_median(np.array([1.0, 2.0, 9.0]), np.array([2.0, 1.0, 1.0]))
    1.5
    """
    return 0.5 * (_at(values, weights, 0.5, side="left") + _at(values, weights, 0.5, side="right"))


def effective_number(weights: Array) -> float:
    """Return how many readings of equal weight tell as much: (sum w)^2 / sum w^2.

    Source: Kish 1965, Survey Sampling (from memory).

    Examples
    --------
    >>> effective_number(np.array([1.0, 1.0])), effective_number(np.array([1.0, 0.0]))
    (2.0, 1.0)
    """
    scaled = weights / weights.max()
    return float(scaled.sum() ** 2 / (scaled**2).sum())


def _at(values: Array, weights: Array, share: float, *, side: str) -> float:
    order = np.argsort(values, kind="stable")
    held = weights[order] > 0.0
    order = order[held]
    sums = np.cumsum(weights[order])
    sums /= sums[-1]
    # Where the sum meets the share to the last digits, left takes this value, right the next.
    aim = share - NEARLY if side == "left" else share + NEARLY
    return float(values[order[min(int(np.searchsorted(sums, aim)), len(order) - 1)]])
