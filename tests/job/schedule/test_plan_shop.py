"""The plan of a shop.

Truth: brute force over every order in which work can begin (``small_shops.best_of_all``, which
asks only the checker), the best of 300 orders by chance, exact laws, and hand-worked cases.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from random_shops import best_by_chance, random_shop
from small_shops import SHOP, best_of_all, chains, works

from counterhoop.job.schedule.breaks import breaks_of
from counterhoop.job.schedule.least_late import least_late
from counterhoop.job.schedule.numbered import number_tasks
from counterhoop.job.schedule.plan_shop import plan_shop
from counterhoop.job.schedule.task import Due, Task
from counterhoop.job.schedule.work_through import work_through

FACTOR = {8: 1.15, 12: 1.6, 20: 3.0}
"""How much less late than the best of 300 orders by chance a plan is, in the median."""


def is_the_best(seed: int) -> None:
    tasks, dues = chains(seed)
    plan = plan_shop(tasks, dues, SHOP, seed=1, limit=1.0)
    best = best_of_all(tasks, dues)
    assert breaks_of(plan, tasks, SHOP) == ()
    assert (plan.late, plan.bound, plan.proven) == (best, best, True)
    assert least_late(number_tasks(tasks, SHOP, dues)) <= 100 * best


@pytest.mark.parametrize("seed", range(5))
def test_a_small_plan_is_the_best_of_all_there_are(seed: int) -> None:
    is_the_best(seed)


@pytest.mark.full
@pytest.mark.parametrize("seed", range(5, 150))
def test_many_small_plans_are_the_best_of_all_there_are(seed: int) -> None:
    is_the_best(seed)


def factors(drums: int, *, shops: range, limit: float | None) -> list[float]:
    found = []
    for seed in shops:
        tasks, dues, shop = random_shop(seed, drums=drums)
        plan = plan_shop(tasks, dues, shop, seed=seed, limit=limit)
        chance = best_by_chance(tasks, dues, shop, seed=seed)
        assert breaks_of(plan, tasks, shop) == ()
        again = work_through(plan.order, tasks, shop, held=plan.held, dues=dues)
        assert (again.placed, again.late) == (plan.placed, plan.late)
        assert plan.bound <= plan.late <= chance
        assert plan.proven is (plan.bound == plan.late)
        found.append(chance / max(plan.late, 1.0))
    return found


@pytest.mark.parametrize("drums", FACTOR)
def test_a_plan_is_less_late_than_the_best_by_chance(drums: int) -> None:
    assert statistics.median(factors(drums, shops=range(2), limit=0.35)) >= FACTOR[drums]


@pytest.mark.full
@pytest.mark.parametrize("drums", FACTOR)
def test_plans_of_many_shops_are_less_late_than_the_best_by_chance(drums: int) -> None:
    assert statistics.median(factors(drums, shops=range(15), limit=None)) >= FACTOR[drums]


@given(works(most=5), st.lists(st.integers(-900, 8000), min_size=3, max_size=3), st.integers(0, 99))
@settings(max_examples=10)
def test_any_shop_is_planned_so_that_it_can_be_worked(
    tasks: tuple[Task, ...], by: list[int], seed: int
) -> None:
    dues = tuple(Due(job=str(1 + job), by=minute) for job, minute in enumerate(by))
    plan = plan_shop(tasks, dues[: seed % 4], SHOP, seed=seed, limit=0.1)
    assert breaks_of(plan, tasks, SHOP) == ()
    assert plan.bound <= plan.late


@given(works(most=9), st.lists(st.integers(-3000, 5000), min_size=3, max_size=3), st.randoms())
def test_no_way_to_work_is_less_late_than_the_bound(
    tasks: tuple[Task, ...], by: list[int], chance: Random
) -> None:
    dues = [Due(job=str(1 + job), by=minute, weight=1.5) for job, minute in enumerate(by)]
    order = [task.key for task in tasks]
    chance.shuffle(order)
    late = work_through(order, tasks, SHOP, dues=dues, held=order[::2]).late
    assert least_late(number_tasks(tasks, SHOP, dues)) <= 100 * late


def test_the_bound_of_one_job_alone_is_what_it_is_late() -> None:
    tasks = (
        Task(key="coat", job="1", drum="a", says="coat", minutes=60, cure_min=1440),
        Task(key="tune", job="1", drum="a", says="tune", minutes=30, after=("coat",)),
    )
    # Coated on Monday from nine to ten, dry on Tuesday at ten, tuned by half past.
    numbered = number_tasks(tasks, SHOP, (Due(job="1", by=1440, weight=2.0),))
    assert least_late(numbered) == 200 * (1440 + 630 - 1440)


def test_work_is_held_back_where_that_is_less_late() -> None:
    wet = Task(key="coat", job="1", drum="a", says="coat", minutes=60, cure_min=1440, air="wet")
    part = Task(key="edge", job="2", drum="b", says="true", minutes=60, air="dust", not_before=600)
    dues = (Due(job="1", by=3000), Due(job="2", by=720))
    plan = plan_shop((wet, part), dues, SHOP, seed=1, limit=0.1)
    assert [(one.key, one.begins) for one in plan.placed] == [("edge", 600), ("coat", 660)]
    assert (plan.held, plan.late, plan.proven) == (("coat",), 0.0, True)


def test_of_plans_equally_late_the_one_that_is_ready_sooner_is_taken() -> None:
    work = [
        Task(key=job, job=job, drum=job, says="tune", minutes=minutes)
        for job, minutes in (("long", 120), ("short", 30), ("longer", 140))
    ]
    plan = plan_shop(work, (), SHOP, seed=1, limit=0.1)
    assert (plan.order, plan.late, plan.proven) == (("short", "long", "longer"), 0.0, True)


def test_no_work_is_a_plan() -> None:
    assert plan_shop((), (), SHOP, seed=1).proven


AGAIN = """
import sys
sys.path.insert(0, sys.argv[1])
from random_shops import random_shop
from counterhoop.job.schedule.plan_shop import plan_shop
tasks, dues, shop = random_shop(5, drums=5)
print(plan_shop(tasks, dues, shop, seed=7, limit=0.4))
"""


def test_the_same_seed_gives_the_same_plan_also_in_another_process() -> None:
    tasks, dues, shop = random_shop(5, drums=5)
    plan = plan_shop(tasks, dues, shop, seed=7, limit=0.4)
    assert plan_shop(tasks, dues, shop, seed=7, limit=0.4) == plan
    other = subprocess.run(
        [sys.executable, "-c", AGAIN, str(Path(__file__).parent)],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert other.stdout == f"{plan}\n"


def test_progress_rises_to_the_end() -> None:
    tasks, dues, shop = random_shop(1, drums=8)
    told: list[float] = []
    plan_shop(tasks, dues, shop, seed=1, limit=0.1, progress=told.append)
    assert told == sorted(told)
    assert (told[0], told[-1]) == (0.0, 1.0)
    assert len(told) > 4


@pytest.mark.parametrize("asked", [0, 1, 5])
def test_a_stopped_plan_can_be_worked_and_is_no_worse_than_the_first(asked: int) -> None:
    tasks, dues, shop = random_shop(2, drums=12)
    times = 0

    def stop() -> bool:
        nonlocal times
        times += 1
        return times > asked

    first = plan_shop(tasks, dues, shop, seed=1, limit=0.0)
    plan = plan_shop(tasks, dues, shop, seed=1, limit=1000.0, stop=stop)
    assert breaks_of(plan, tasks, shop) == ()
    assert plan.bound <= plan.late <= first.late
    assert times < asked + 10


def test_a_gap_is_said_where_nothing_is_proven() -> None:
    tasks, dues, shop = random_shop(0, drums=20)
    plan = plan_shop(tasks, dues, shop, seed=1, limit=0.0)
    assert not plan.proven
    assert 0.0 < plan.gap <= 1.0
    assert plan.gap == pytest.approx(1.0 - plan.bound / plan.late)
    assert replace(plan, proven=True).gap == 0.0
