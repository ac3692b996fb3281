"""What is done already holds clamps and places to dry until it is cured.

Truth: worked by hand; brute force over all orders; the checker that shares no code with planners.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations

import numpy as np
import pytest

from counterhoop.errors import BadInput
from counterhoop.job.promise.workings import workings
from counterhoop.job.schedule.breaks import breaks_of
from counterhoop.job.schedule.plan_shop import plan_shop
from counterhoop.job.schedule.task import Due, Holds, Placed, Plan, Shop, Task
from counterhoop.job.schedule.work_through import work_through

OPEN = tuple((1440 * day + 540, 1440 * day + 1020) for day in range(6))
GLUE = Task(key="glue", job="1", drum="a", says="glue", minutes=60, cure_min=720, clamps=4)
RING = Task(key="ring", job="2", drum="b", says="ring", minutes=60, cure_min=720, clamps=6)
COAT = Task(key="coat", job="3", drum="c", says="coat", minutes=90, cure_min=1440, drying=1)
TUNE = Task(key="tune", job="4", drum="d", says="tune", minutes=30)
WORK = (GLUE, RING, COAT, TUNE)


def test_glue_waits_for_clamps_that_are_held() -> None:
    """Five of eight clamps until 11:00 (660): four are free again then, six only tomorrow."""
    shop = Shop(open=OPEN, clamps=8, drying=1, holds=(Holds(until=660, clamps=5),))
    plan = work_through(("glue", "ring", "tune"), (GLUE, RING, TUNE), shop)
    assert {one.key: one.begins for one in plan.placed} == {
        "tune": 540, "glue": 660, "ring": 1440 + 540
    }  # fmt: skip
    assert breaks_of(plan, (GLUE, RING, TUNE), shop) == ()


def test_a_coat_ends_when_the_place_to_dry_is_free() -> None:
    """The place is taken until 12:00 (720), and the coat takes 90 minutes: it begins at 10:30."""
    shop = Shop(open=OPEN, clamps=0, drying=1, holds=(Holds(until=720, drying=1),))
    plan = work_through(("coat",), (COAT,), shop)
    assert plan.placed[0].begins == 630
    assert breaks_of(plan, (COAT,), shop) == ()


def test_the_checker_tells_of_clamps_and_places_taken_twice() -> None:
    shop = Shop(open=OPEN, clamps=8, drying=1, holds=(Holds(until=2000, clamps=5, drying=1),))
    early = [
        (GLUE, Placed(key="glue", stretches=((540, 600),), cured=1320), "9 clamps"),
        (COAT, Placed(key="coat", stretches=((540, 630),), cured=2070), "2 places"),
    ]
    for task, placed, says in early:
        (broken,) = breaks_of(Plan(placed=(placed,), late=0.0), (task,), shop)
        assert says in broken


def test_plans_with_held_clamps_are_the_best_there_are() -> None:
    """With dates that cannot all hold, no order of the four worked through is less late."""
    shop = Shop(
        open=OPEN, clamps=8, drying=1,
        holds=(Holds(until=900, clamps=5), Holds(until=1440 + 700, drying=1)),
    )  # fmt: skip
    dues = tuple(Due(job=task.job, by=600, weight=n) for n, task in enumerate(WORK, 1))
    keys = [task.key for task in WORK]
    best = min(
        work_through(order, WORK, shop, held=held, dues=dues).late
        for order in permutations(keys)
        for held in ((), keys)
    )
    plan = plan_shop(WORK, dues, shop, seed=1, limit=0.5)
    assert plan.late == best
    assert plan.bound <= best
    assert breaks_of(plan, WORK, shop) == ()


def test_no_more_is_held_than_there_is() -> None:
    with pytest.raises(BadInput, match="taken than there are"):
        Shop(open=OPEN, clamps=4, drying=1, holds=(Holds(until=60, clamps=5),))


def test_a_job_is_not_ready_before_what_cures_of_it() -> None:
    """Tuned by 9:30, but its other drum is dry on Tuesday at nine: late by those 1410 minutes."""
    cures = Holds(until=1440 + 540, job="4")
    shop = Shop(open=OPEN, clamps=0, drying=0, holds=(cures,))
    dues = (Due(job="4", by=570, weight=2.0),)
    plan = plan_shop((TUNE,), dues, shop, seed=1, limit=0.1)
    assert (plan.placed[0].ends, plan.late, plan.bound, plan.proven) == (570, 2820.0, 2820.0, True)
    found = workings(("tune",), (TUNE,), shop, rng=np.random.default_rng(1), count=2)
    assert found.of("4").tolist() == [1980.0, 1980.0]
    of_another = replace(shop, holds=(replace(cures, job="5"),))
    assert plan_shop((TUNE,), dues, of_another, seed=1, limit=0.1).late == 0.0


@pytest.mark.parametrize("wrong", [{"until": -1}, {"clamps": -1}, {"drying": -1}])
def test_nothing_is_held_below_nothing(wrong: dict[str, int]) -> None:
    with pytest.raises(BadInput, match="holds on from the minute"):
        Holds(**({"until": 60} | wrong))
