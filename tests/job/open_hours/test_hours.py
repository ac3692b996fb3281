"""Hours as typed and minutes of a plan.

Truth: hand-worked days of March 2026 (a month that begins with a Sunday), exact laws (there and
back, nothing lost), and for enough hours a person who loses every minute that can be lost.
"""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.job.open_hours.minutes import (
    day_of,
    end_of,
    enough_stretches,
    minute_of,
    stretches,
    time_of,
)
from counterhoop.job.open_hours.week import (
    Stretches,
    WorkingWeek,
    days_between,
    read_hours,
    read_week,
)
from counterhoop.job.schedule.task import Plan, Shop, Task
from counterhoop.job.schedule.work_through import work_through

MONDAY = dt.date(2026, 3, 2)
WEEK = read_week({
    **dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), "9:00-13:00, 14:00-18:00"),
    "saturday": "closed",
})  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("09:00-12:30, 13:30-18:00", ((540, 750), (810, 1080))),
        ("9.15 – 12; 13 to 17", ((555, 720), (780, 1020))),
        ("8-12, 12-16", ((480, 960),)),
        ("20:00-24:00", ((1200, 1440),)),
        (" Closed ", ()),
        ("", ()),
    ],
)
def test_hours_are_read_as_people_type_them(typed: str, read: tuple[tuple[int, int], ...]) -> None:
    assert read_hours(typed) == read


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("9", "from when to when"),
        ("9-12-15", "from when to when"),
        ("9-25", "not a time of day"),
        ("9-12:60", "not a time of day"),
        ("nine-ten", "not a time of day"),
        ("9-24:01", "not a time of day"),
        ("12-9", "ends before it begins"),
        ("22:00-2:00", "to 24:00, and from 0:00 on the next day"),
        ("9-9", "ends before it begins"),
        ("9-12, 11-15", "run into each other"),
        ("13-15, 9-12", "run into each other"),
    ],
)
def test_hours_that_cannot_be_meant_are_refused(typed: str, says: str) -> None:
    with pytest.raises(BadInput, match=says) as told:
        read_hours(typed, where="monday")
    assert str(told.value).startswith("monday: ")


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"mon": "9-12", "Monday": "9-12"}, "stands twice"),
        ({"t": "9-12"}, "no weekday"),
        ({"someday": "9-12"}, "no weekday"),
        ({"mon": "closed"}, "never open"),
        ({}, "never open"),
    ],
)
def test_a_week_that_cannot_be_meant_is_refused(typed: dict[str, str], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        read_week(typed)
    with pytest.raises(BadInput, match="seven"):
        WorkingWeek(days=((),))


def test_days_off_and_days_with_their_own_hours() -> None:
    week = read_week(
        {"mon": "9-12", "tue": "9-12"},
        off=days_between(MONDAY, MONDAY + dt.timedelta(days=1)),
        extra={MONDAY + dt.timedelta(days=1): "10-11", MONDAY + dt.timedelta(days=5): "8-9"},
    )
    assert stretches(week, MONDAY, 8) == (
        (1440 + 600, 1440 + 660),
        (5 * 1440 + 480, 5 * 1440 + 540),
        (7 * 1440 + 540, 7 * 1440 + 720),
    )
    with pytest.raises(BadInput, match="ends before"):
        days_between(MONDAY, MONDAY - dt.timedelta(days=1))


def test_work_through_midnight_is_one_stretch() -> None:
    week = read_week({"mon": "22-24", "tue": "0-2"})
    assert stretches(week, MONDAY, 2) == ((1320, 1560),)


@given(st.datetimes(dt.datetime(2026, 3, 2), dt.datetime(2030, 1, 1)))
def test_minutes_lead_back_to_the_time(when: dt.datetime) -> None:
    whole = when.replace(second=0, microsecond=0)
    minute = minute_of(whole, start=MONDAY)
    assert time_of(minute, start=MONDAY) == whole
    assert day_of(minute, start=MONDAY) == whole.date()
    assert minute < end_of(whole.date(), start=MONDAY) <= minute + 1440


def test_a_time_with_a_zone_is_refused() -> None:
    with pytest.raises(BadInput, match="no zone"):
        minute_of(dt.datetime(2026, 3, 2, tzinfo=dt.UTC), start=MONDAY)


@given(st.integers(1, 9000), st.integers(0, 9000))
def test_enough_hours_hold_the_work_and_every_wait(hands: int, idle: int) -> None:
    found = enough_stretches(WEEK, MONDAY, hands_min=hands, idle_min=idle)
    held = sum(ends - begins for begins, ends in found)
    last_day = sum(
        ends - begins for begins, ends in found if begins // 1440 == found[-1][0] // 1440
    )
    assert held - last_day < hands + idle <= held


def test_hours_too_short_for_work_not_to_be_laid_down_are_not_counted_on() -> None:
    """By hand: three coats of two hours fit only the Saturdays of a shop that opens for one hour
    else; three on the first Saturday are six hours of its four, so it takes two."""
    week = read_week({
        **dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), "9-10, 11-12, 13-14"), "sat": "9-13",
    })  # fmt: skip
    coats = [
        Task(key=each, job=each, drum=each, says="coat", minutes=120, unbroken=True)
        for each in "abc"
    ]

    def worked(open_: Stretches) -> Plan:
        return work_through("abc", coats, Shop(open=open_, clamps=0, drying=0))

    with pytest.raises(BadInput, match="fits no working stretch"):
        worked(enough_stretches(week, MONDAY, hands_min=360, idle_min=360))
    found = enough_stretches(week, MONDAY, hands_min=360, idle_min=360, whole_min=120)
    assert [one.begins // 1440 for one in worked(found).placed] == [5, 5, 12]


def test_hours_that_never_see_the_end_are_refused() -> None:
    only = read_week({}, extra={MONDAY: "9-10"})
    assert enough_stretches(only, MONDAY, hands_min=60) == ((540, 600),)
    with pytest.raises(BadInput, match="do not see the end"):
        enough_stretches(only, MONDAY, hands_min=61)
