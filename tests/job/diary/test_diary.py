"""The diary is read back by the library and, octet by octet, by a reader of its own.

Truth: RFC 5545 for the bytes, hand-worked days and times for what stands in them.
"""

from __future__ import annotations

import datetime as dt
from collections import Counter
from dataclasses import replace

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st
from random_shops import random_shop
from strict_reader import bare, plain, read_strictly

from counterhoop.errors import BadInput
from counterhoop.job.diary.calendar import calendar_of, uid_of
from counterhoop.job.diary.carry_on import Written, carry_on
from counterhoop.job.diary.entry import Entry
from counterhoop.job.diary.of_plan import OnADay, entries_of
from counterhoop.job.schedule.task import Shop, Task
from counterhoop.job.schedule.work_through import work_through

MONDAY = dt.date(2026, 12, 7)
NOW = dt.datetime(2026, 12, 6, 20, 15, tzinfo=dt.timezone(dt.timedelta(hours=2)))
READY = Entry(key="14", says="14 is ready", begins=MONDAY, ends=MONDAY + dt.timedelta(days=1))


def given_out(*entries: Entry) -> bytes:
    return calendar_of(carry_on(entries, moment=NOW), whose="Bench at the mill")


def two_jobs() -> tuple[Entry, ...]:
    """Glue before lunch with a cure, an edge over lunch; a date and a parcel."""
    tasks = (
        Task(key="14/glue", job="14", drum="small tom", says="glue", minutes=120, cure_min=720),
        Task(key="15/edge", job="15", drum="snare", says="true the edge", minutes=120),
    )
    shop = Shop(open=((540, 720), (780, 1020)), clamps=2, drying=1)
    return entries_of(
        work_through(("14/glue", "15/edge"), tasks, shop), tasks, start=MONDAY,
        promised=[OnADay(key="14", day=MONDAY + dt.timedelta(days=4), says="small tom, job 14")],
        expected=[OnADay(key="rods", day=MONDAY, says="six rods")],
    )  # fmt: skip


def test_a_plan_by_hand() -> None:
    assert [(f"{one.begins}", f"{one.ends}", one.says, one.busy) for one in two_jobs()] == [
        ("2026-12-07", "2026-12-08", "Comes in: six rods", False),
        ("2026-12-07 09:00:00", "2026-12-07 11:00:00", "small tom: glue", True),
        ("2026-12-07 11:00:00", "2026-12-07 12:00:00", "snare: true the edge (1 of 2)", True),
        ("2026-12-07 13:00:00", "2026-12-07 14:00:00", "snare: true the edge (2 of 2)", True),
        ("2026-12-07 23:00:00", "2026-12-07 23:00:00", "small tom: cured (glue)", False),
        ("2026-12-11", "2026-12-12", "Promised: small tom, job 14", False),
    ]


@pytest.mark.parametrize("seed", range(3))
def test_of_a_large_plan_every_minute_and_every_cure_stands_in_the_diary(seed: int) -> None:
    tasks, _, shop = random_shop(seed, drums=6)
    plan = work_through([task.key for task in tasks], tasks, shop)
    entries = entries_of(plan, tasks, start=MONDAY)
    busy = sum(((one.ends - one.begins) for one in entries if one.busy), dt.timedelta())
    assert busy == dt.timedelta(minutes=sum(task.minutes for task in tasks))
    assert sum(not one.busy for one in entries) == sum(task.cure_min > 0 for task in tasks)
    read = read_strictly(given_out(*entries))
    assert read.wrong == ()
    assert len(read.events) == len(entries)


def test_whole_days_as_the_standard_writes_them() -> None:
    """RFC 5545, 3.6.1: the end of a whole day is not part of it; the second and third of March."""
    block = Entry(key="closed", says="closed", begins=dt.date(2026, 3, 2), ends=dt.date(2026, 3, 4))
    made = given_out(block)
    assert b"\r\nDTSTART;VALUE=DATE:20260302\r\nDTEND;VALUE=DATE:20260304\r\n" in made


def test_times_float_and_the_stamp_is_in_utc() -> None:
    found = read_strictly(given_out(*two_jobs())).events
    assert {one["DTSTAMP"].value for one in found} == {"20261206T181500Z"}
    glue = next(one for one in found if one["SUMMARY"].value == "small tom: glue")
    assert (glue["DTSTART"].value, glue["DTEND"].value) == ("20261207T090000", "20261207T110000")
    cured = next(one for one in found if "cured" in one["SUMMARY"].value)
    assert "DTEND" not in cured
    assert Counter(one["TRANSP"].value for one in found) == {"TRANSPARENT": 3, "OPAQUE": 3}


@given(st.text(min_size=1), st.text(), st.text(min_size=1), st.text())
def test_whatever_is_said_comes_back(key: str, says: str, whose: str, more: str) -> None:
    one = replace(READY, key=key, says=f"x{says}", more=more)
    made = calendar_of(carry_on((one,), moment=NOW), whose=whose)
    strict = read_strictly(made)
    assert strict.wrong == ()
    (event,) = icalendar.Calendar.from_ical(made).walk("VEVENT")
    (found,) = strict.events
    kept = said_plainly(one.says).replace("\n", " ")
    assert plain(found["SUMMARY"].value) == kept == str(event["SUMMARY"])
    (name,) = [one.value for one in strict.calendar if one.name == "NAME"]
    assert not bare(name)
    assert plain(name) == said_plainly(whose).replace("\n", " ")
    if more:
        assert plain(found["DESCRIPTION"].value) == said_plainly(more) == str(event["DESCRIPTION"])
    assert event.decoded("DTSTART") == one.begins
    assert event.decoded("DTEND") == one.ends


def said_plainly(text: str) -> str:
    """Line ends as line feeds, other controls (C0, DEL, C1) as spaces, by their numbers."""
    lines = "\n".join("\n".join(text.split("\r\n")).split("\r"))
    return "".join(
        " " if (ord(one) < 32 and one != "\n") or 127 <= ord(one) < 160 else one for one in lines
    )


@pytest.mark.parametrize("wide", ["é", "–", "𝄞"])
@pytest.mark.parametrize("before", range(6))
def test_folding_splits_no_character(wide: str, before: int) -> None:
    """Characters of two, three and four octets at every place about the 75th."""
    made = given_out(replace(READY, says="x" * before + wide * 80))
    assert read_strictly(made).wrong == ()


@pytest.mark.parametrize(
    ("was", "becomes", "says"),
    [
        (b"\r\n", b"\n", "half a line end"),
        (b"\r\n ", b"", "octets"),
        ("–\r\n ".encode(), b"\xe2\x80\r\n \x93", "a character is split"),
        (b"14\\, ", b"14, ", "not escaped"),
        (b"UID:", b"X-UID:", "no UID"),
        (b"DTEND;VALUE=DATE:20261208", b"DTEND;VALUE=DATE:20261207", "end after it begins"),
        (b"Z\r\n", b"\r\n", "not in UTC"),
        (b"VERSION:2.0", b"VERSION:3.0", "VERSION"),
        (b"SEQUENCE:0", b"SUMMARY:two", "2 SUMMARY"),
        (b"ready", b"rea\x07dy", "a control"),
    ],
)
def test_the_strict_reader_finds_what_is_wrong(was: bytes, becomes: bytes, says: str) -> None:
    made = given_out(replace(READY, says="14, is ready " + "–" * 60))
    assert read_strictly(made).wrong == ()
    assert was in made
    assert any(says in one for one in read_strictly(made.replace(was, becomes)).wrong)


def test_the_same_thing_keeps_its_name_and_two_workshops_have_two() -> None:
    moved = replace(READY, says="later", ends=MONDAY + dt.timedelta(days=3))
    names = [read_strictly(given_out(one)).events[0]["UID"].value for one in (READY, moved)]
    assert names[0] == names[1] == uid_of("14", whose="Bench at the mill")
    assert len({uid_of("14", whose="a"), uid_of("15", whose="a"), uid_of("14", whose="b")}) == 3
    assert uid_of("1", whose="a1") != uid_of("11", whose="a")


def told(diary: tuple[Written, ...]) -> list[tuple[str, int, bool, int]]:
    return [
        (one.entry.key, one.times_changed, one.struck, one.changed.astimezone(dt.UTC).day)
        for one in diary
    ]


def test_what_changes_counts_one_more_and_what_does_not_stays_to_the_octet() -> None:
    other = replace(READY, key="15", says="15 is ready")
    first = carry_on((READY, other), moment=NOW)
    same = carry_on((READY, other), first, moment=NOW + dt.timedelta(days=1))
    assert calendar_of(same, whose="B") == calendar_of(first, whose="B")
    moved = replace(READY, begins=READY.ends, ends=READY.ends + dt.timedelta(days=1))
    second = carry_on((moved, other), same, moment=NOW + dt.timedelta(days=1))
    assert told(second) == [("14", 1, False, 7), ("15", 0, False, 6)]
    third = carry_on((moved,), second, moment=NOW + dt.timedelta(days=2))
    assert told(third) == [("14", 1, False, 7), ("15", 1, True, 8)]
    fourth = carry_on((moved,), third, moment=NOW + dt.timedelta(days=3))
    assert told(fourth) == told(third)
    back = carry_on((moved, other), fourth, moment=NOW + dt.timedelta(days=4))
    assert told(back) == [("14", 1, False, 7), ("15", 2, False, 10)]


def test_a_struck_line_is_called_off_in_the_calendar() -> None:
    struck = carry_on((), carry_on((READY,), moment=NOW), moment=NOW)
    (found,) = read_strictly(calendar_of(struck, whose="B")).events
    assert (found["STATUS"].value, found["SEQUENCE"].value) == ("CANCELLED", "1")


@given(st.lists(st.lists(st.tuples(st.sampled_from("abc"), st.booleans()), max_size=4), max_size=6))
def test_no_name_ever_counts_backwards(editions: list[list[tuple[str, bool]]]) -> None:
    diary: tuple[Written, ...] = ()
    for number, edition in enumerate(editions):
        entries = [replace(READY, key=key, busy=busy) for key, busy in dict(edition).items()]
        before = {one.entry.key: one for one in diary}
        diary = carry_on(entries, diary, moment=NOW + dt.timedelta(days=number))
        assert {one.entry.key for one in diary} >= set(before)
        for one in diary:
            was = before.get(one.entry.key)
            if was is not None:
                same = (was.entry, was.struck) == (one.entry, one.struck)
                assert one.times_changed == was.times_changed + (not same)
                assert (one.changed == was.changed) is same


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"key": ""}, "has a key"),
        ({"says": " "}, "says something"),
        ({"ends": MONDAY}, "the day after the last"),
        ({"ends": dt.datetime(2026, 12, 8)}, "both days or both times"),
        ({"begins": NOW, "ends": NOW}, "without a zone"),
    ],
)
def test_what_cannot_stand_in_a_diary_is_refused(changes: dict[str, object], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        replace(READY, **changes)


def test_a_diary_written_twice_or_at_no_time_is_refused() -> None:
    with pytest.raises(BadInput, match="twice"):
        carry_on((READY, READY), moment=NOW)
    with pytest.raises(BadInput, match="zone"):
        carry_on((READY,), moment=NOW.replace(tzinfo=None))
    with pytest.raises(BadInput, match="not among"):
        entries_of(
            work_through(
                ("a",), (Task(key="a", job="a", drum="a", says="a", minutes=1),),
                Shop(open=((0, 9),), clamps=0, drying=0),
            ), (), start=MONDAY,
        )  # fmt: skip
