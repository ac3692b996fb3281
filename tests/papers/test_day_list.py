"""The day's list: what it says, and that nothing may be touched too early."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from documents import pages, words
from example_days import DUST, day_of
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.papers.day_list import day_list_pdf, touch_said


def test_what_the_list_says() -> None:
    said = words(day_list_pdf(day_of()))
    for line in (
        "Wednesday 4 March 2026",
        "hands at work 4 h 10 min",  # 76 + 130 + 45 = 251 minutes
        "9:00–10:20 1 h 15 min at it true the batter edge (begun)",
        "job 17, small tom; by the truing sheet",
        "feeler all round",
        "from 11:45 job 19, bass hoop lacquer",
        "Thursday 5 March 2026, from 8:15",
        "Comes • ten rods for job 17",
        "Promised • job 19, bass drum: Friday 6 March",
    ):
        assert line in said, line
    assert said.count(DUST) == 1  # told where it first applies
    assert said.index("from 11:45") < said.index("from 8:15")


def test_an_empty_day() -> None:
    said = words(day_list_pdf(replace(day_of(), work=(), touch=(), comes=(), promised=())))
    assert "Nothing is planned at the bench." in said
    for heading in ("What may be touched", "Comes", "Promised", "Cautions"):
        assert heading not in said


def test_sixty_pieces_of_work() -> None:
    sheets = pages(day_list_pdf(replace(day_of(), work=day_of().work * 20), paper="Letter"))
    assert all("it took" in sheet for sheet in sheets[:-1])
    assert sum(sheet.count("glue a lifted ply") for sheet in sheets) == 20


TIMES = st.datetimes(min_value=dt.datetime(2026, 3, 4, 0, 1), max_value=dt.datetime(2026, 3, 4, 23))


@given(TIMES)
def test_never_too_early_and_less_than_a_quarter_late(when: dt.datetime) -> None:
    hour, minute = touch_said(when, today=when.date()).removeprefix("from ").split(":")
    told = dt.datetime(2026, 3, 4, int(hour), int(minute))
    assert dt.timedelta() <= told - when < dt.timedelta(minutes=15)
    assert told.minute % 15 == 0
