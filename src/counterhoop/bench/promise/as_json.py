"""What a plan of the bench is asked for with, as JSON and back: the worker gets plain tables."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from typing import Any

from counterhoop.job.promise.so_far import Begun, left_of
from counterhoop.job.schedule.task import Due, Holds, Shop, Task


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanAsked:
    """All that a plan of the bench is made from.

    Attributes
    ----------
    start : datetime.date
        The day with whose midnight it begins.
    shop : Shop
    tasks : tuple of Task
        With the minutes that all of what is left was thought to take before it was begun.
    so_far : tuple of Begun
        Finished work and work in hand.
    dues : tuple of Due
    more : tuple of Task
        Work of one job that is asked about on top.
    promised : mapping of str to date
        By job.
    count : int
        How often the plan is worked with luck.
    limit : float or None
        Effort of the search; what usually suffices where None.
    """

    start: dt.date
    shop: Shop
    tasks: tuple[Task, ...]
    so_far: tuple[Begun, ...] = ()
    dues: tuple[Due, ...] = ()
    more: tuple[Task, ...] = ()
    promised: Mapping[str, dt.date]
    count: int
    limit: float | None = None

    @property
    def left(self) -> tuple[Task, ...]:
        """The same work with the minutes that are usually left of what was begun."""
        begun = {one.task.key: one for one in self.so_far if not one.finished}
        return tuple(
            replace(task, minutes=max(1, round(left_of(task, begun[task.key].worked_min))))
            if task.key in begun
            else task
            for task in self.tasks
        )


def written_asked(asked: PlanAsked) -> bytes:
    """Return what is asked as JSON, the same bytes for the same work."""
    plain = {
        "start": asked.start.isoformat(),
        "shop": asdict(asked.shop),
        "tasks": [asdict(task) for task in asked.tasks],
        "so_far": [asdict(one) for one in asked.so_far],
        "dues": [asdict(due) for due in asked.dues],
        "more": [asdict(task) for task in asked.more],
        "promised": {job: day.isoformat() for job, day in asked.promised.items()},
        "count": asked.count,
        "limit": asked.limit,
    }
    return json.dumps(plain, sort_keys=True, ensure_ascii=False).encode()


def read_asked(written: bytes) -> PlanAsked:
    """Return what was asked."""
    plain = json.loads(written)
    shop = plain["shop"]
    return PlanAsked(
        start=dt.date.fromisoformat(plain["start"]),
        shop=Shop(
            open=tuple((begins, ends) for begins, ends in shop["open"]),
            clamps=shop["clamps"],
            drying=shop["drying"],
            holds=tuple(Holds(**one) for one in shop["holds"]),
        ),
        tasks=tuple(_task(one) for one in plain["tasks"]),
        so_far=tuple(Begun(**{**one, "task": _task(one["task"])}) for one in plain["so_far"]),
        dues=tuple(Due(**one) for one in plain["dues"]),
        more=tuple(_task(one) for one in plain["more"]),
        promised={job: dt.date.fromisoformat(day) for job, day in plain["promised"].items()},
        count=plain["count"],
        limit=plain["limit"],
    )


def _task(row: Mapping[str, Any]) -> Task:
    return Task(**{**row, "after": tuple(row["after"])})
