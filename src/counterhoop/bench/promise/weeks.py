"""The weeks as a picture has them: a row for each drum, out of the plan."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from dataclasses import dataclass

from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.promise.promises import clock_of
from counterhoop.bench.promise.shop_plan import WORKINGS, ShopPlan, shop_plan
from counterhoop.bench.workshop import Workshop
from counterhoop.papers.weeks_calendar import Calendar
from counterhoop.papers.weeks_picture import Bar, DrumWeeks

LEAST_WEEKS, MOST_WEEKS = 2, 12
WIDE_MM = 240.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Weeks:
    """What ``papers.weeks`` and its picture are drawn from.

    Attributes
    ----------
    rows : tuple of DrumWeeks
        Every drum with work or something that cures, in the order of the folders.
    calendar : Calendar
        Whole weeks from the Monday before the first work, as long as there is work.
    now : datetime.datetime
        On the workshop's clock.
    says : tuple of str
        How late the plan is, and what it takes for granted.
    """

    rows: tuple[DrumWeeks, ...]
    calendar: Calendar
    now: dt.datetime
    says: tuple[str, ...]


def weeks(shop: Workshop, *, limit: float | None = None, count: int = WORKINGS) -> Answer[Weeks]:
    """Return the weeks, or how far the plan is.

    Parameters
    ----------
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
    return Done(id=answer.id, value=weeks_of(answer.value, now=clock_of(shop)))


def weeks_of(plan: ShopPlan, *, now: dt.datetime) -> Weeks:
    """Return the weeks of a plan."""
    bars: dict[tuple[str, str], list[Bar]] = defaultdict(list)
    for job, one in plan.bench.cures:
        bars[job.kept.id, one.drum].append(
            Bar(begins=now, ends=max(now, one.until), kind="cure", says=one.says)
        )
    for placed in plan.found.plan.placed:
        task = plan.work(placed).task
        row = bars[task.job, task.drum]
        row += [
            Bar(begins=plan.time(begins), ends=plan.time(ends), kind="hands", says=task.says)
            for begins, ends in placed.stretches
        ]
        if task.cure_min:
            row.append(
                Bar(
                    begins=plan.time(placed.ends), ends=plan.time(placed.cured), kind="cure",
                    says=task.says,
                )
            )  # fmt: skip
    rows = []
    for job in plan.bench.jobs:
        stands = job.promises.stands
        coming = {
            drum.drum: tuple(sorted({one.day for one in drum.for_part if one.known}))
            for drum in job.work.drums
        }
        rows += [
            DrumWeeks(
                job=job.work.number, drum=drum.name, bars=tuple(bars[job.kept.id, drum.name]),
                comes=coming.get(drum.name, ()), promised=stands.day if stands else None,
            )
            for drum in job.kept.drums
            if (job.kept.id, drum.name) in bars
        ]  # fmt: skip
    return Weeks(rows=tuple(rows), calendar=_calendar(plan, rows), now=now, says=plan.says)


def _calendar(plan: ShopPlan, rows: list[DrumWeeks]) -> Calendar:
    week = plan.bench.setting.hours.week
    bars = [bar for row in rows for bar in row.bars]
    begins = min((bar.begins.date() for bar in bars), default=plan.start)
    first = begins - dt.timedelta(days=begins.weekday())
    last = max((bar.ends.date() for bar in bars), default=first)
    needed = ((last - first).days // 7) + 1
    days = 7 * min(max(needed, LEAST_WEEKS), MOST_WEEKS)
    each = [first + dt.timedelta(days=number) for number in range(days)]
    hours = [stretch for day in each for stretch in week.hours_of(day)]
    return Calendar(
        first=first, days=days, wide_mm=WIDE_MM,
        opens=min((begins for begins, _ in hours), default=480) / 60,
        closes=max((ends for _, ends in hours), default=1080) / 60,
        closed=frozenset(day for day in each if not week.hours_of(day)),
    )  # fmt: skip
