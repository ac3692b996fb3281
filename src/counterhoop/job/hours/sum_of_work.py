"""How a sum of uncertain times is spread, with one factor that all of them share."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from counterhoop.job.hours.shared import SHARED_SPREAD

CELLS = 8192
"""Steps into which the longest sum is divided."""
TOP_SIGMA = 3.1
"""One time in a thousand lies above: where the division ends."""
SAMPLES = 1000
"""Equally likely sums that stand for all of them."""
TIMES = 512
"""Times between which the percentiles are read."""


def percentiles_of(
    times: Sequence[tuple[float, float]], *, percents: Sequence[int]
) -> tuple[float, ...]:
    """Return percentiles of the sum of lognormal times, all times one shared lognormal factor.

    The sum without the factor is a convolution, done cell by cell; the factor over it is in
    closed form. Matching a single lognormal to mean and variance would be shorter, but where one
    wide time meets narrow ones it puts the 10th percentile up to a third too low.

    Parameters
    ----------
    times : sequence of (float, float)
        Median in minutes, above zero, and sigma of the logarithm, for each; a sigma of 0 is sure.
    percents : sequence of int
        Between 1 and 99.

    Returns
    -------
    tuple of float
        Minutes, one for each percent, to within 0.3 % for sigmas up to 1.2.

    Examples
    --------
    >>> [round(t) for t in percentiles_of([(100.0, 0.0)], percents=(10, 50, 90))]
    [83, 100, 121]
    """
    from scipy.special import ndtr

    sums_min = _sums(times)
    reach = math.exp(5.0 * SHARED_SPREAD)
    asked_min = np.geomspace(sums_min[0] / reach, sums_min[-1] * reach, TIMES)
    off = np.log(asked_min)[:, None] - np.log(sums_min)[None, :]
    below = ndtr(off / SHARED_SPREAD).mean(axis=1)
    found = np.exp(np.interp([p / 100.0 for p in percents], below, np.log(asked_min)))
    return tuple(float(minutes) for minutes in found)


def _sums(times: Sequence[tuple[float, float]]) -> np.ndarray:
    """Return equally likely sums in minutes, ascending, without the shared factor."""
    from scipy.special import ndtr

    sure_min = sum(median for median, spread in times if spread == 0.0)
    unsure = [(median, spread) for median, spread in times if spread > 0.0]
    if not unsure:
        return np.array([sure_min])
    top_min = sum(median * math.exp(TOP_SIGMA * spread) for median, spread in unsure)
    cell_min = top_min / CELLS
    bounds_min = cell_min * np.arange(CELLS + 1)
    # Twice as long as the longest: what runs over the end comes in again at the beginning.
    product = np.ones(CELLS + 1, dtype=complex)
    for median, spread in unsure:
        with np.errstate(divide="ignore"):
            below = ndtr(np.log(bounds_min / median) / spread)
        product *= np.fft.rfft(np.diff(below), 2 * CELLS)
    chance = np.clip(np.fft.irfft(product, 2 * CELLS)[:CELLS], 0.0, None)
    # Each time stands at the middle of its cell, and each sum ends half a cell above.
    ends_min = cell_min * (np.arange(CELLS) + (len(unsure) + 1) / 2.0)
    reached = np.cumsum(chance)
    share = (np.arange(SAMPLES) + 0.5) / SAMPLES
    rises = np.flatnonzero(np.diff(reached, prepend=0.0) > 0.0)
    found: np.ndarray = np.interp(share, reached[rises], ends_min[rises])
    return sure_min + found
