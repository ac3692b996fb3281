"""A day's list for the bench, out of the plan."""

from __future__ import annotations

import datetime as dt
from typing import Final

from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.paper_sorts import (
    BENCH_SHEET,
    HOLE_LIST,
    STRIP_SHEET,
    TRUING_SHEET,
    TUNING_SHEET,
    WRAP_LIST,
)
from counterhoop.bench.promise.shop_plan import WORKINGS, ShopPlan, shop_plan
from counterhoop.bench.workshop import Workshop
from counterhoop.papers.day_list import AtBench, DayList, MayTouch
from counterhoop.quantities.day import say_weekday

BY_STEP: Final = {
    "strip": STRIP_SHEET, "plug": HOLE_LIST, "drill": HOLE_LIST, "cut": TRUING_SHEET,
    "edge": TRUING_SHEET, "wrap": WRAP_LIST, "build up": TUNING_SHEET,
}  # fmt: skip
"""The paper that a step is done by; the bench sheet where none is named."""
NUMBERED: Final = "0123456789 "
"""Files of papers are numbered in the order of use; the papers themselves are not."""
LOOKS_AHEAD_DAYS = 7


def todays_list(
    shop: Workshop, *, name: str, day: dt.date | None = None, limit: float | None = None,
    count: int = WORKINGS,
) -> Answer[DayList]:  # fmt: skip
    """Return what is done on a day, or how far the plan is.

    Parameters
    ----------
    name : str
        The workshop's own name.
    day : datetime.date, optional
        Today where none is named.
    limit, count
        As for ``shop_plan``.

    Raises
    ------
    BadInput
        As ``shop_plan``.
    """
    answer = shop_plan(shop, limit=limit, count=count)
    if isinstance(answer, Working | Failed):
        return answer
    plan = answer.value
    return Done(id=answer.id, value=list_of_day(plan, name=name, day=day or plan.start))


def list_of_day(plan: ShopPlan, *, name: str, day: dt.date) -> DayList:
    """Return the list of a day in a plan."""
    numbers = {job.kept.id: job.work.number for job in plan.bench.jobs}
    work, touch = [], []
    ends_day = dt.datetime.combine(day + dt.timedelta(days=1), dt.time())
    for job, one in plan.bench.cures:
        touch.append(MayTouch(when=one.until, job=job.work.number, drum=one.drum, says=one.says))
    for placed in plan.found.plan.placed:
        its = plan.work(placed)
        task, job_number = its.task, numbers[its.task.job]
        for begins, ends in placed.stretches:
            at, until = plan.time(begins), plan.time(ends)
            if at.date() != day:
                continue
            work.append(
                AtBench(
                    begins=at.time(), ends=_clock_end(until, day), job=job_number, drum=task.drum,
                    says=task.says, minutes=ends - begins,
                    cautions=its.cautions,
                    paper=BY_STEP.get(its.step, BENCH_SHEET).start.lstrip(NUMBERED),
                    begun=begins > placed.begins or its.worked_min > 0.0,
                )
            )  # fmt: skip
        if (
            task.cure_min
            and plan.time(placed.ends) < ends_day
            and plan.time(placed.ends).date() <= day
        ):
            touch.append(
                MayTouch(when=plan.time(placed.cured), job=job_number, drum=task.drum,
                         says=task.says)
            )  # fmt: skip
    return DayList(
        shop=name,
        day=day,
        work=tuple(work),
        touch=tuple(one for one in touch if one.when.date() >= day),
        comes=tuple(_comes(plan, day)),
        promised=tuple(_promised(plan, day)),
    )


def _clock_end(until: dt.datetime, day: dt.date) -> dt.time:
    return until.time() if until.date() == day else dt.time(23, 59)


def _comes(plan: ShopPlan, day: dt.date) -> list[str]:
    return [
        f"{arrival.what}, for job {job.work.number}"
        + ("" if arrival.sure else " (not sure)")
        + (f", since {say_weekday(arrival.day)}" if arrival.day < day else "")
        for job in plan.bench.jobs
        for arrival in job.promises.arrivals
        if arrival.day is not None and arrival.day <= day
    ]


def _promised(plan: ShopPlan, day: dt.date) -> list[str]:
    soon = day + dt.timedelta(days=LOOKS_AHEAD_DAYS)
    found = [
        (job.promises.stands.day, job.work.number, job.promises.stands.to)
        for job in plan.bench.jobs
        if job.promises.stands is not None and job.promises.stands.day is not None
        and job.promises.stands.day <= soon
    ]  # fmt: skip
    return [
        f"job {number} for {say_weekday(on)}{f', told to {to}' if to else ''}"
        for on, number, to in sorted(found)
    ]
