"""Rows of readings: one unit at the end, and nothing guessed where a row reads two ways."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.quantities.readings_row import LONGEST_ROW, parse_readings

INCH = Fraction(254, 10)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        # Hand-worked.
        ("0, 0.1, 0.25, 0 mm", (0, 0.1, 0.25, 0)),
        ("0 0.1 0.25 0 mm", (0, 0.1, 0.25, 0)),
        ("0,0.1,0.25,0mm", (0, 0.1, 0.25, 0)),
        ("0,1; 0,25; 0 mm", (0.1, 0.25, 0)),
        ("12, 12, 13, 12 mm", (12, 12, 13, 12)),
        ("35.41 35.4 cm", (354.1, 354)),
        ("4, 0, 10, 6 thou", (0.1016, 0, 0.254, 0.1524)),
        ("  0,  0.1\n, 0.25, 0 mm. ", (0, 0.1, 0.25, 0)),
    ],
)
def test_a_row_is_read_as_it_is_written(text: str, mm: tuple[float, ...]) -> None:
    assert parse_readings(text).mm == pytest.approx(mm, abs=0.0)
    assert parse_readings(text).as_written == text.strip()


@pytest.mark.parametrize(
    "text", ["11 63/64, 12, 12 1/64 in", '11 63/64,12,12 1/64"', "11-63/64, 12, 12-1/64 inch"]
)
def test_fractions_of_an_inch_stay_exact(text: str) -> None:
    row = parse_readings(text)
    assert [one.exact_mm for one in row.lengths] == [
        INCH * Fraction(767, 64),
        INCH * 12,
        INCH * Fraction(769, 64),
    ]


def test_each_reading_keeps_its_own_text() -> None:
    assert parse_readings("0, 0.10, 1/4 in").each_as_written == ("0 in", "0.10 in", "1/4 in")
    listed = parse_readings(["0.1 mm", "1/64 in"])
    assert listed.each_as_written == ("0.1 mm", "1/64 in")
    assert listed.mm == (0.1, 0.396875)


def test_below_zero_only_where_it_makes_sense() -> None:
    assert parse_readings("0, -0.3, 0.2 mm", allow_negative=True).mm == (0.0, -0.3, 0.2)
    assert parse_readings("0 −0.3 0.2 mm", allow_negative=True).mm == (0.0, -0.3, 0.2)
    with pytest.raises(BadInput, match="reading 2: a length cannot be below zero"):
        parse_readings("0, -0.3 mm")
    with pytest.raises(BadInput, match="reading 1: a length of nothing"):
        parse_readings("0, 12 mm", allow_zero=False)


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ("0,1 0,25 0 mm", "each comma may be a decimal one"),
        ("0,1, 0,25, 0 mm", "each comma may be a decimal one"),
        ("0,1,0,2 mm", "each comma may be a decimal one"),
        ("1,2 mm", "each comma may be a decimal one"),
        ("0,1, 0.25 mm", "each comma may be a decimal one"),
        ("0,1 0.25 mm", "each comma may be a decimal one"),
        ("11 63/64 12 12 1/64 in", "a comma between the readings"),
        ("0, 0.1, , 0 mm", "reading 3 is missing"),
        ("0, 0.1, mm", "reading 3 is missing"),
        ("0 - 0.1 mm", "reading 2 is missing"),
        ("0, x, 0.1 mm", "words or units between"),
        ("0 mm, 0.1 mm", "go into a list"),
        ("0, 0.1, 0.2", '"0, 0.1, 0.2 mm" or'),
        ("0, 0.1 m", "not a unit for a row"),
        ("0, 0.1 ft", "not a unit for a row"),
        ("0, 0.1 mmm", 'Did you mean "mm"?'),
        ("0, 0.1.2, 0 mm", "reading 2: "),
        ("0, 1 0.2, 0 mm", "reading 2: "),
        ("0; 1,500; 0 mm", "reading 2: the comma may mean thousands"),
        ("81/2, 12 in", "reading 1: a space may be missing"),
        ("nan, 0 mm", "words or units"),
        ("mm", "reading 1 is missing|nothing is read"),
        ("", "nothing is read here"),
        ("0 " * LONGEST_ROW + "mm", "too long for a row"),
        ("0 " * 401 + "mm", "401 readings in one row"),
        ([], "nothing is read here"),
        (["0 mm", 0.1], "reading 2: a bare number"),
        (["0 mm", ["0.1 mm"]], "reading 2: not one reading"),
        (["0 mm", "0.1"], "reading 2: no unit"),
        (0.25, "a row of readings belongs here"),
        (None, "a row of readings belongs here"),
    ],
)
def test_what_reads_two_ways_or_none_is_refused_with_what_to_write(
    given: object, says: str
) -> None:
    with pytest.raises(BadInput, match=says) as caught:
        parse_readings(given, where="gaps")
    assert str(caught.value).startswith("gaps: ")
    assert "\n" not in str(caught.value)


@given(
    st.lists(st.integers(0, 99_999), min_size=1, max_size=64), st.sampled_from([", ", " ", "; "])
)
def test_hundredths_written_in_a_row_come_back_exactly(hundredths: list[int], between: str) -> None:
    # Exact law: writing with two decimals and reading is the identity on hundredths.
    text = between.join(f"{n // 100}.{n % 100:02d}" for n in hundredths) + " mm"
    assert [one.exact_mm for one in parse_readings(text).lengths] == [
        Fraction(n, 100) for n in hundredths
    ]


@given(st.text(alphabet="0123456789.,;/- '\"minx", max_size=30))
def test_anything_typed_is_read_or_refused(text: str) -> None:
    try:
        says, count = "", len(parse_readings(text, allow_negative=True).lengths)
    except BadInput as fault:
        says, count = str(fault), 0
    assert bool(says) != bool(count)
    assert "\n" not in says
