"""How likely the dates are that were given already."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from counterhoop.job.promise.finish_at import doubt_of, end_of_day
from counterhoop.job.promise.promise import ASKED, Promise, promise
from counterhoop.job.promise.workings import Workings
from counterhoop.job.schedule.task import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class Still:
    """A date that was given, as the plan stands.

    Attributes
    ----------
    job : str
        Whose.
    promised : datetime.date
        The date.
    share, doubt : float
        Of the workings so many are done by then, and how far that may be off.
    now : Promise
        What would be promised today.
    """

    job: str
    promised: dt.date
    share: float
    doubt: float
    now: Promise

    @property
    def holds(self) -> bool:
        """Whether as many workings are done by then as are asked for."""
        return self.share >= self.now.asked - 1e-9


def still(
    found: Workings,
    promised: Mapping[str, dt.date],
    *,
    shop: Shop,
    start: dt.date,
    asked: float = ASKED,
) -> tuple[Still, ...]:
    """Return how likely each date is that was given, in the order of the dates.

    Parameters
    ----------
    found : Workings
    promised : mapping of str to datetime.date
        By job.
    shop : Shop
    start : datetime.date
        The day with whose midnight the plan begins.
    asked : float
        The share that is enough.

    Raises
    ------
    BadInput
        A job that has no work in the plan, or working hours that end too soon.
    """
    told = []
    for job, day in sorted(promised.items(), key=lambda item: (item[1], item[0])):
        finishes = found.of(job)
        share = float(np.mean(finishes <= end_of_day(day, shop=shop, start=start)))
        told.append(
            Still(
                job=job,
                promised=day,
                share=share,
                doubt=doubt_of(share, len(finishes)),
                now=promise(finishes, shop=shop, start=start, asked=asked),
            )
        )
    return tuple(told)
