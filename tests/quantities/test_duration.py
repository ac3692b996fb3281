"""Working time, exact."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.quantities.duration import parse_duration, print_minutes


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("25 min", 25),
        ("1 h 30", 90),
        ("1h30", 90),
        ("1 h 30 min", 90),
        ("1.5 h", 90),
        ("1,5 hours", 90),
        ("1 1/2 hrs.", 90),
        ("½ h", 30),
        ("0 min", 0),
        ("1/3 min", Fraction(1, 3)),
    ],
)
def test_reads_exactly(text: str, minutes: Fraction) -> None:
    read = parse_duration(text)
    assert read.exact_min == minutes
    assert read.as_written == text


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("90", '"90 min" or "90 h"'),
        (45, '"45 min"'),
        ("1:30", '"1 h 30 min"'),
        ("2 days", '"8 h"'),
        ("30 min 1 h", "more than one"),
        ("1 h 75", "more than one"),
        ("1 h 2 h", "more than one"),
        ("5 secs", "not a unit of time"),
        ("5 minuets", 'Did you mean "minutes"?'),
        ("-5 min", "cannot be read"),
        ("h", "cannot be read"),
        ("99999 h", "more than 10000 hours"),
        ("nan min", "cannot be read"),
        ("", "nothing is written"),
    ],
)
def test_refuses_with_what_to_write(text: object, says: str) -> None:
    with pytest.raises(BadInput) as caught:
        parse_duration(text, where="minutes.plug")
    assert says in str(caught.value)


@given(st.integers(0, 6000))
def test_printed_is_read_back(minutes: int) -> None:
    assert parse_duration(print_minutes(minutes)).exact_min == minutes
