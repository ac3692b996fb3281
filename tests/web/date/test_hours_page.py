"""The open hours as a form: the usual shown as usual, what cannot be read beside its field.

Truth: worked by hand from what is typed.
"""

from __future__ import annotations

import re

import pytest
from two_snares import Desk, words

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import OPEN_HOURS
from counterhoop.bench.promise.hours_open import open_hours

HOURS = "/workshop/hours"
TYPED = {
    "monday": "9-12", "tuesday": "closed", "wednesday": "10:00-12:30, 14-17", "saturday": "10-13",
    "off": "2030-05-22\n2030-07-01 to 2030-07-14", "extra": "2030-05-25: 9-16", "clamps": "6",
    "drying": "", "room": "64 F",
}  # fmt: skip


def number(desk: Desk) -> int:
    return drawer(desk.shop).get(OPEN_HOURS, Kept()).number


def test_the_usual_is_shown_as_usual_until_it_is_written(desk: Desk) -> None:
    page = desk.ask.get(HOURS)
    assert "Open 40 h a week, on 5 days." in words(page)
    assert page.text.count("09:00-12:30, 13:30-18:00") == 5
    assert re.search(r'name="sunday" value="closed"', page.text)
    assert re.search(r'name="clamps" value="12"', page.text)
    assert page.text.count("As usual, while you have not written it down.") == 3


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("monday", "18-9", "Ends before it begins"),
        ("wednesday", "all day", "From when to when?"),
        ("off", "whitsun", "Not a day"),
        ("off", "2030-07-14 to 2030-07-01", "Ends before it begins"),
        ("extra", "tomorrow: 9-12", "Which day, and which hours?"),
        ("extra", "2030-05-25: 12-9", "Ends before it begins"),
        ("clamps", "some", "How many?"),
        ("room", "warm", "How warm?"),
    ],
)
def test_what_cannot_be_read_is_said_at_its_field_and_kept_as_typed(
    desk: Desk, field: str, text: str, says: str
) -> None:
    before = number(desk)
    answer = desk.send(HOURS, **TYPED | {field: text, "based_on": before})
    assert answer.status_code == 422
    assert re.search(rf'id="hours-{field}-fault" role="alert">{re.escape(says)}', answer.text)
    assert text in answer.text
    assert "2030-07-01" in answer.text
    assert number(desk) == before


def test_a_workshop_that_is_never_open_is_refused_once_for_the_week(desk: Desk) -> None:
    closed = dict.fromkeys(("monday", "wednesday", "saturday"), "")
    # With no hours at all the usual week is meant; a week of closed days is none.
    answer = desk.send(
        HOURS, **TYPED | closed | {"extra": "", "monday": "closed", "based_on": number(desk)}
    )
    assert answer.status_code == 422
    assert "The shop is never open" in words(answer)


def test_what_is_written_is_read_back_and_the_bench_planned_anew(desk: Desk) -> None:
    assert "Ready by" in desk.see("/workshop/weeks")
    planned = desk.works.begun.count("plan_bench")
    gone = desk.send(HOURS, **TYPED, based_on=number(desk))
    assert (gone.status_code, gone.headers["location"]) == (303, HOURS)
    # Begun as soon as the form was answered, and not again by whoever looks.
    assert desk.works.begun.count("plan_bench") == planned + 1
    desk.see("/workshop/weeks")
    assert desk.works.begun.count("plan_bench") == planned + 1
    hours = open_hours(desk.shop)
    assert hours.week.days[0] == ((540, 720),)
    assert hours.week.days[1] == ()
    assert (hours.clamps, hours.drying, round(hours.room_c, 1)) == (6, 4, 17.8)
    assert len(hours.week.off) == 15
    page = desk.ask.get(HOURS)
    # 3 h on Monday, 2 1/2 and 3 on Wednesday, 3 on Saturday.
    assert "Open 11 h 30 min a week, on 3 days." in words(page)
    assert page.text.count("As usual, while you have not written it down.") == 1
    assert "2030-07-01 to 2030-07-14" in page.text
    assert "2030-05-25: 9-16" in page.text
    assert 'action="/workshop/undo"' in page.text or number(desk) == 1


def test_of_two_benches_both_versions_are_shown(desk: Desk) -> None:
    seen = number(desk)
    assert desk.send(HOURS, **TYPED | {"clamps": "8"}, based_on=seen).status_code == 303
    both = desk.send(HOURS, **TYPED | {"clamps": "9"}, based_on=seen)
    assert both.status_code == 409
    assert "clamps 9 8" in words(both)
    assert desk.send(HOURS, keep="theirs").status_code == 303
    assert open_hours(desk.shop).clamps == 8
