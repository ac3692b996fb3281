"""One more job comes in: when it is ready and who waits.

Truth: hand-worked days of sure work, the checker of plans, and workings without and with it.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest
from unsure_work import in_series, keys, unsure_shop

from counterhoop.errors import BadInput
from counterhoop.job.promise.came_in import CameIn, if_it_came_in
from counterhoop.job.promise.finish_at import end_of_day
from counterhoop.job.promise.promise import promise
from counterhoop.job.promise.workings import workings
from counterhoop.job.schedule.breaks import breaks_of
from counterhoop.job.schedule.plan_shop import plan_shop
from counterhoop.job.schedule.task import Due, Shop
from counterhoop.job.schedule.work_through import work_through

MONDAY = dt.date(2026, 12, 7)
EIGHT_HOURS = Shop(
    open=tuple((day * 1440 + 540, day * 1440 + 1020) for day in range(5)), clamps=0, drying=0
)


def sure(*, due_day: int) -> tuple[CameIn, ...]:
    """Seven hours of work are promised for today, and two hours more come in."""
    old, new = in_series((420, 0.0), job="14"), in_series((120, 0.0), job="15")
    return if_it_came_in(
        new, plan=work_through(keys(old), old, EIGHT_HOURS), tasks=old,
        dues=(Due(job="14", by=due_day * 1440 + 1020),), shop=EIGHT_HOURS, start=MONDAY,
        promised={"14": MONDAY}, seed=1, count=10, shared_spread=0.0,
    )  # fmt: skip


def test_what_gives_way_is_done_tomorrow_and_nobody_waits() -> None:
    (found,) = sure(due_day=0)
    assert found.behind
    assert found.promise.day == dt.date(2026, 12, 8)
    assert found.waits == ()


def test_what_is_done_sooner_makes_another_wait() -> None:
    """Where the plan has time for 14 until Wednesday, 15 goes first and 14 is ready tomorrow."""
    last, sooner = sure(due_day=2)
    assert (last.behind, last.promise.day, last.waits) == (True, dt.date(2026, 12, 8), ())
    assert (sooner.behind, sooner.promise.day) == (False, MONDAY)
    (wait,) = sooner.waits
    assert (wait.days_later, wait.lost) == (1, 1.0)


def test_what_the_plan_holds_back_is_held_back_still() -> None:
    """Work 16 waits on purpose until 14, whose part comes at ten, has begun."""
    (first,), (second,) = in_series((30, 0.0), job="14"), in_series((60, 0.0), job="16")
    old = [replace(first, not_before=600), second]
    found = if_it_came_in(
        in_series((30, 0.0), job="15"),
        plan=work_through(keys(old), old, EIGHT_HOURS, held=["16/0"]), tasks=old, dues=(),
        shop=EIGHT_HOURS, start=MONDAY, promised={}, seed=1, count=2, shared_spread=0.0,
    )  # fmt: skip
    assert [(one.key, one.begins) for one in found[0].plan.placed] == [
        ("15/0", 540), ("14/0", 600), ("16/0", 630),
    ]  # fmt: skip


@pytest.mark.parametrize("seed", [1, 2])
def test_in_a_shop_by_chance_the_plans_hold_and_the_losses_are_what_was_worked(seed: int) -> None:
    tasks, dues, shop = unsure_shop(seed, drums=4)
    old = [task for task in tasks if task.job != "job 4"]
    new = [task for task in tasks if task.job == "job 4"]
    known = [due for due in dues if due.job != "job 4"]
    plan = plan_shop(old, known, shop, seed=seed, limit=0.1)

    def luck() -> np.random.Generator:
        return np.random.Generator(np.random.PCG64(seed))

    without = workings(plan.order, old, shop, rng=luck(), count=200, held=plan.held)
    dates = {job: promise(without.of(job), shop=shop, start=MONDAY).day for job in without.jobs}
    ways = if_it_came_in(
        new, plan=plan, tasks=old, dues=known, shop=shop, start=MONDAY, promised=dates,
        seed=seed, limit=0.1, count=200,
    )  # fmt: skip
    assert [one.behind for one in ways] in ([True], [True, False])
    for one in ways:
        assert breaks_of(one.plan, tasks, shop) == ()
        assert one.promise.share >= 0.8
        with_it = workings(
            one.plan.order, [*old, *new], shop, rng=luck(), count=200, held=one.plan.held
        )
        lost = {wait.without.job: wait.lost for wait in one.waits}
        for job, day in dates.items():
            by = end_of_day(day, shop=shop, start=MONDAY)
            fell = float(np.mean(without.of(job) <= by) - np.mean(with_it.of(job) <= by))
            assert lost.get(job, fell) == pytest.approx(fell)
            assert job in lost or fell < 0.01
        assert list(lost.values()) == sorted(lost.values(), reverse=True)


def test_what_comes_in_is_one_new_job() -> None:
    old, new = in_series((60, 0.0), job="14"), in_series((60, 0.0), job="15")
    two = [*new, *(replace(task, key="x", job="16") for task in new)]
    for more in ([], two, old):
        with pytest.raises(BadInput, match="one job"):
            if_it_came_in(
                more, plan=work_through(keys(old), old, EIGHT_HOURS), tasks=old, dues=(),
                shop=EIGHT_HOURS, start=MONDAY, promised={}, seed=1,
            )  # fmt: skip


def test_hours_that_end_too_soon_are_said() -> None:
    old, new = in_series((420, 0.5), job="14"), in_series((300, 0.5), job="15")
    with pytest.raises(BadInput, match="more weeks"):
        if_it_came_in(
            new, plan=work_through(keys(old), old, EIGHT_HOURS), tasks=old, dues=(),
            shop=replace(EIGHT_HOURS, open=((540, 1290),)), start=MONDAY, promised={}, seed=1,
            count=100,
        )  # fmt: skip
