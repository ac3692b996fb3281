"""The plan as a calendar that anyone's telephone follows, kept so that changes are told as such."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import Any

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import DIARY
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.promise.shop_plan import WORKINGS, ShopPlan, shop_plan
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.job.diary.calendar import calendar_of
from counterhoop.job.diary.carry_on import Written, carry_on
from counterhoop.job.diary.entry import Entry
from counterhoop.job.diary.of_plan import OnADay, entries_of
from counterhoop.store.body import Json
from counterhoop.store.save import Saved

KEPT_DAYS = 60
"""So long what is past stays in the diary; then nobody's calendar hears of it again."""
MOST_TRIES = 5


def calendar(
    shop: Workshop, *, whose: str, by: str, limit: float | None = None, count: int = WORKINGS
) -> Answer[bytes]:
    """Return the plan as an iCalendar file, or how far the plan is.

    What was given out is written down, so that the next file says what has changed since.

    Parameters
    ----------
    whose : str
        The workshop's name.
    limit, count
        As for ``shop_plan``.

    Raises
    ------
    BadInput
        As ``shop_plan``.
    CannotDo
        Other benches wrote the diary at the same moment, every time.
    """
    answer = shop_plan(shop, limit=limit, count=count)
    if isinstance(answer, Working | Failed):
        return answer
    entries = diary_entries(answer.value)
    moment = shop.now()
    for _ in range(MOST_TRIES):
        kept = drawer(shop).get(DIARY, Kept())
        before = [read_written(row) for row in kept.rows]
        diary = carried_on(entries, before, plan=answer.value, moment=moment)
        rows: Json = [write_written(one) for one in diary]
        if rows == kept.rows:
            break
        change = Change(kind=DIARY, value=rows, based_on=kept.number)
        if isinstance(write_down(shop, None, change, by=by), Saved):
            break
    else:
        raise CannotDo("Several benches asked for the calendar at once: ask for it again.")
    return Done(id=answer.id, value=calendar_of(diary, whose=whose))


def diary_entries(plan: ShopPlan) -> tuple[Entry, ...]:
    """Return what the plan writes into the diary."""
    promised, expected = [], []
    for job in plan.bench.jobs:
        stands = job.promises.stands
        if stands is not None and stands.day is not None:
            promised.append(OnADay(key=job.kept.id, day=stands.day, says=job.title))
        expected += [
            OnADay(
                key=f"{job.kept.id}/{one.what}", day=one.day, says=f"{one.what}, for {job.title}"
            )
            for one in job.promises.arrivals
            if one.day is not None
        ]
    tasks = [work.task for work in plan.by_key.values()]
    return entries_of(
        plan.found.plan, tasks, start=plan.start, promised=promised, expected=expected
    )


def carried_on(
    entries: Iterable[Entry], before: Iterable[Written], *, plan: ShopPlan, moment: dt.datetime
) -> tuple[Written, ...]:
    """Return the diary to give out: what is past and planned no more stays as it was.

    Struck is only what was still to come.
    """
    now = tuple(entries)
    keys = {one.key for one in now}
    since = plan.time(plan.bench.setting.since)
    oldest = since - dt.timedelta(days=KEPT_DAYS)
    fresh = [one for one in before if one.entry.key in keys or _begins(one) >= oldest]
    past = [
        one
        for one in fresh
        if one.entry.key not in keys and not one.struck and _begins(one) < since
    ]
    known = {one.entry.key for one in past}
    told = carry_on(now, (one for one in fresh if one.entry.key not in known), moment=moment)
    return (*told, *past)


def write_written(one: Written) -> dict[str, Any]:
    """Return a line of the diary as a document keeps it."""
    entry = one.entry
    row: dict[str, Any] = {
        "key": entry.key, "says": entry.says, "begins": entry.begins.isoformat(),
        "ends": entry.ends.isoformat(), "changed": one.changed.isoformat(),
        "times_changed": one.times_changed,
    }  # fmt: skip
    more = {"more": entry.more, "busy": entry.busy, "struck": one.struck}
    return row | {name: value for name, value in more.items() if value}


def read_written(row: dict[str, Any]) -> Written:
    """Return a line of the diary from a document."""
    return Written(
        entry=Entry(
            key=row["key"], says=row["says"], begins=_when(row["begins"]), ends=_when(row["ends"]),
            more=row.get("more", ""), busy=row.get("busy", False),
        ),
        times_changed=row["times_changed"],
        changed=dt.datetime.fromisoformat(row["changed"]),
        struck=row.get("struck", False),
    )  # fmt: skip


def _when(text: str) -> dt.date:
    return dt.datetime.fromisoformat(text) if "T" in text else dt.date.fromisoformat(text)


def _begins(one: Written) -> dt.datetime:
    begins = one.entry.begins
    if isinstance(begins, dt.datetime):
        return begins
    return dt.datetime.combine(begins, dt.time())
