"""What is left of the small job, and what waits for what.

Truth: worked by hand from the operations book. The snare has two holes to plug and a strainer to
fit; its plugs cure 12 hours at 20 degrees, twice as long at 10.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest
from small_shop import TUESDAY, Clock, taken_up, worked

from counterhoop.bench.folders.decide import Yes, approve, tick
from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.folders.open_folder import open_folder
from counterhoop.bench.folders.source import to_plan
from counterhoop.bench.long_work.answers import Answer, Done, failed
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.promise.bench_now import BenchNow, bench_now
from counterhoop.bench.promise.hours_open import write_open_hours
from counterhoop.bench.promise.pieces import JobWork, Work
from counterhoop.bench.promise.promises import write_arrival
from counterhoop.bench.promise.shop_plan import asked_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.verdict import Verdict

STRAINER = "Corvane lever strainer"


def left(shop: Workshop) -> dict[str, Work]:
    """Return what is left of the one job, by operation."""
    return {one.operation: one for one in job_work(shop).work}


def job_work(shop: Workshop) -> JobWork:
    (one,) = bench_now(shop).jobs
    return one.work


def scheme_of(shop: Workshop, job: str) -> Scheme:
    source = to_plan(kept_job(shop, job), shop=drawer(shop)).source
    assert source is not None
    answer = shop.works.plan(source)
    assert isinstance(answer, Done)
    (drum,) = answer.value.drums
    assert drum.chosen is not None
    return drum.chosen


def say_yes(shop: Workshop, job: str) -> None:
    kept, scheme = kept_job(shop, job), scheme_of(shop, job)
    yes = Yes(who="Nell", when="2030-05-14", how="by letter")
    approve(shop, job, kept.drums[0], scheme=scheme, shown_code=scheme.code, yes=yes, by="bench")


class StoppedOnce(WorksAtOnce):
    """Stands in for schemes that a person stopped, and then asked for again."""

    stopped = True

    def ask(self, asked: Asked[Any]) -> Answer[Any]:
        return self.wait(asked.id, 0.0) if self.stopped else super().ask(asked)

    def wait(self, id_: str, seconds: float) -> Answer[Any]:
        return failed(id_, "stopped") if self.stopped else super().wait(id_, seconds)


def test_a_job_whose_schemes_were_stopped_is_on_the_bench_once_they_are_there(
    shop: Workshop, job: str
) -> None:
    works = StoppedOnce()
    shop = replace(shop, works=works)
    assert job_work(shop).left_out == (failed("", "stopped").says,)
    assert bench_now(shop) is bench_now(shop)
    works.stopped = False
    assert next(iter(left(shop))) == "strip a drum"


def test_work_keeps_the_order_of_the_trade(shop: Workshop, job: str) -> None:
    found = left(shop)
    assert list(found) == [
        "strip a drum", "soak and clean a lug", "clean a hoop", "plug a hole", "refit a lug",
        "fit strainer and butt", "put on hoop and head", "tune a drum", "pack a drum",
    ]  # fmt: skip
    strip, soak, hoops, plug, refit = (
        found[name].task
        for name in ("strip a drum", "soak and clean a lug", "clean a hoop", "plug a hole",
                     "refit a lug")
    )  # fmt: skip
    assert soak.after == hoops.after == plug.after == (strip.key,)
    assert set(refit.after) == {plug.key, soak.key, hoops.key}
    assert (plug.says, plug.minutes, plug.cure_min, plug.air) == (
        "2 x plug a hole",
        24,
        720,
        "dust",
    )
    assert (soak.minutes, soak.cure_min) == (16 * 12, 720)


def test_what_cannot_be_undone_waits_for_a_yes(shop: Workshop, job: str) -> None:
    """Tuesday: a yes is taken to come on Wednesday, and work on it to begin on Thursday."""
    found = left(shop)
    assert found["strip a drum"].task.not_before == 0
    assert found["plug a hole"].task.not_before == 2 * 1440
    assert found["soak and clean a lug"].task.not_before == 2 * 1440
    assert found["strip a drum"].cautions[0].startswith("No price is agreed yet")
    (waits,) = job_work(shop).drums[0].for_client
    assert waits.day == dt.date(2030, 5, 16)
    assert "waits for a yes to the scheme" in job_work(shop).assumes[0]
    say_yes(shop, job)
    assert left(shop)["plug a hole"].task.not_before == 0
    assert job_work(shop).drums[0].for_client == ()


def test_a_missing_part_holds_up_only_what_it_goes_on_with(shop: Workshop, job: str) -> None:
    found = left(shop)
    parts = {one.what: one for one in job_work(shop).drums[0].for_part}
    assert set(parts) == {f"1 {STRAINER}", "2 screw 10-24 x 5/8 in", "2 screw washer 14"}
    assert {(one.day, one.known) for one in parts.values()} == {(dt.date(2030, 5, 21), False)}
    assert found["refit a lug"].task.not_before == 7 * 1440
    # Before a price is agreed nothing is soaked either.
    assert found["clean a hoop"].task.not_before == 2 * 1440
    write_arrival(
        shop, kept_job(shop, job), what=STRAINER, day="2030-05-29", sure=True, based_on=0, by="b"
    )
    assert left(shop)["refit a lug"].task.not_before == 15 * 1440
    (known,) = [one for one in job_work(shop).drums[0].for_part if one.known]
    assert (known.what, known.called, known.sure) == (f"1 {STRAINER}", STRAINER, True)


def test_an_answer_that_the_client_has_named_a_day_for_is_waited_for(
    shop: Workshop, job: str
) -> None:
    (assumed,) = job_work(shop).drums[0].for_client
    # Asked on a Tuesday, answered tomorrow, worked on the day after: nobody has said so.
    assert (assumed.day, assumed.known) == (dt.date(2030, 5, 16), False)
    write_arrival(
        shop, kept_job(shop, job), what=assumed.called, day="2030-05-24", sure=True, based_on=0,
        by="b",
    )  # fmt: skip
    (named,) = job_work(shop).drums[0].for_client
    assert (named.day, named.known) == (dt.date(2030, 5, 24), True)
    assert left(shop)["plug a hole"].task.not_before == 10 * 1440
    assert not any("a yes" in line for line in job_work(shop).assumes)


def test_what_the_log_counts_is_done_and_still_cures(
    shop: Workshop, job: str, clock: Clock
) -> None:
    say_yes(shop, job)
    worked(shop, job, "strip a drum", 1, took="40 min")
    worked(shop, job, "plug a hole", 1, took="20 min")
    found = left(shop)
    assert "strip a drum" not in found
    assert (found["plug a hole"].times, found["plug a hole"].task.after) == (1, ())
    (cures,) = job_work(shop).drums[0].cures
    assert cures.until == TUESDAY + dt.timedelta(hours=12)
    done = {one.task.says: one.worked_min for one in job_work(shop).so_far if one.finished}
    assert done == {"strip a drum": 40.0, "plug a hole": 20.0}
    worked(shop, job, "plug a hole", 1, took="15 min")
    assert "plug a hole" not in left(shop)
    assert left(shop)["refit a lug"].task.not_before >= 21 * 60
    clock.at = TUESDAY + dt.timedelta(hours=13)
    assert job_work(shop).drums[0].cures == ()


def test_ticked_holes_are_done_and_their_drum_was_stripped(shop: Workshop, job: str) -> None:
    say_yes(shop, job)
    scheme = scheme_of(shop, job)
    hole = next(one.number for one in scheme.layout.holes if one.verdict is Verdict.PLUG)
    drum = kept_job(shop, job).drums[0]
    tick(shop, job, drum, scheme=scheme, hole=hole, done=True, by="bench")
    found = left(shop)
    assert found["plug a hole"].times == 1
    assert "strip a drum" not in found


def test_a_cold_room_cures_slowly_and_a_colder_one_is_told_of(shop: Workshop, job: str) -> None:
    write_open_hours(shop, {"room": "10 °C"}, based_on=0, by="bench")
    assert left(shop)["plug a hole"].task.cure_min == 1440
    write_open_hours(shop, {"room": "5 °C"}, based_on=1, by="bench")
    assert left(shop)["plug a hole"].task.cure_min == 1440
    assert any("too cold to plug a hole" in line for line in job_work(shop).assumes)


def test_work_in_hand_is_finished_before_anything_else(
    shop: Workshop, job: str, clock: Clock
) -> None:
    """Soaking was picked up at 9:00 and is usually 192 min; from 11:00 less than that is left."""
    worked(shop, job, "strip a drum", 1, took="40 min")
    taken_up(shop, job, "soak and clean a lug", TUESDAY)
    clock.at = TUESDAY + dt.timedelta(hours=2)
    bench: BenchNow = bench_now(shop)
    asked = asked_of(bench)
    (soak,) = (one for one in asked.left if "soak" in one.key)
    assert 72 < soak.minutes < 192
    assert soak.not_before == 0
    (begun,) = (one for one in asked.so_far if not one.finished)
    assert begun.worked_min == 120.0
    others = [one for one in asked.tasks if one.key != soak.key]
    assert all(one.not_before >= 11 * 60 + soak.minutes for one in others)


def test_clamps_that_glue_holds_are_not_there_for_the_plan(shop: Workshop, job: str) -> None:
    """Eight are held: by a scheme whose plugs were clamped, as the book might come to say."""
    say_yes(shop, job)
    worked(shop, job, "plug a hole", 2, took="30 min")
    bench = bench_now(shop)
    (one,) = bench.jobs
    (drum,) = one.work.drums
    clamped = replace(drum, cures=(replace(drum.cures[0], clamps=8),))
    with_clamps = replace(bench, jobs=(replace(one, work=replace(one.work, drums=(clamped,))),))
    (holds,) = asked_of(with_clamps).shop.holds
    assert (holds.clamps, holds.until, holds.job) == (8, 21 * 60 + 1, job)


def test_a_job_without_a_drum_is_left_out_and_said(shop: Workshop) -> None:
    open_folder(shop, job={"number": "9"}, by="bench")
    found = job_work(shop)
    assert found.work == ()
    assert found.assumes == ("9: no drum is in the folder yet.",)
    with pytest.raises(BadInput, match="nothing to plan"):
        found.need_work()
