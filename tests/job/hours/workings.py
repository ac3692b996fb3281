"""Workings for the tests: dated one after the other, all invented."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable

from counterhoop.job.hours.worked import Worked
from counterhoop.shell.operations import Operation, operations

FIRST_DAY = dt.date(2026, 1, 5)


def of(name: str) -> Operation:
    return next(one for one in operations() if one.name == name)


def with_spread(spread: float) -> Operation:
    """Return an operation of an hour whose tenths lie so far apart."""
    reach = math.exp(1.2815515655446004 * spread)
    return Operation(
        name="true a lid", per="edge", quick_minutes=60.0 / reach, minutes=60.0,
        slow_minutes=60.0 * reach, says="one lid",
    )  # fmt: skip


def workings(
    operation: Operation, each_min: Iterable[float], *, after: int = 0, answered: bool = False
) -> list[Worked]:
    return [
        Worked(
            operation=operation.name, count=1, minutes=minutes,
            when=FIRST_DAY + dt.timedelta(days=after + day), answered=answered,
        )
        for day, minutes in enumerate(each_min)
    ]  # fmt: skip
