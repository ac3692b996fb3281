"""The day to promise."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import BadInput
from counterhoop.job.promise.finish_at import doubt_of, ends_of_days, least_done
from counterhoop.job.schedule.task import Shop

ASKED = 0.8
"""A promise that holds four times in five; the rest are rung up in time (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Promise:
    """A day to tell a client.

    Attributes
    ----------
    day : datetime.date
        The first day the shop is open by whose closing enough workings are done.
    share : float
        So many are, of all.
    doubt : float
        So far may ``share`` be off for the count of workings alone, nineteen times in twenty.
    half_by : datetime.date
        By the closing of this day half of the workings are done.
    workings : int
        How many there were.
    asked : float
        The share that was enough.
    """

    day: dt.date
    share: float
    doubt: float
    half_by: dt.date
    workings: int
    asked: float


def promise(
    finishes_min: NDArray[np.float64], *, shop: Shop, start: dt.date, asked: float = ASKED
) -> Promise:
    """Return the first day by which at least a share of workings is done.

    Parameters
    ----------
    finishes_min : array of float, shape (workings,)
        Of one job, as ``Workings.of`` returns them.
    shop : Shop
        Its days: a drum that is cured on a Sunday is promised for the Monday.
    start : datetime.date
        The day with whose midnight the plan begins.
    asked : float
        The share that is enough.

    Raises
    ------
    BadInput
        The working hours given end before so many workings are done.

    Examples
    --------
    >>> shop = Shop(open=((540, 1020), (1980, 2460), (3420, 3900)), clamps=0, drying=0)
    >>> found = promise(
    ...     np.array([900.0, 2000.0, 2100.0, 3500.0, 2400.0]), shop=shop, start=dt.date(2026, 12, 7)
    ... )
    >>> str(found.day), found.share, str(found.half_by)
    ('2026-12-08', 0.8, '2026-12-08')
    """
    count = len(finishes_min)
    day, done = first_day(finishes_min, least_done(count, asked), shop=shop)
    half_day, _ = first_day(finishes_min, least_done(count, 0.5), shop=shop)
    return Promise(
        day=start + dt.timedelta(days=day),
        share=done / count,
        doubt=doubt_of(done / count, count),
        half_by=start + dt.timedelta(days=half_day),
        workings=count,
        asked=asked,
    )


def first_day(finishes_min: NDArray[np.float64], least: int, *, shop: Shop) -> tuple[int, int]:
    """Return the number of the first open day by which so many workings are done, and how many.

    Raises
    ------
    BadInput
        There is none among the working hours given.
    """
    in_order = np.sort(finishes_min)
    for day, closes in ends_of_days(shop):
        done = int(np.searchsorted(in_order, closes, side="right"))
        if done >= least:
            return day, done
    raise BadInput(
        f"the working hours given end before {least} of {len(in_order)} workings are done",
        step="Give the hours of more weeks.",
    )
