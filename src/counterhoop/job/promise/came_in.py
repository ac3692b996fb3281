"""If this came in today: when would it be ready, and who would wait?"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from counterhoop.errors import BadInput
from counterhoop.job.hours.shared import SHARED_SPREAD
from counterhoop.job.promise.promise import ASKED, Promise, promise
from counterhoop.job.promise.so_far import Begun
from counterhoop.job.promise.still import Still, still
from counterhoop.job.promise.workings import WORKINGS, Workings, workings
from counterhoop.job.schedule.better_order import Progress, Stop
from counterhoop.job.schedule.plan_shop import plan_shop
from counterhoop.job.schedule.task import Due, Plan, Shop, Task
from counterhoop.job.schedule.work_through import work_through

FELT = 0.01
"""A share that falls by less is not told of: another search might have found as much."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """A job with a date, without what came in and with it."""

    without: Still
    with_it: Still

    @property
    def days_later(self) -> int:
        """By so many days would the date to promise today move."""
        return (self.with_it.now.day - self.without.now.day).days

    @property
    def lost(self) -> float:
        """So much falls the share of workings that are done by the date given."""
        return self.without.share - self.with_it.share


@dataclass(frozen=True, slots=True, kw_only=True)
class CameIn:
    """What would come of one more job, done in one way.

    Attributes
    ----------
    job : str
        What came in.
    behind : bool
        It is done behind all others, in the time that they leave; else as the search has it.
    promise : Promise
        When it would be ready.
    waits : tuple of Wait
        Jobs with dates that would feel it, those that would lose most first.
    plan : Plan
        With it.
    """

    job: str
    behind: bool
    promise: Promise
    waits: tuple[Wait, ...]
    plan: Plan


def if_it_came_in(
    more: Sequence[Task],
    *,
    plan: Plan,
    tasks: Sequence[Task],
    dues: Sequence[Due],
    shop: Shop,
    start: dt.date,
    promised: Mapping[str, dt.date],
    seed: int,
    limit: float | None = None,
    count: int = WORKINGS,
    asked: float = ASKED,
    shared_spread: float = SHARED_SPREAD,
    so_far: Sequence[Begun] = (),
    progress: Progress = lambda share: None,
    stop: Stop = lambda: False,
) -> tuple[CameIn, ...]:
    """Plan with one more job, and hold it against the plan as it stands.

    All plans are worked with the same luck, so that what differs comes of the job alone.

    Parameters
    ----------
    more : sequence of Task
        All work of the one job that came in.
    plan : Plan
        As it stands, of ``tasks``.
    tasks, dues, shop : sequence of Task, sequence of Due, Shop
        What is on the bench already; what came in has no date yet.
    start : datetime.date
        The day with whose midnight the plan begins.
    promised : mapping of str to datetime.date
        Dates given, by job.
    seed, limit, progress, stop
        As for ``plan_shop``; the seed is that of the luck too.
    count, shared_spread, so_far
        As for ``workings``.
    asked : float
        The share that is enough.

    Returns
    -------
    tuple of CameIn
        Behind all others; and as a new search has it, where that is ready sooner. The search
        looks at usual hours alone, so that others may lose what they had in hand.

    Raises
    ------
    BadInput
        Nothing came in, or work of several jobs or of one on the bench already; as
        ``plan_shop``, ``workings`` and ``promise``.
    """
    jobs = {task.job for task in more}
    if len(jobs) != 1 or jobs & {task.job for task in tasks}:
        raise BadInput(
            "what comes in is one job, and not on the bench yet", given=sorted(jobs),
            wanted="all work of one new job",
        )  # fmt: skip
    (job,) = jobs
    together = (*tasks, *more)

    def worked(one: Plan, work: Sequence[Task]) -> Workings:
        return workings(
            one.order, work, shop, rng=np.random.Generator(np.random.PCG64(seed)), count=count,
            shared_spread=shared_spread, held=one.held, so_far=so_far,
        )  # fmt: skip

    def stands(found: Workings) -> tuple[Still, ...]:
        return still(found, promised, shop=shop, start=start, asked=asked)

    without = stands(worked(plan, tasks))

    def came_in(one: Plan, *, behind: bool) -> CameIn:
        found = worked(one, together)
        return CameIn(
            job=job,
            behind=behind,
            promise=promise(found.of(job), shop=shop, start=start, asked=asked),
            waits=_felt(without, stands(found)),
            plan=one,
        )

    last = came_in(
        work_through(
            (*plan.order, *(task.key for task in more)), together, shop,
            held=plan.held, dues=dues,
        ), behind=True,
    )  # fmt: skip
    sooner = came_in(
        plan_shop(together, dues, shop, seed=seed, limit=limit, progress=progress, stop=stop),
        behind=False,
    )
    return (last, sooner) if sooner.promise.day < last.promise.day else (last,)


def _felt(without: Sequence[Still], with_it: Sequence[Still]) -> tuple[Wait, ...]:
    """Return the jobs that wait, those that lose most first."""
    waits = (Wait(without=one, with_it=other) for one, other in zip(without, with_it, strict=True))
    return tuple(
        sorted(
            (one for one in waits if one.lost >= FELT or one.days_later > 0),
            key=lambda one: (-one.lost, -one.days_later, one.without.job),
        )
    )
