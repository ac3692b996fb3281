"""All open jobs planned together, beside the pages: asked for, found again, taken apart."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.promise.as_json import PlanAsked, written_asked
from counterhoop.bench.promise.bench_now import BenchNow, bench_now
from counterhoop.bench.promise.pieces import Work
from counterhoop.bench.workshop import Workshop
from counterhoop.job.open_hours.minutes import end_of, enough_stretches, time_of
from counterhoop.job.open_hours.week import Stretches
from counterhoop.job.promise.finish_at import end_of_day
from counterhoop.job.promise.so_far import left_of
from counterhoop.job.schedule.task import Due, Holds, Placed, Shop, Task

if TYPE_CHECKING:
    from counterhoop.bench.long_work.schedule_tasks import BenchPlanned
    from counterhoop.job.promise.came_in import CameIn

WORKINGS = 2000
"""Enough for a share of 80 % to be within 2 %, nineteen times in twenty."""
SLOWEST = 3.0
"""Hours are laid out for work that takes so many times as long as usual: slow workings end too."""
LINE, OF_THE_BENCH = "schedule", "the bench"
LAST = "the last plan of the bench"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopPlan:
    """The plan of the bench.

    Attributes
    ----------
    bench : BenchNow
        What it was made from.
    asked : PlanAsked
        The same as the planner saw it.
    found : BenchPlanned
        The plan, and what it is worth.
    """

    bench: BenchNow
    asked: PlanAsked
    found: BenchPlanned
    by_key: Mapping[str, Work] = field(default_factory=dict)

    @property
    def start(self) -> dt.date:
        """The day with whose midnight it begins."""
        return self.asked.start

    def time(self, minute: int) -> dt.datetime:
        """Return the time on the workshop's clock at a minute of the plan."""
        return time_of(minute, start=self.start)

    def work(self, placed: Placed) -> Work:
        """Return the work that is placed."""
        return self.by_key[placed.key]

    @property
    def says(self) -> tuple[str, ...]:
        """Say how late the plan is, how sure that is, and what it takes for granted."""
        hour = f"{self.bench.setting.since // 60}:00"
        told = [job.work.assumes for job in self.bench.jobs]
        said = [self.bench.setting.hours.says, *(line for lines in told for line in lines)]
        return (
            f"{self._late_says} It is planned from {hour} today on.",
            *(line for line in dict.fromkeys(said) if line),
        )

    @property
    def looked(self) -> str:
        """Say how long was looked for a better plan; empty where nothing was to be planned."""
        seconds = self.found.effort
        if not seconds or self.found.plan.proven:
            return ""
        said = f"{seconds:.0f} seconds" if seconds >= 2.0 else "a second"
        return (
            f"A better plan was looked for with the effort of about {said};"
            " asked again, the same is found."
        )

    @property
    def _late_says(self) -> str:
        plan = self.found.plan
        if not self.asked.dues:
            return "Nothing on the bench is promised for a day."
        if plan.late <= 0.0:
            return "By usual hours every promise holds."
        if plan.proven:
            return "By usual hours not every promise can hold, and no plan is less late than this."
        return (
            "By usual hours not every promise holds in this plan. That none is less late is not"
            f" proven: the proof leaves {round(100 * plan.gap)} % of it open."
        )


def shop_plan(
    shop: Workshop, *, limit: float | None = None, count: int = WORKINGS
) -> Answer[ShopPlan]:
    """Return the plan of all open jobs, or how far it is.

    The same bench in the same hour is planned once, however often it is asked for.

    Parameters
    ----------
    limit : float, optional
        Effort of the search; what usually suffices when not given.
    count : int
        How often the plan is worked with luck.

    Raises
    ------
    BadInput
        The opening hours cannot be read, or do not see the end of the work.
    """
    from counterhoop.bench.long_work.schedule_tasks import plan_bench

    bench = bench_now(shop)
    if bench.working is not None:
        return bench.working
    asked = asked_of(bench, limit=limit, count=count)
    answer = shop.works.ask(Asked(line=LINE, task=plan_bench, source=source_of(asked)))
    if isinstance(answer, Working | Failed):
        return answer
    by_key = {work.task.key: work for job in bench.jobs for work in job.work.work}
    plan = ShopPlan(bench=bench, asked=asked, found=answer.value, by_key=by_key)
    shop.remembered.keep(LAST, plan)
    return Done(id=answer.id, value=plan)


def last_plan(shop: Workshop) -> ShopPlan | None:
    """Return the plan that was there last, whatever was written since; None after a start."""
    found: ShopPlan | None = shop.remembered.find(LAST)
    return found


def if_it_came_in_now(
    shop: Workshop, job_id: str, *, limit: float | None = None, count: int = WORKINGS
) -> Answer[tuple[CameIn, ...]]:
    """Return when a job would be ready if it came in now, and who would wait for it.

    Asked of a job whose folder is there: the others are planned without it, then with it.

    Raises
    ------
    BadInput
        As ``shop_plan``; for a job that is not open, or of which no work is known.
    """
    from counterhoop.bench.long_work.schedule_tasks import came_in

    bench = bench_now(shop)
    if bench.working is not None:
        return bench.working
    more = bench.job(job_id).work.need_work()
    asked = asked_of(bench, limit=limit, count=count, more=more)
    source = source_of(asked, about=job_id)
    return shop.works.ask(Asked(line=LINE, task=came_in, source=source))


def asked_of(
    bench: BenchNow, *, limit: float | None = None, count: int = WORKINGS,
    more: Sequence[Task] = (),
) -> PlanAsked:  # fmt: skip
    """Return what the planner is given.

    Parameters
    ----------
    more : sequence of Task
        Work of the one job that is asked about on top; all other work of the job is left out.
    """
    setting = bench.setting
    asked_about = {task.job for task in more}
    its = {task.key for task in more}
    opens = open_from(bench)
    every = in_hand_first(bench, opens)
    tasks = tuple(task for task in every if task.job not in asked_about)
    on_top = tuple(task for task in every if task.key in its)
    every = (*tasks, *on_top)
    free = Shop(open=opens, clamps=setting.hours.clamps, drying=setting.hours.drying)
    jobs = {task.job for task in every}
    promised = {
        job.kept.id: (job.promises.stands.day, job.promises.weight)
        for job in bench.jobs
        if job.kept.id in jobs - asked_about and job.promises.stands is not None
    }
    days = {job: day for job, (day, _) in promised.items() if day is not None}
    return PlanAsked(
        start=setting.start,
        shop=Shop(open=opens, clamps=free.clamps, drying=free.drying, holds=_holds(bench, jobs)),
        tasks=tasks,
        so_far=tuple(
            one
            for job in bench.jobs
            if job.kept.id in jobs - asked_about
            for one in job.work.so_far
        ),
        dues=tuple(
            Due(job=job, by=_by(day, free, start=setting.start), weight=promised[job][1])
            for job, day in days.items()
        ),
        more=on_top,
        promised=days,
        count=count,
        limit=limit,
    )


def in_hand_first(bench: BenchNow, opens: Stretches) -> tuple[Task, ...]:
    """Return all work, with what was picked up today before anything else.

    What is in hand is finished before hands are free, whatever it had to wait for; what was picked
    up on an earlier day has likely been forgotten.
    """
    held = [
        work
        for job in bench.jobs
        for work in job.work.work
        if work.in_hand is not None and work.in_hand.date() == bench.setting.start
    ]
    if not held:
        return bench.tasks
    now = max(held, key=lambda work: work.in_hand or bench.setting.now)
    left = round(left_of(now.task, now.worked_min))
    free = 0
    for begins, ends in opens:
        free = min(ends, begins + left)
        left -= ends - begins
        if left <= 0:
            break
    return tuple(
        replace(task, not_before=0, after=())
        if task.key == now.task.key
        else replace(task, not_before=max(task.not_before, free))
        for task in bench.tasks
    )


def open_from(bench: BenchNow) -> Stretches:
    """Return the working stretches from now on, long enough for slow workings too."""
    setting, tasks = bench.setting, bench.tasks
    hands_min = sum(task.minutes for task in tasks)
    of_drum: Counter[tuple[str, str]] = Counter()
    in_the_way = 0
    for task in tasks:
        of_drum[task.job, task.drum] += task.cure_min
        if task.clamps or task.drying or task.air == "wet":
            in_the_way += task.cure_min
        in_the_way += task.minutes if task.unbroken or task.air == "dust" else 0
    # Where hands are idle the last drum of all cures itself, or is kept off by what another holds.
    idle_min = in_the_way + max(of_drum.values(), default=0)
    latest = max([*(task.not_before for task in tasks), 0])
    cured = max((setting.minute(one.until) for _, one in bench.cures), default=0)
    opens = enough_stretches(
        setting.hours.week, setting.start, hands_min=round(SLOWEST * hands_min) + 24 * 60,
        idle_min=round(idle_min * 1.2) + latest + cured,
        whole_min=max((task.minutes for task in tasks if task.unbroken), default=0),
    )  # fmt: skip
    since = setting.since
    return tuple((max(begins, since), ends) for begins, ends in opens if ends > since)


def source_of(asked: PlanAsked, *, about: str = "") -> JobSource:
    """Return what the worker gets; a newer plan of the bench takes the place of one that waits.

    Parameters
    ----------
    about : str
        The job that is asked about on top: what was asked about another one stays.
    """
    folder = f"{OF_THE_BENCH}, {about}" if about else OF_THE_BENCH
    return JobSource(tables_json=written_asked(asked), name=OF_THE_BENCH, folder=folder)


def _by(day: dt.date, shop: Shop, *, start: dt.date) -> int:
    """Return the minute from which a job is late, below nothing for a day that is past."""
    return end_of_day(day, shop=shop, start=start) if day >= start else end_of(day, start=start)


def _holds(bench: BenchNow, jobs: Collection[str]) -> tuple[Holds, ...]:
    """Return what still cures, and the clamps and places that it holds, never more than there are.

    A job that is not planned holds its clamps all the same.
    """
    clamps, drying = bench.setting.hours.clamps, bench.setting.hours.drying
    found = []
    for job, one in bench.cures:
        held = Holds(
            until=bench.setting.minute(one.until) + 1,
            clamps=min(one.clamps, clamps),
            drying=min(one.drying, drying),
            job=job.kept.id if job.kept.id in jobs else "",
        )
        clamps, drying = clamps - held.clamps, drying - held.drying
        found.append(held)
    return tuple(found)
