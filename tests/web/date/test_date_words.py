"""Who would wait, by name and by how many days.

Truth: hand-worked days of work of which nothing is unsure.
"""

from __future__ import annotations

import datetime as dt

from counterhoop.bench.promise.pieces import WaitsFor
from counterhoop.job.promise.came_in import CameIn, if_it_came_in
from counterhoop.job.schedule.task import Due, Shop, Task
from counterhoop.job.schedule.work_through import work_through
from counterhoop.web.date_told import day_told
from counterhoop.web.date_words import came_in_lines

MONDAY = dt.date(2026, 12, 7)
EIGHT_HOURS = Shop(
    open=tuple((day * 1440 + 540, day * 1440 + 1020) for day in range(5)), clamps=0, drying=0
)


def work(job: str, minutes: int) -> Task:
    return Task(key=job, job=job, drum="tom", says="true an edge", minutes=minutes)


def ways(*, due_day: int) -> tuple[CameIn, ...]:
    """Seven hours are promised for today, two hours more come in."""
    old = (work("14", 420),)
    return if_it_came_in(
        (work("15", 120),), plan=work_through(("14",), old, EIGHT_HOURS), tasks=old,
        dues=(Due(job="14", by=due_day * 1440 + 1020),), shop=EIGHT_HOURS, start=MONDAY,
        promised={"14": MONDAY}, seed=1, count=10, shared_spread=0.0,
    )  # fmt: skip


def test_who_waits_is_called_by_name_with_the_days_that_it_waits() -> None:
    last, sooner = came_in_lines(ways(due_day=2), titles={"14": "Nell Ashby's tom"})
    assert last == (
        "Where nobody is to wait: ready by Tuesday 8 December 2026, 100 in 100.",
        ("Nobody with a promised day would wait.",),
    )
    assert sooner == (
        "Fitted in between the others: ready by Monday 7 December 2026, 100 in 100.",
        (
            "Nell Ashby's tom is ready a day later, by Tuesday 8 December 2026; promised for Monday"
            " 7 December 2026: 0 in 100 by then instead of 100 in 100.",
        ),
    )


def test_where_nothing_gives_way_there_is_one_way() -> None:
    (only,) = came_in_lines(ways(due_day=0), titles={})
    assert only[0].startswith("Where nobody is to wait: ready by Tuesday 8 December 2026")


def test_a_quote_says_what_its_day_takes_for_granted_of_others() -> None:
    """A part of which there are several, more parts than are named, and nothing to wait for."""
    day, parts = MONDAY + dt.timedelta(days=14), [
        WaitsFor(drum="tom", what=what, day=MONDAY + dt.timedelta(days=later))
        for what, later in (("6 lugs", 7), ("1 hoop", 9), ("12 rods", 8))
    ]  # fmt: skip
    said = day_told(day, share=0.85, yes_by=MONDAY, parts=parts[:2])
    assert said == (
        "Ready by Monday 21 December 2026 if your yes is here by Monday 7 December 2026 and 6 lugs"
        " and 1 hoop have come by Wednesday 16 December 2026: 85 in 100 as the bench stands."
        " A later yes moves the day."
    )
    assert "and 3 sorts of parts have come" in day_told(day, share=1.0, yes_by=day, parts=parts)
    assert day_told(day, share=0.85, yes_by=None) == (
        "Ready by Monday 21 December 2026: 85 in 100 as the bench stands."
    )
