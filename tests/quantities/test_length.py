"""Lengths: exact against arithmetic on fractions, and against pint where pint is right."""

from __future__ import annotations

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.quantities.length import LONGEST_MM, MM_PER_INCH, Length, parse_length

IN = Fraction(254, 10)

READ = {
    "0": Fraction(0),
    "200 mm": Fraction(200),
    "200mm": Fraction(200),
    " 200  MM ": Fraction(200),
    "35.5 cm": Fraction(355),
    "0.2 m": Fraction(200),
    "1,5 mm": Fraction(3, 2),
    "0,500 mm": Fraction(1, 2),
    "12,7000 mm": Fraction(127, 10),
    "1.500 mm": Fraction(3, 2),
    "1/2 mm": Fraction(1, 2),
    "5 1/2 in": Fraction(1397, 10),
    '5-1/2"': Fraction(1397, 10),
    "5½ in": Fraction(1397, 10),
    "5½″": Fraction(1397, 10),
    "5 ½ ”": Fraction(1397, 10),
    "5–1/2 in": Fraction(1397, 10),  # an en dash, as some keyboards make of a hyphen
    "5 1⁄2 in": Fraction(1397, 10),  # a fraction slash
    "½ in": Fraction(127, 10),
    "⅞ in.": 7 * IN / 8,
    '7/32"': 7 * IN / 32,
    "9/8 in": 9 * IN / 8,
    ".25in": IN / 4,
    "14 inches": 14 * IN,
    "250 thou": IN / 4,
    "3' 2\"": 38 * IN,
    "3′ 2″": 38 * IN,
    "3 ft 2 1/2 in": Fraction(77, 2) * IN,
    "3'2''": 38 * IN,
    "1.5 ft": 18 * IN,
    "+3 mm": Fraction(3),
    "0 mm": Fraction(0),
    "10 m": Fraction(10_000),
}

REFUSED = {  # what was written: a piece of what must be said
    "200": '"200 mm" or "200 in"',
    "5 1/2": '"5 1/2 mm" or "5 1/2 in"',
    "14x5.5": "14 in dia x 5.5 in deep",
    '14" x 5.5"': "14 in dia x 5.5 in deep",
    "14 × 5.5 in": "14 in dia x 5.5 in deep",
    "14 by 5.5 in": "two sizes",
    "1,500 mm": '"1500 mm" or "1.500 mm"',
    "12,700 in": '"12700 in" or "12.700 in"',
    "1.500,5 mm": "groups of three",
    "1,500.5 mm": "groups of three",
    "1 500 mm": "groups of three",
    "1/0 in": "fraction of nothing",
    "5 1/0 in": "fraction of nothing",
    "nan mm": "not a number that can be measured",
    "inf in": "not a number that can be measured",
    "-inf mm": "not a number that can be measured",
    "": "nothing is written",
    "   ": "nothing is written",
    "mm": "a unit without a number",
    "5 mm mm": "a unit without a number",
    "200 mm 5 cm": "more than one length",
    "2 in 3 ft": "more than one length",
    "5 in 3": "no unit on",
    "3' 2": "no unit on",
    "3' 14\"": "fewer than 12 inches",
    "2.5 ft 3 in": "part of a foot",
    "51/2 in": '"5 1/2 in" or "25 1/2 in"',
    "11/8 in": '"1 1/8 in" or "1 3/8 in"',
    "5 3/2 in": "not below 1",
    "5 - 1/2 in": '"5 1/2 in" with a space',
    "5 -1/2 in": '"5 1/2 in" with a space',
    "5-6 mm": "two numbers with a dash",
    "1e3 mm": "power of ten",
    "5 mil": '"5 thou" or "5 mm"',
    "5 mn": 'Did you mean "mm"?',
    "five mm": "not a unit of length",
    "about 5 mm": "not a unit of length",
    "5.5.5 mm": "cannot be read as a number",
    "5 mm ± 1": "cannot be read as one length",
    "8 in (203 mm)": "cannot be read as one length",
    "٣ mm": "cannot be read as one length",
    "5² mm": "cannot be read as one length",
    "-3 mm": "below zero",
    "10.001 m": "impossible for a drum",
    "401 in": "impossible for a drum",
    "9" * 70 + " mm": "impossible for a drum",
    "9" * 4000 + " mm": "too long",
}


@pytest.mark.parametrize(("text", "mm"), READ.items())
def test_reads_exactly(text: str, mm: Fraction) -> None:
    length = parse_length(text)
    assert length.exact_mm == mm
    assert length.as_written == text


@pytest.mark.parametrize(("text", "says"), REFUSED.items())
def test_refuses_with_what_to_write(text: str, says: str) -> None:
    with pytest.raises(BadInput) as caught:
        parse_length(text, where="depth")
    line = str(caught.value)
    assert says in line
    assert line.startswith("depth: ")
    assert "\n" not in line


@pytest.mark.parametrize(
    ("value", "says"),
    [
        (200, 'such as "200 mm"'),
        (5.5, 'such as "5.5 mm"'),
        (float("nan"), "without its unit"),
        (10**400, "without its unit"),
        (True, "not a length"),
        (None, "not a length"),
        (["5 mm"], "not a length"),
        ({"mm": 5}, "not a length"),
    ],
)
def test_refuses_what_is_not_text(value: object, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        parse_length(value, where="depth")


def test_below_zero_and_zero_only_where_they_make_sense() -> None:
    assert parse_length("-3 mm", allow_negative=True).mm == -3.0
    assert parse_length("−1/2 in", allow_negative=True).exact_mm == -IN / 2
    with pytest.raises(BadInput, match="a length of nothing"):
        parse_length("0 mm", allow_zero=False)


def test_equal_when_equally_long() -> None:
    assert parse_length("1 in") == parse_length("25.4 mm") == Length(exact_mm=IN)
    assert hash(parse_length("1 in")) == hash(parse_length("2.54 cm"))


def test_inch_is_the_international_inch() -> None:
    """Source: international yard and pound agreement 1959, 1 in = 25.4 mm exactly."""
    assert Fraction(254, 10) == MM_PER_INCH


wholes = st.integers(0, 300)
bottoms = st.sampled_from([2, 4, 8, 16, 32, 64])
joins = st.sampled_from([" ", "-", "  "])
inches = st.sampled_from([" in", "in", '"', "″", "”", " inches", " in."])


@given(whole=wholes, bottom=bottoms, part=st.integers(1, 63), join=joins, unit=inches)
def test_mixed_inches_are_exact(whole: int, bottom: int, part: int, join: str, unit: str) -> None:
    part = 1 + part % (bottom - 1) if bottom > 2 else 1
    length = parse_length(f"{whole}{join}{part}/{bottom}{unit}")
    assert length.exact_mm == (whole + Fraction(part, bottom)) * IN


@given(digits=st.integers(0, 9_999_999), places=st.integers(0, 6), comma=st.booleans())
def test_decimal_millimetres_are_exact(digits: int, places: int, comma: bool) -> None:
    text = f"{digits:0{places + 1}d}"
    text = f"{text[: len(text) - places]}.{text[len(text) - places :]}" if places else text
    value = Fraction(digits, 10**places)
    written = (text.replace(".", ",") if comma else text) + " mm"
    groups = comma and places == 3 and len(text.split(".")[0]) <= 3 and text[0] != "0"
    if value > LONGEST_MM or groups:
        with pytest.raises(BadInput):
            parse_length(written)
    else:
        assert parse_length(written).exact_mm == value


@given(feet=st.integers(0, 32), whole=st.integers(0, 11), part=st.integers(0, 15))
def test_feet_and_inches_are_exact(feet: int, whole: int, part: int) -> None:
    length = parse_length(f"{feet}' {whole} {part}/16\"")
    assert length.exact_mm == (12 * feet + whole + Fraction(part, 16)) * IN


any_text = st.text(max_size=30)
near_text = st.text(alphabet="0123456789 ./,-'\"½infmtxe", max_size=12)


def read_or_refuse(text: str) -> None:
    try:
        said = str(parse_length(text, where="x").exact_mm <= LONGEST_MM)
    except BadInput as fault:
        said = str(fault)
    assert said == "True" or (said.startswith("x: ") and "\n" not in said)


@given(any_text | near_text)
def test_any_text_is_read_or_refused_in_one_line(text: str) -> None:
    read_or_refuse(text)


@pytest.mark.full
@given(any_text | near_text)
def test_any_text_is_read_or_refused_at_full_count(text: str) -> None:
    read_or_refuse(text)


UREG = pint.UnitRegistry()


@pytest.mark.parametrize(
    "text", ["200 mm", "35.5 cm", "0.2 m", "14 inch", ".25in", "7/32 in", "1.5 ft", "250 thou"]
)
def test_agrees_with_pint_where_pint_is_right(text: str) -> None:
    assert parse_length(text).mm == pytest.approx(UREG(text).to("mm").magnitude, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "pint_mm", "true_mm"),
    [("5 1/2 in", 63.5, 139.7), ("1,5 mm", 15.0, 1.5)],
)
def test_where_pint_is_silently_wrong(text: str, pint_mm: float, true_mm: float) -> None:
    """Why typed lengths do not go through pint: 5 1/2 becomes 5 times 1/2, a comma vanishes."""
    assert UREG(text).to("mm").magnitude == pytest.approx(pint_mm)
    assert parse_length(text).mm == true_mm
