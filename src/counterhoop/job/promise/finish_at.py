"""Minutes and days read from the finishes of one job."""

from __future__ import annotations

import datetime as dt
from math import ceil, sqrt

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import BadInput
from counterhoop.job.open_hours.minutes import end_of
from counterhoop.job.open_hours.week import DAY_MIN
from counterhoop.job.schedule.task import Shop

SURE = 1.959963984540054
"""Within so many sigmas lie 95 % of a normal."""


def finish_at(finishes_min: NDArray[np.float64], share: float) -> float:
    """Return the first minute by which at least a share of workings was done.

    Parameters
    ----------
    finishes_min : array of float, shape (workings,)
    share : float
        Above 0, at most 1.

    Returns
    -------
    float
        A finish that came about, nothing between two; infinite where too few were done.

    Examples
    --------
    >>> finish_at(np.array([50.0, 10.0, 40.0, 20.0, 30.0]), 0.8)
    40.0
    """
    return float(np.sort(finishes_min)[least_done(len(finishes_min), share) - 1])


def least_done(count: int, share: float) -> int:
    """Return the least number of workings that is at least a share of all."""
    if count < 1 or not 0 < share <= 1:
        raise BadInput("a share of all workings", given=share, wanted="above 0 and at most 1")
    return max(1, ceil(share * count - 1e-9))


def doubt_of(share: float, count: int) -> float:
    """Return how far a share of so many workings may be off, nineteen times in twenty.

    Half the width of the interval of Wilson (1927, Journal of the American Statistical
    Association 22, from memory), which is not nothing where all workings agree.

    Examples
    --------
    >>> round(doubt_of(0.8, 4000), 4), round(doubt_of(1.0, 400), 4)
    (0.0124, 0.0048)
    """
    spread = share * (1.0 - share) / count + (SURE / (2.0 * count)) ** 2
    return SURE * sqrt(spread) / (1.0 + SURE**2 / count)


def ends_of_days(shop: Shop) -> tuple[tuple[int, int], ...]:
    """Return the days on which the shop is open, and the minute at which each day closes.

    Only on these can anyone come for a drum, and not after they close.

    Examples
    --------
    >>> ends_of_days(Shop(open=((540, 720), (780, 1080), (3420, 3600)), clamps=0, drying=0))
    ((0, 1080), (2, 3600))
    """
    return tuple({(ends - 1) // DAY_MIN: ends for _, ends in shop.open}.items())


def end_of_day(day: dt.date, *, shop: Shop, start: dt.date) -> int:
    """Return the minute of the plan by which a drum promised for a day is to be ready.

    When the shop closes; when the day is over where the shop is closed or no hours are given.

    Parameters
    ----------
    day : datetime.date
        Promised.
    shop : Shop
    start : datetime.date
        The day with whose midnight the plan begins.
    """
    return dict(ends_of_days(shop)).get((day - start).days, end_of(day, start=start))
