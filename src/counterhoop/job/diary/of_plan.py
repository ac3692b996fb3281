"""A plan as lines of the diary."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.job.diary.entry import Entry
from counterhoop.job.open_hours.minutes import time_of
from counterhoop.job.schedule.task import Placed, Plan, Task

ONE_DAY = dt.timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class OnADay:
    """What is promised to a client, or expected in the post, for a day.

    Attributes
    ----------
    key : str
        The job, or the order for a part.
    day : datetime.date
        On which.
    says : str
        "job 14 for its owner", "six tuning rods".
    """

    key: str
    day: dt.date
    says: str


def entries_of(
    plan: Plan,
    tasks: Sequence[Task],
    *,
    start: dt.date,
    promised: Iterable[OnADay] = (),
    expected: Iterable[OnADay] = (),
) -> tuple[Entry, ...]:
    """Return what a plan writes into the diary.

    Parameters
    ----------
    plan : Plan
    tasks : sequence of Task
        All work of the plan.
    start : datetime.date
        The day with whose midnight the plan begins.
    promised, expected : iterable of OnADay
        Dates given to clients, and parts on their way.

    Returns
    -------
    tuple of Entry
        Each stretch at the bench, the end of each cure, what is promised and what is expected,
        in order of time; whole days before what has a time on them.

    Raises
    ------
    BadInput
        Work of the plan that is not among ``tasks``.

    Examples
    --------
    >>> plug = Task(
    ...     key="14/plug", job="14", drum="small tom", says="plug", minutes=60, cure_min=720
    ... )
    >>> plan = Plan(placed=(Placed(key="14/plug", stretches=((540, 600),), cured=1320),), late=0.0)
    >>> for one in entries_of(plan, (plug,), start=dt.date(2026, 12, 7)):
    ...     print(one.begins, one.says)
    2026-12-07 09:00:00 small tom: plug
    2026-12-07 22:00:00 small tom: cured (plug)
    """
    named = {task.key: task for task in tasks}
    found = [
        *(_whole_day(one, kind="promised", says=f"Promised: {one.says}") for one in promised),
        *(_whole_day(one, kind="expected", says=f"Comes in: {one.says}") for one in expected),
    ]
    for placed in plan.placed:
        if placed.key not in named:
            raise BadInput("work of the plan that is not among the work given", where=placed.key)
        found += _worked(placed, named[placed.key], start=start)
    return tuple(sorted(found, key=_when))


def _whole_day(one: OnADay, *, kind: str, says: str) -> Entry:
    return Entry(key=f"{kind}/{one.key}", says=says, begins=one.day, ends=one.day + ONE_DAY)


def _worked(placed: Placed, task: Task, *, start: dt.date) -> Iterator[Entry]:
    for number, (begins, ends) in enumerate(placed.stretches, 1):
        goes_on = f" ({number} of {len(placed.stretches)})" if len(placed.stretches) > 1 else ""
        yield Entry(
            key=f"bench/{task.key}/{number}",
            says=f"{task.drum}: {task.says}{goes_on}",
            begins=time_of(begins, start=start),
            ends=time_of(ends, start=start),
            busy=True,
        )
    if task.cure_min:
        cured = time_of(placed.cured, start=start)
        yield Entry(
            key=f"cured/{task.key}",
            says=f"{task.drum}: cured ({task.says})",
            begins=cured,
            ends=cured,
        )


def _when(one: Entry) -> tuple[dt.datetime, bool, str]:
    if isinstance(one.begins, dt.datetime):
        return one.begins, True, one.key
    return dt.datetime.combine(one.begins, dt.time()), False, one.key
