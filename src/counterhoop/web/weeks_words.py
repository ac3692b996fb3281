"""The weeks in words: each job late first, what dries meanwhile, the days one can print."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass

from counterhoop.bench.promise.bench_now import OpenJob
from counterhoop.bench.promise.shop_plan import ShopPlan
from counterhoop.papers.day_list import touch_said
from counterhoop.papers.letter_head import drums_said
from counterhoop.papers.weeks import WAITING, Meanwhile
from counterhoop.quantities.day import say_weekday
from counterhoop.web.date_words import in_100, stands_says

DAYS_LISTED = 7
"""For so many open days a list can be printed with one press."""
LOOKS_AHEAD_DAYS = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class JobLine:
    """One job of the weeks.

    Attributes
    ----------
    job, title : str
        Its name for programs, what one calls it.
    says : str
        When it is ready, or why nobody can say.
    promised : str
        What was promised and whether it holds; empty where nothing was.
    late : bool
        The promise is past, or does not hold.
    ready : date or None
        The day to promise.
    asks : bool
        Who would wait for it can be asked: nothing is promised yet.
    unplanned : bool
        It is promised, and nothing of it could be planned: nobody knows whether that holds.
    """

    job: str
    title: str
    says: str
    promised: str = ""
    late: bool = False
    ready: dt.date | None = None
    asks: bool = False
    unplanned: bool = False


def job_lines(plan: ShopPlan) -> tuple[JobLine, ...]:
    """Return every open job: what is late first, then what is ready first."""
    lines = [_line(plan, job) for job in plan.bench.jobs]
    far = dt.date.max
    return tuple(sorted(lines, key=lambda one: (not one.late, one.ready or far)))


def _line(plan: ShopPlan, job: OpenJob) -> JobLine:
    found = plan.found.promises.get(job.kept.id)
    stands, promise = plan.found.still.get(job.kept.id), job.promises.stands
    day = promise.day if promise else None
    past = day is not None and day < plan.start
    open_work = found is not None or bool(job.work.left_out)
    if found is not None:
        says = f"Ready by {say_weekday(found.day)}, {in_100(found.share)}."
    elif job.work.left_out:
        says = " ".join(job.work.left_out)
    else:
        says = "All work on it is done."
    promised = f"Promised for {say_weekday(day)}." if day else ""
    if stands is not None:
        promised = f"{promised} {stands_says(stands, today=plan.start)}"
    return JobLine(
        job=job.kept.id, title=job.title, says=says, promised=promised,
        late=open_work and (past or (stands is not None and not stands.holds)),
        ready=found.day if found else None, asks=found is not None and day is None,
        unplanned=found is None and open_work and day is not None,
    )  # fmt: skip


def dries_says(one: Meanwhile, *, today: dt.date) -> str:
    """Return what is left alone until when, and what hands are at meanwhile."""
    until, work = touch_said(one.until, today=today), drums_said(one.work) or WAITING
    return f"{one.name}, {one.says or 'curing'}: {until}. Meanwhile {work}."


def days_to_print(plan: ShopPlan) -> Iterator[tuple[str, str]]:
    """Yield the next days on which the shop is open: the day for the address, and in words."""
    week, listed = plan.bench.setting.hours.week, 0
    for ahead in range(LOOKS_AHEAD_DAYS):
        day = plan.start + dt.timedelta(days=ahead)
        if listed < DAYS_LISTED and week.hours_of(day):
            listed += 1
            yield day.isoformat(), "Today" if ahead == 0 else say_weekday(day)
