"""An order worked through.

Truth: an independent implementation that goes by half hours and asks only the checker
(``small_shops.minute_by_minute``), exact laws under Hypothesis, and hand-worked cases.
"""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_shops import SHOP, minute_by_minute, works

from counterhoop.errors import BadInput
from counterhoop.job.schedule.breaks import breaks_of
from counterhoop.job.schedule.plan_shop import plan_shop
from counterhoop.job.schedule.task import Due, Plan, Shop, Task
from counterhoop.job.schedule.work_through import work_through


@given(works(), st.randoms(use_true_random=False))
def test_an_order_is_worked_as_someone_at_the_bench_would(
    tasks: tuple[Task, ...], chance: Random
) -> None:
    order = [task.key for task in tasks]
    chance.shuffle(order)
    named = {task.key: task for task in tasks}
    # What waits for something is wanted no sooner than that is.
    turn: list[str] = []
    while len(turn) < len(order):
        turn.append(next(k for k in order if k not in turn and {*named[k].after} <= {*turn}))
    assert work_through(order, tasks, SHOP).placed == minute_by_minute(turn, tasks)


@given(works(most=14), st.randoms(use_true_random=False), st.data())
def test_nothing_is_worked_that_cannot_be(
    tasks: tuple[Task, ...], chance: Random, data: st.DataObject
) -> None:
    order = [task.key for task in tasks]
    chance.shuffle(order)
    held = [key for key in order if data.draw(st.booleans())]
    plan = work_through(order, tasks, SHOP, held=held)
    assert breaks_of(plan, tasks, SHOP) == ()
    again = work_through(plan.order, tasks, SHOP, held=plan.order)
    assert again.placed == plan.placed


@given(works(most=10), st.data())
def test_other_minutes_are_worked_in_the_same_way(
    tasks: tuple[Task, ...], data: st.DataObject
) -> None:
    minutes = {task.key: data.draw(st.integers(1, 150)) for task in tasks}
    order = [task.key for task in tasks]
    longer = [replace(task, minutes=minutes[task.key]) for task in tasks]
    assert work_through(order, tasks, SHOP, minutes) == work_through(order, longer, SHOP)


def test_a_date_before_the_plan_is_late_from_that_date_on() -> None:
    """Due a day before the first midnight, stripped by ten: 1440 + 600 minutes late."""
    strip = Task(key="strip", job="1", drum="a", says="strip", minutes=30)
    hoop = Task(key="hoop", job="1", drum="b", says="clean", minutes=30)
    dues = (Due(job="1", by=-1440, weight=2.0),)
    assert work_through(("strip", "hoop"), (strip, hoop), SHOP, dues=dues).late == 2.0 * 2040
    plan = plan_shop((strip, hoop), dues, SHOP, seed=1, limit=0.1)
    assert (plan.late, plan.bound, plan.proven) == (4080.0, 4080.0, True)


def test_what_is_held_waits_for_its_turn() -> None:
    wet = Task(key="coat", job="1", drum="a", says="coat", minutes=60, cure_min=1440, air="wet")
    part = Task(key="edge", job="2", drum="b", says="true", minutes=60, air="dust", not_before=600)
    shop = Shop(open=((540, 720), (1980, 2160), (3420, 3600)), clamps=0, drying=0)
    dues = (Due(job="2", by=720, weight=2.0),)
    eager = work_through(("edge", "coat"), (wet, part), shop, dues=dues)
    # Coated at nine it is wet until ten the next day; the next opening after that is the edge's.
    assert [(one.key, one.begins) for one in eager.placed] == [("coat", 540), ("edge", 2040)]
    assert eager.late == 2.0 * (2100 - 720)
    patient = work_through(("edge", "coat"), (wet, part), shop, held=("coat",), dues=dues)
    assert [(one.key, one.begins) for one in patient.placed] == [("edge", 600), ("coat", 660)]
    assert (patient.late, patient.held) == (0.0, ("coat",))


def test_work_too_long_for_every_stretch_begins_with_one() -> None:
    first = Task(key="strip", job="1", drum="a", says="strip", minutes=60)
    coat = Task(key="coat", job="1", drum="a", says="coat", minutes=60, unbroken=True)
    shop = Shop(open=((540, 720), (780, 1020)), clamps=0, drying=0)
    plan = work_through(("strip", "coat"), (first, coat), shop, {"strip": 130, "coat": 60})
    assert plan.placed[1].stretches == ((780, 840),)
    long = Shop(open=((540, 720), (780, 960), (1980, 2100)), clamps=0, drying=0)
    plan = work_through(("strip", "coat"), (first, coat), long, {"strip": 60, "coat": 200})
    assert plan.placed[1].stretches == ((780, 960), (1980, 2000))


def test_hours_that_end_too_soon_are_told() -> None:
    task = Task(key="strip", job="1", drum="a", says="strip", minutes=181)
    with pytest.raises(BadInput, match="strip: the working hours given end before the work"):
        work_through(("strip",), (task,), Shop(open=((540, 720),), clamps=0, drying=0))


STRIP = Task(key="strip", job="1", drum="a", says="strip", minutes=60)


@pytest.mark.parametrize(
    ("tasks", "says"),
    [
        ((STRIP, replace(STRIP, drum="b")), "same key"),
        ((replace(STRIP, after=("soak",)),), "not in the plan"),
        ((replace(STRIP, after=("strip",)),), "in the end waits for it"),
        ((replace(STRIP, clamps=4),), "needs 4 clamps, and the shop has 3"),
        ((replace(STRIP, cure_min=9, drying=3),), "needs 3 places on the drying shelf"),
        ((replace(STRIP, minutes=181, unbroken=True),), "fits no working stretch"),
    ],
)
def test_what_no_shop_can_do_is_refused(tasks: tuple[Task, ...], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        work_through([task.key for task in tasks], tasks, SHOP)


def test_an_order_of_other_work_is_refused() -> None:
    for order in ((), ("strip", "strip"), ("soak",)):
        with pytest.raises(BadInput, match="names all work once"):
            work_through(order, (STRIP,), SHOP)


def test_what_cannot_be_counted_is_refused() -> None:
    for wrong in (
        {"minutes": 0},
        {"cure_min": -1},
        {"clamps": -1},
        {"spread": float("nan")},
        {"air": "smoke"},
    ):
        with pytest.raises(BadInput):
            replace(STRIP, **wrong)
    for minutes in ({}, {"strip": 0}):
        with pytest.raises(BadInput, match="at least a minute"):
            work_through(("strip",), (STRIP,), SHOP, minutes)
    for weight in (0.0, -1.0, 0.001, 1.234, float("nan"), float("inf")):
        with pytest.raises(BadInput, match="hundredths"):
            Due(job="1", by=0, weight=weight)
    for hours in (((10, 10),), ((10, 20), (20, 30)), ((10, 20), (5, 8)), ((-5, 8),)):
        with pytest.raises(BadInput, match="working stretches"):
            Shop(open=hours, clamps=0, drying=0)
    with pytest.raises(BadInput, match="due twice"):
        work_through(("strip",), (STRIP,), SHOP, dues=(Due(job="1", by=5), Due(job="1", by=6)))


def test_a_gap_is_a_share_of_what_is_late() -> None:
    assert Plan(placed=(), late=200.0, bound=150.0).gap == 0.25
    assert Plan(placed=(), late=200.0, bound=200.0, proven=True).gap == 0.0
    assert Plan(placed=(), late=0.0).gap == 0.0
