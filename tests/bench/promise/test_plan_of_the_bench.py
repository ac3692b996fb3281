"""The plan of all open jobs: it can be worked, is made once, and says what a day is worth.

Truth: the checker of plans that shares no code with the planners; brute force over days; exact law
(the same bench gives the same plan, a job that is handed over has no place in it).
"""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest
from small_shop import QUICK, SNARE, TUESDAY, Clock, planned, worked

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.kinds import HANDOVER
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.folders.worked_job import put_worked_job
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.long_work import schedule_tasks
from counterhoop.bench.long_work.answers import Answer, Done, failed
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.promise.as_json import read_asked, written_asked
from counterhoop.bench.promise.hours_open import write_open_hours
from counterhoop.bench.promise.promise_of import promise_it, promise_of
from counterhoop.bench.promise.promises import promises_of
from counterhoop.bench.promise.shop_plan import LINE, if_it_came_in_now
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.schedule.breaks import breaks_of
from counterhoop.job.schedule.plan_shop import plan_shop
from counterhoop.store.save import Saved


@pytest.fixture
def other(shop: Workshop, job: str) -> str:
    """A second job like the first, of another client."""
    survey = SNARE.replace(b"26-034", b"26-035").replace(b"Tobin Ashgrove", b"Wren Halloway")
    return take_in(shop, survey, name="survey.toml", book_of=lambda _name: b"", by="bench")


class NotedDown(WorksAtOnce):
    """Plans nothing of the bench: only what is asked for is looked at."""

    def __init__(self) -> None:
        super().__init__()
        self.subjects: list[str] = []

    def ask(self, asked: Asked[Any]) -> Answer[Any]:
        if asked.line != LINE:
            return super().ask(asked)
        self.subjects.append(asked.subject)
        return failed(asked.id, "stopped")


def test_the_plan_can_be_worked_and_says_so_to_a_checker(
    shop: Workshop, job: str, other: str
) -> None:
    worked(shop, job, "plug a hole", 1, took="20 min")
    promise_it(shop, kept_job(shop, job), day="2030-05-22", to="Nell", based_on=0, by="b", **QUICK)
    plan = planned(shop)
    assert {one.job for one in plan.asked.tasks} == {job, other}
    assert [due.job for due in plan.asked.dues] == [job]
    assert breaks_of(plan.found.plan, plan.asked.left, plan.asked.shop) == ()
    assert min(one.begins for one in plan.found.plan.placed) >= 9 * 60
    swapped = plan.found.plan.placed[::-1]
    broken = type(plan.found.plan)(placed=swapped, late=0.0)
    assert breaks_of(broken, plan.asked.left, plan.asked.shop) != ()
    assert read_asked(written_asked(plan.asked)) == plan.asked


def test_the_same_bench_is_planned_once_an_hour(
    shop: Workshop, job: str, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = []

    def counted(*args: Any, **more: Any) -> object:
        made.append(args)
        return plan_shop(*args, **more)

    monkeypatch.setattr(schedule_tasks, "plan_shop", counted)
    first = planned(shop)
    clock.at = TUESDAY + dt.timedelta(minutes=40)
    assert planned(shop).found is first.found
    assert len(made) == 1
    clock.at = TUESDAY + dt.timedelta(minutes=60)
    assert min(one.begins for one in planned(shop).found.plan.placed) >= 10 * 60
    assert len(made) == 2
    write_open_hours(shop, {"clamps": "3"}, based_on=0, by="bench")
    planned(shop)
    assert len(made) == 3


def test_the_day_to_promise_is_the_first_with_four_workings_in_five(
    shop: Workshop, job: str
) -> None:
    answer = promise_of(shop, job, **QUICK)
    assert isinstance(answer, Done)
    told, found = answer.value, planned(shop).found
    days = [told.found.day - dt.timedelta(days=back) for back in range(8)]
    enough = [day for day in days if found.share_by(job, day) >= 0.8 and day.weekday() < 5]
    assert min(enough) == told.found.day
    assert found.share_by(job, told.found.day) == told.found.share
    assert found.share_by(job, dt.date(2030, 5, 14)) == 0.0
    assert found.share_by(job, dt.date(2031, 5, 14)) == 1.0
    assert told.face.endswith(" May 2030")
    assert told.promised is None
    assert any("waits for a yes" in line for line in told.assumes)


def test_a_promise_keeps_the_share_that_it_had(shop: Workshop, job: str) -> None:
    found = planned(shop).found
    day = found.promises[job].day
    done = promise_it(
        shop, kept_job(shop, job), day=day.isoformat(), to="Nell", based_on=0, by="bench", **QUICK
    )
    assert isinstance(done, Saved)
    stands = promises_of(kept_job(shop, job)).stands
    assert stands is not None
    assert (stands.day, stands.share) == (day, found.share_by(job, day))
    answer = promise_of(shop, job, **QUICK)
    assert isinstance(answer, Done)
    assert answer.value.holds
    assert answer.value.still.startswith("26-034, Tobin Ashgrove, promised for ")


def test_who_would_wait_is_asked_without_the_job_and_with_it(
    shop: Workshop, job: str, other: str
) -> None:
    """Behind all others the second job takes nothing of the time of the first."""
    promise_it(shop, kept_job(shop, job), day="2030-05-21", to="Nell", based_on=0, by="b", **QUICK)
    answer = if_it_came_in_now(shop, other, **QUICK)
    assert isinstance(answer, Done)
    behind = answer.value[0]
    assert behind.behind
    assert behind.job == other
    assert {task.split("/")[0] for task in behind.plan.order} == {job, other}


def test_asking_about_another_job_does_not_take_the_place_of_the_first(
    shop: Workshop, job: str, other: str
) -> None:
    """Newer work on the same subject takes the place of what waits: each job is its own."""
    works = NotedDown()
    shop = replace(shop, works=works)
    for one in (job, other, job):
        if_it_came_in_now(shop, one, **QUICK)
    first, second, again = works.subjects
    assert first == again != second


def test_a_job_that_is_handed_over_is_planned_no_more(shop: Workshop, job: str, other: str) -> None:
    handed = Change(kind=HANDOVER, value={"handed_over": "2030-05-14", "to": "Nell"}, based_on=0)
    write_down(shop, job, handed, by="bench")
    assert {one.job for one in planned(shop).asked.tasks} == {other}
    with pytest.raises(BadInput, match="no open job"):
        promise_of(shop, job, **QUICK)


@pytest.mark.full
def test_the_worked_job_can_be_worked_beside_the_small_one(shop: Workshop) -> None:
    """Seven drums with wraps, rings and edges, and the snare of another client."""
    worked_job = put_worked_job(shop, by="window bench")
    promise_it(
        shop, kept_job(shop, worked_job), day="2030-05-31", to="the band", based_on=0, by="b",
        **QUICK,
    )  # fmt: skip
    plan = planned(shop)
    assert len({(one.job, one.drum) for one in plan.asked.tasks}) == 8
    assert breaks_of(plan.found.plan, plan.asked.left, plan.asked.shop) == ()
    assert plan.found.promises[worked_job].share >= 0.8


def test_an_empty_bench_has_an_empty_plan(shop: Workshop) -> None:
    plan = planned(shop)
    assert plan.found.plan.placed == ()
    assert plan.says[0].startswith("Nothing on the bench is promised for a day.")
