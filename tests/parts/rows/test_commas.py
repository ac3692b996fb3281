"""What a comma in a number is can be said for a file; truth: exact law, and worked by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.parts.rows.cell_readers import plain_commas, read_price, read_size
from counterhoop.parts.rows.layout import Hint
from counterhoop.quantities.number import parse_number

COMMA, THOUSANDS = Hint(comma="decimal"), Hint(comma="thousands")
amounts = st.integers(0, 10**9)


@given(amounts, st.integers(0, 99))
def test_a_number_written_either_way_is_the_same_number(whole, cents):
    """Grouped by Python's own formatting, points and commas exchanged for the other way."""
    english = f"{whole:,}.{cents:02d}"
    other = english.translate(str.maketrans(",.", ".,"))
    said = Fraction(whole) + Fraction(cents, 100)
    assert parse_number(plain_commas(english, THOUSANDS)) == said
    assert parse_number(plain_commas(other, COMMA)) == said


@given(st.text(st.sampled_from("0123456789., /-mxin"), max_size=14))
def test_a_text_without_commas_stays_where_no_point_can_part_thousands(text):
    if "," not in text:
        assert plain_commas(text, THOUSANDS) == text
    assert plain_commas(text, Hint()) == text


def test_worked_by_hand():
    assert read_size("1,250", Hint(unit="mm", comma="decimal")).mm == 1.25
    assert read_size("1,250", Hint(unit="mm", comma="thousands")).mm == 1250
    assert read_price("1.250,50", Hint(unit="EUR", comma="decimal")).minor == 125_050
    with pytest.raises(BadInput, match="may mean thousands or a decimal"):
        read_size("1,250", Hint(unit="mm"))
    # 1.250 among decimal commas is either: nobody guesses.
    with pytest.raises(BadInput, match=r'"1250" or "1,250"'):
        read_size("1.250", Hint(unit="mm", comma="decimal"))
    assert read_size("42.5", Hint(unit="mm", comma="decimal")).mm == 42.5
