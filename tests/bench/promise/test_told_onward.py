"""What pages and papers are told of the plan.

Truth: worked by hand on one small job; an independent reader for the calendar; exact law (what the
day's list holds is what the plan places on that day, what is past is never struck).
"""

from __future__ import annotations

import datetime as dt

import icalendar
from small_shop import QUICK, TUESDAY, Clock, planned, taken_up, worked

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.long_work.answers import Done
from counterhoop.bench.promise.diary import calendar
from counterhoop.bench.promise.hours_open import write_open_hours
from counterhoop.bench.promise.promises import write_arrival, write_promise
from counterhoop.bench.promise.todays_list import todays_list
from counterhoop.bench.promise.weeks import weeks, weeks_of
from counterhoop.bench.promise.what_waits import what_waits
from counterhoop.bench.workshop import Workshop

STRAINER = "Corvane lever strainer"


def test_the_first_page_tells_what_waits_for_whom(shop: Workshop, job: str, clock: Clock) -> None:
    worked(shop, job, "strip a drum", 1, took="40 min")
    worked(shop, job, "plug a hole", 1, took="20 min")
    taken_up(shop, job, "soak and clean a lug", TUESDAY)
    write_promise(
        shop, kept_job(shop, job), day="2030-05-15", to="Nell", share=None, based_on=0, by="b"
    )
    bench = what_waits(shop, **QUICK)
    assert [one.says for one in bench.now] == [
        "School snare, soak and clean a lug: in hand at window bench since 9:00."
    ]
    assert [one.says for one in bench.waits_on_glue] == ["School snare, plug a hole: from 21:00."]
    assert [one.says for one in bench.waits_on_client] == [
        "No scheme is taken for the school snare yet."
    ]
    # Nothing is ordered before the client has said yes.
    assert bench.waits_on_part == ()
    (late,) = bench.late
    assert bench.promised == (late,)
    assert late.says.startswith(
        "26-034, Tobin Ashgrove, promised for Wednesday 15 May 2030: likely by "
    )
    assert late.says.endswith(", not before. Ring in time.")
    clock.at = TUESDAY + dt.timedelta(days=2)
    (past,) = what_waits(shop, **QUICK).late
    assert past.day == dt.date(2030, 5, 15)
    assert ", promised for Wednesday 15 May 2030, is late: likely by " in past.says


def test_what_is_in_hand_is_told_though_the_hours_do_not_see_the_end_of_the_work(
    shop: Workshop, job: str
) -> None:
    """Open one hour a year."""
    taken_up(shop, job, "soak and clean a lug", TUESDAY)
    closed = dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), "closed")
    extra = {"2030-12-24": "9:00-10:00"}
    write_open_hours(shop, {"week": closed, "extra": extra}, based_on=0, by="bench")
    bench = what_waits(shop, **QUICK)
    assert len(bench.now) == len(bench.waits_on_client) == 1
    assert bench.failed is not None
    assert bench.failed.why == "refused"


def test_what_has_cured_within_the_hour_waits_no_more(
    shop: Workshop, job: str, clock: Clock
) -> None:
    """Plugged at 9:20, cured at 21:20; the bench is read once from 21:00 on."""
    clock.at = TUESDAY + dt.timedelta(minutes=20)
    worked(shop, job, "plug a hole", 1, took="20 min")
    clock.at = TUESDAY + dt.timedelta(hours=12, minutes=5)
    assert [one.says for one in what_waits(shop, **QUICK).waits_on_glue] == [
        "School snare, plug a hole: from 21:30."
    ]
    clock.at = TUESDAY + dt.timedelta(hours=12, minutes=20)
    assert what_waits(shop, **QUICK).waits_on_glue == ()


def test_the_day_holds_what_the_plan_places_on_it(shop: Workshop, job: str) -> None:
    write_promise(
        shop, kept_job(shop, job), day="2030-05-20", to="Nell", share=None, based_on=0, by="b"
    )
    write_arrival(
        shop, kept_job(shop, job), what=STRAINER, day="2030-05-16", sure=False, based_on=1, by="b"
    )
    plan = planned(shop)
    on = dt.date(2030, 5, 16)
    answer = todays_list(shop, name="Window bench", day=on, **QUICK)
    assert isinstance(answer, Done)
    told = answer.value
    placed = [
        (plan.time(begins).time(), ends - begins)
        for one in plan.found.plan.placed
        for begins, ends in one.stretches
        if plan.time(begins).date() == on
    ]
    assert [(one.begins, one.minutes) for one in told.work] == placed
    plug = next(one for one in told.work if "plug" in one.says)
    assert (plug.says, plug.paper, plug.job) == ("2 x plug a hole", "hole list", "26-034")
    assert plug.cautions == ("No dowels: they cannot be drilled again.",)
    assert told.comes == (f"{STRAINER}, for job 26-034 (not sure)",)
    assert told.promised == ("job 26-034 for Monday 20 May 2030, told to Nell",)
    assert any("plug" in one.says for one in told.touch)


def test_the_weeks_show_hands_cures_and_what_comes(shop: Workshop, job: str) -> None:
    write_arrival(
        shop, kept_job(shop, job), what=STRAINER, day="2030-05-17", sure=True, based_on=0, by="b"
    )
    plan = planned(shop)
    answer = weeks(shop, **QUICK)
    assert isinstance(answer, Done)
    found = answer.value
    (row,) = found.rows
    assert (row.job, row.drum, row.comes) == ("26-034", "school snare", (dt.date(2030, 5, 17),))
    hands = sum((bar.ends - bar.begins).total_seconds() for bar in row.bars if bar.kind == "hands")
    assert hands == 60 * sum(task.minutes for task in plan.asked.left)
    assert {bar.says for bar in row.bars if bar.kind == "cure"} == {
        "16 x soak and clean a lug", "2 x plug a hole"
    }  # fmt: skip
    assert found.calendar.first == dt.date(2030, 5, 13)
    assert (found.calendar.opens, found.calendar.closes) == (9.0, 18.0)
    assert dt.date(2030, 5, 18) in found.calendar.closed


def events(shop: Workshop) -> dict[str, icalendar.Event]:
    answer = calendar(shop, whose="Window bench", by="window bench", **QUICK)
    assert isinstance(answer, Done)
    read = icalendar.Calendar.from_ical(answer.value)
    return {str(one["UID"]): one for one in read.walk("VEVENT")}


def test_calendars_hear_of_changes_and_keep_what_is_past(
    shop: Workshop, job: str, clock: Clock
) -> None:
    first = events(shop)
    assert events(shop) == first
    assert {int(one["SEQUENCE"]) for one in first.values()} == {0}
    strip = next(uid for uid, one in first.items() if one["SUMMARY"].endswith("strip a drum"))
    tune = next(uid for uid, one in first.items() if one["SUMMARY"].endswith("tune a drum"))
    worked(shop, job, "strip a drum", 1, took="40 min")
    write_arrival(
        shop, kept_job(shop, job), what=STRAINER, day="2030-06-12", sure=True, based_on=0, by="b"
    )
    clock.at = TUESDAY + dt.timedelta(hours=3)
    later = events(shop)
    assert later[strip] == first[strip]
    assert int(later[tune]["SEQUENCE"]) == 1
    assert later[tune]["STATUS"] == "CONFIRMED"
    assert later[tune]["DTSTART"].dt.date() >= dt.date(2030, 5, 21)
    for operation in ("tune a drum", "pack a drum"):
        worked(shop, job, operation, 1, took="20 min")
    assert events(shop)[tune]["STATUS"] == "CANCELLED"


def test_weeks_begin_with_the_week_of_the_first_work(
    shop: Workshop, job: str, clock: Clock
) -> None:
    clock.at = dt.datetime(2030, 5, 18, 20, 0)
    made = weeks_of(planned(shop), now=clock.at)
    assert (made.calendar.first, made.calendar.days) == (dt.date(2030, 5, 20), 14)
    clock.at = dt.datetime(2030, 5, 16, 9, 0)
    assert weeks_of(planned(shop), now=clock.at).calendar.first == dt.date(2030, 5, 13)
