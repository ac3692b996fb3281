"""Pitches of a kit in whole cents: steps as even as they can be, then each near its middle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import BadInput


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """What one drum can do, in whole cents above some pitch.

    Attributes
    ----------
    low, high, middle : int
        Ends, and where it is at its best; one that is settled has all three alike.
    """

    low: int
    high: int
    middle: int


def even_steps(ranges: Sequence[Range], *, least: int = 0) -> tuple[int, ...] | None:
    """Return the pitches of drums that rise one above the other.

    Parameters
    ----------
    ranges : sequence of Range
        By rising pitch.
    least : int
        The smallest step from one to the next.

    Returns
    -------
    tuple of int, or None
        The choice with the least difference between largest and smallest step; of those the one
        with the least sum of squared distances from the middles; of those the one with the
        smallest steps. None where no choice fits.

    Notes
    -----
    Exact: with steps held between two bounds what each drum can reach is one run of whole cents,
    and the best sum up to a drum is convex along it, so that its best neighbour is found at once.
    Nothing is left to a solver.

    Examples
    --------
    >>> even_steps([Range(low=0, high=0, middle=0), Range(low=100, high=300, middle=110),
    ...             Range(low=500, high=500, middle=500)])
    (0, 250, 500)
    """
    if any(one.low > one.high for one in ranges):
        return None
    if len(ranges) == 1:
        return (min(max(ranges[0].middle, ranges[0].low), ranges[0].high),)
    bounds = _bounds(ranges, least)
    if not bounds:
        return None
    spread = min(large - small for small, large in bounds)
    found = [
        _nearest_middles(ranges, small, large) for small, large in bounds if large - small == spread
    ]
    return min(found, key=lambda one: one[0])[1]


def stuck_at(ranges: Sequence[Range], *, least: int) -> tuple[int, int]:
    """Return why ``even_steps`` has no answer: the place of a drum, and of the one it is not above.

    What the first can do ends below what the second needs with the steps between.

    Examples
    --------
    >>> stuck_at([Range(low=500, high=900, middle=700), Range(low=0, high=800, middle=400),
    ...           Range(low=0, high=650, middle=300)], least=100)
    (2, 0)
    """
    holds, need = 0, ranges[0].low
    for place, one in enumerate(ranges[1:], 1):
        need += least
        if need > one.high:
            return place, holds
        if one.low >= need:
            holds, need = place, one.low
    raise BadInput("all steps fit", where="ranges")


def _reach(ranges: Sequence[Range], small: int, large: int) -> list[tuple[int, int]] | None:
    """What each drum can reach with every step between two bounds, seen from the lowest."""
    runs = [(ranges[0].low, ranges[0].high)]
    for one in ranges[1:]:
        low, high = runs[-1]
        run = max(one.low, low + small), min(one.high, high + large)
        if run[0] > run[1]:
            return None
        runs.append(run)
    return runs


def _bounds(ranges: Sequence[Range], least: int) -> list[tuple[int, int]]:
    """Each bound on the smallest step that can be kept, with the least on the largest then."""
    most = ranges[-1].high - ranges[0].low
    small = np.arange(least, most // (len(ranges) - 1) + 1)
    large, fits = small.copy(), np.full(small.shape, ranges[0].low <= ranges[0].high)
    lowest = np.full(small.shape, ranges[0].low)
    for place, one in enumerate(ranges[1:], 1):
        lowest = np.maximum(one.low, lowest + small)
        fits &= lowest <= one.high
        for back, other in enumerate(reversed(ranges[:place]), 1):
            large = np.maximum(large, -((other.high - lowest) // back))
    return list(zip(small[fits].tolist(), large[fits].tolist(), strict=True))


def _nearest_middles(
    ranges: Sequence[Range], small: int, large: int
) -> tuple[int, tuple[int, ...]]:
    runs = _reach(ranges, small, large) or []
    sums: list[NDArray[np.int64]] = []
    below: list[NDArray[np.int64]] = []
    for place, ((low, high), one) in enumerate(zip(runs, ranges, strict=True)):
        here = np.arange(low, high + 1)
        off = (here - one.middle) ** 2
        if place:
            start, end = runs[place - 1]
            best = start + int(np.argmin(sums[-1]))
            neighbour = np.clip(
                best, np.maximum(start, here - large), np.minimum(end, here - small)
            )
            below.append(neighbour)
            off = off + sums[-1][neighbour - start]
        sums.append(off)
    at = runs[-1][0] + int(np.argmin(sums[-1]))
    chosen = [at]
    for place in range(len(ranges) - 1, 0, -1):
        at = int(below[place - 1][at - runs[place][0]])
        chosen.append(at)
    return int(sums[-1].min()), tuple(reversed(chosen))
