"""All open jobs planned beside the pages; see ``tasks`` for how it is called."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.plan_job import Progress
from counterhoop.bench.promise.as_json import PlanAsked, read_asked
from counterhoop.job.promise.came_in import CameIn, if_it_came_in
from counterhoop.job.promise.finish_at import doubt_of, ends_of_days
from counterhoop.job.promise.promise import Promise, promise
from counterhoop.job.promise.still import Still, still
from counterhoop.job.promise.workings import workings
from counterhoop.job.schedule.plan_shop import plan_shop, usual_limit
from counterhoop.job.schedule.task import Plan

SEED = 1
SEARCH = 0.7
"""The share of the time that the search takes; the rest is luck."""
MOST_EFFORT = 4.0
"""A person waits for the plan. Of 288 pieces of work in seven jobs four times the effort finds a
plan that is 0.4 % less late."""
HALF = 0.5
"""The share of the time in which the bench is planned without what might come in."""
WEEKS, LUCK = "the weeks are planned", "the plan is worked with the luck that hours have"
WITH_IT = "the weeks are planned with it"


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchPlanned:
    """The plan of all that is on the bench, and what it is worth.

    Attributes
    ----------
    plan : Plan
    promises : mapping of str to Promise
        The day to promise today, by job.
    still : mapping of str to Still
        How likely what was promised is, by job.
    done_by : mapping of str to tuple of (date, float)
        By job, for each day the shop is open on which that grows, the share of workings that are
        done when it closes.
    workings : int
        How many there were.
    effort : float
        What the search was allowed, in seconds about.
    """

    plan: Plan
    promises: Mapping[str, Promise]
    still: Mapping[str, Still]
    done_by: Mapping[str, tuple[tuple[dt.date, float], ...]]
    workings: int
    effort: float = 0.0

    def share_by(self, job: str, day: dt.date) -> float:
        """Return the share of workings in which a job is done by the end of a day."""
        return max((share for on, share in self.done_by.get(job, ()) if on <= day), default=0.0)

    def doubt(self, share: float) -> float:
        """Return how far a share may be off for the count of workings alone."""
        return doubt_of(share, self.workings)


def plan_bench(source: JobSource, *, planned: bytes | None, progress: Progress) -> BenchPlanned:
    """Plan the bench, and work the plan with luck."""
    asked = read_asked(source.tables_json)
    effort = effort_for(asked)
    plan = _plan(asked, effort=effort, progress=progress)
    if not asked.tasks:
        return BenchPlanned(plan=plan, promises={}, still={}, done_by={}, workings=asked.count)
    progress(LUCK, SEARCH)
    found = workings(
        plan.order, asked.tasks, asked.shop, rng=np.random.Generator(np.random.PCG64(SEED)),
        count=asked.count, held=plan.held, so_far=asked.so_far,
    )  # fmt: skip
    there = {job: day for job, day in asked.promised.items() if job in found.jobs}
    return BenchPlanned(
        plan=plan,
        promises={
            job: promise(found.of(job), shop=asked.shop, start=asked.start) for job in found.jobs
        },
        still={one.job: one for one in still(found, there, shop=asked.shop, start=asked.start)},
        done_by={job: _done_by(found.of(job), asked) for job in found.jobs},
        workings=asked.count,
        effort=effort,
    )


def effort_for(asked: PlanAsked) -> float:
    """Return what a search is allowed: what was asked for, else what usually suffices.

    Never more than a person waits for, and half of that for each of two plans.
    """
    if asked.limit is not None:
        return asked.limit
    most = MOST_EFFORT / 2.0 if asked.more else MOST_EFFORT
    return min(usual_limit(len(asked.tasks) + len(asked.more)), most)


def came_in(source: JobSource, *, planned: bytes | None, progress: Progress) -> tuple[CameIn, ...]:
    """Plan the bench with one job more, and tell who would wait."""
    asked = read_asked(source.tables_json)
    effort = effort_for(asked)
    plan = _plan(asked, effort=effort, progress=progress, takes=HALF)
    its = {task.job for task in asked.tasks}
    return if_it_came_in(
        asked.more, plan=plan, tasks=asked.tasks, dues=asked.dues, shop=asked.shop,
        start=asked.start, promised={job: day for job, day in asked.promised.items() if job in its},
        seed=SEED, limit=effort, count=asked.count, so_far=asked.so_far,
        progress=lambda share: progress(WITH_IT, HALF + (1.0 - HALF) * share),
    )  # fmt: skip


def _plan(asked: PlanAsked, *, effort: float, progress: Progress, takes: float = SEARCH) -> Plan:
    return plan_shop(
        asked.left, asked.dues, asked.shop, seed=SEED, limit=effort,
        progress=lambda share: progress(WEEKS, takes * share),
    )  # fmt: skip


def _done_by(finishes_min: np.ndarray, asked: PlanAsked) -> tuple[tuple[dt.date, float], ...]:
    in_order = np.sort(finishes_min)
    told, before = [], 0
    for day, closes in ends_of_days(asked.shop):
        done = int(np.searchsorted(in_order, closes, side="right"))
        if done > before:
            told.append((asked.start + dt.timedelta(days=day), done / len(in_order)))
            before = done
        if done == len(in_order):
            break
    return tuple(told)
