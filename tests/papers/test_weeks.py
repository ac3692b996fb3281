"""The weeks: where bars lie, what cures while what is worked on, names within their column."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from documents import pages, words
from example_days import at, weeks_of
from example_letters import LONG
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.papers.drawing.lettering import box_of
from counterhoop.papers.drawing.records import Line, Path, Text
from counterhoop.papers.weeks import meanwhile, weeks_pdf
from counterhoop.papers.weeks_calendar import Calendar
from counterhoop.papers.weeks_picture import HEAD_MM, LABEL_MM, ROW_MM, Bar, DrumWeeks, draw_weeks

WEEKEND = frozenset(dt.date(2026, 3, day) for day in (7, 8, 14, 15))
FORTNIGHT = Calendar(first=dt.date(2026, 3, 2), days=14, wide_mm=107.0, closed=WEEKEND)
TIMES = st.datetimes(min_value=dt.datetime(2026, 2, 27), max_value=dt.datetime(2026, 3, 19))


def by_ident(rows: tuple[DrumWeeks, ...]) -> dict[str, Path | Line]:
    strokes = draw_weeks(rows, calendar=FORTNIGHT, now=at(4, 12)).strokes
    return {s.ident: s for s in strokes if isinstance(s, Path | Line) and s.ident}


def test_where_times_lie() -> None:
    """By hand: 10 working days and 4 of 0.35 are 11.4 wide; 1 hour of 10 is 0.08 of a day."""
    day = 107.0 / 11.4
    assert FORTNIGHT.x_mm(at(3, 13)) == pytest.approx(day * 1.5)
    assert FORTNIGHT.x_mm(at(9, 9)) == pytest.approx(day * (5.7 + 0.1 + 0.08))
    assert FORTNIGHT.x_mm(at(1, 9)) == 0.0
    assert FORTNIGHT.x_mm(at(16, 0)) == 107.0


@given(TIMES, TIMES)
def test_later_never_lies_further_left(one: dt.datetime, other: dt.datetime) -> None:
    first, second = sorted((one, other))
    assert 0.0 <= FORTNIGHT.x_mm(first) <= FORTNIGHT.x_mm(second) <= 107.0


def test_bars_lie_at_their_times_hands_over_cures() -> None:
    found = by_ident(weeks_of())
    hands, cure = found["weeks-0-hands-0"], found["weeks-0-cure-0"]
    assert isinstance(hands, Path)
    assert isinstance(cure, Path)
    assert hands.points[0][0] == pytest.approx(LABEL_MM + FORTNIGHT.x_mm(at(4, 9)))
    assert hands.points[1][0] == pytest.approx(LABEL_MM + FORTNIGHT.x_mm(at(4, 10, 30)))
    assert cure.points[1][0] == pytest.approx(LABEL_MM + FORTNIGHT.x_mm(at(5, 10, 30)))
    assert (hands.fill_share, hands.hatched, cure.fill_share, cure.hatched) == (1, False, 0, True)
    assert max(y for _, y in hands.points) < min(y for _, y in cure.points)
    flag = found["weeks-1-promised"]
    assert isinstance(flag, Line)
    assert flag.x1_mm == pytest.approx(LABEL_MM + FORTNIGHT.x_mm(at(12, 0)))
    assert "weeks-0-promised" not in found  # on a day that is not shown
    assert "weeks-1-comes" in found
    assert "weeks-now" in found


def test_cures_that_overlap_are_hatched_once() -> None:
    bars = (
        Bar(begins=at(3, 9), ends=at(4, 9), kind="cure", says="glue"),
        Bar(begins=at(4, 8), ends=at(5, 9), kind="cure", says="soak"),
        Bar(begins=at(6, 8), ends=at(6, 9), kind="cure"),
    )
    found = by_ident((DrumWeeks(job="1", drum="tom", bars=bars),))
    cures = [one for ident, one in found.items() if "-cure-" in ident]
    assert len(cures) == 2
    assert isinstance(cures[0], Path)
    assert cures[0].title == "glue; soak"


def test_what_cures_while_what_is_worked_on() -> None:
    """By hand from the rows: the bass drum is stripped while glue dries, fitted while lacquer."""
    told = meanwhile(weeks_of(), calendar=FORTNIGHT)
    assert [(one.name, one.says, one.until, one.work) for one in told] == [
        ("17 · small tom", "glue, in two clamps", at(5, 10, 30), ("19 · bass drum",)),
        ("17 · small tom", "lacquer", at(13, 10), ("19 · bass drum",)),
    ]
    alone = meanwhile(weeks_of()[:1], calendar=FORTNIGHT)
    assert [one.work for one in alone] == [(), ()]


def test_the_picture_in_words() -> None:
    drawing = draw_weeks(weeks_of(), calendar=FORTNIGHT)
    assert drawing.title == "The weeks from 2 March 2026 to 15 March 2026"
    assert (
        "17 · small tom: at the bench on 4, 5, 9 March; glue, in two clamps until 5 March;"
        " lacquer until 13 March; promised for 16 March." in drawing.says
    )
    assert "21 · glue, in two clamps: nothing in these weeks." in drawing.says


def test_no_name_runs_into_the_days_and_no_words_out_of_the_picture() -> None:
    rows = (DrumWeeks(job="17", drum=LONG), DrumWeeks(job="18", drum="鼓" * 30))
    drawing = draw_weeks(rows, calendar=FORTNIGHT, now=at(3, 9))
    texts = [box_of(stroke) for stroke in drawing.strokes if isinstance(stroke, Text)]
    names = [box for box in texts if box[0] == 0.0 and box[3] < HEAD_MM + 2 * ROW_MM]
    assert len(names) == 2
    assert all(right < LABEL_MM for _, _, right, _ in names)
    assert all(right <= drawing.width_mm for _, _, right, _ in texts)
    assert all(low <= drawing.height_mm for _, _, _, low in texts)


def test_the_legend_of_a_narrow_picture_takes_more_lines() -> None:
    def legend(wide_mm: float) -> list[float]:
        drawing = draw_weeks(weeks_of(), calendar=replace(FORTNIGHT, wide_mm=wide_mm), now=at(3, 9))
        texts = [stroke for stroke in drawing.strokes if isinstance(stroke, Text)]
        assert all(box_of(text)[2] <= drawing.width_mm for text in texts[-5:])
        return [text.y_mm for text in texts[-5:]]

    assert len(set(legend(200.0))) == 1
    assert len(set(legend(40.0))) > 1


def test_the_sheets() -> None:
    made = weeks_pdf(
        weeks_of(), shop="Millrace Drum Workshop", calendar=FORTNIGHT, now=at(4, 12),
        says=("Job 19 is a day late.",),
    )  # fmt: skip
    said = words(made)
    for line in (
        "The weeks at the bench",
        "on the bench 3 drums",
        "Job 19 is a day late.",
        "hands at work",
        "What cures while what is worked on",
        "Thursday 5 March 2026, from 10:30 19 · bass drum",
    ):
        assert line in said, line
    assert len(pages(made)) == 1


def test_sixty_drums_over_six_weeks() -> None:
    """Four pictures of fifteen rows for the first four weeks, four for the other two."""
    rows = tuple(replace(weeks_of()[2], job=f"J{n}") for n in range(60))
    made = weeks_pdf(rows, shop="M", calendar=replace(FORTNIGHT, days=42), paper="Letter")
    assert len(pages(made)) == 8
    assert words(made).count("J37 ·") == 2
    assert "Nothing is planned." not in words(made)
    assert "0 drums" in words(weeks_pdf((), shop="M", calendar=FORTNIGHT))
