"""The air of the day: Celsius or Fahrenheit, per cent, and slips of unit refused."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.quantities.air import parse_percent, parse_temperature


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        # Fixed points and exact fractions of the two scales (C = 5/9 (F - 32)).
        ("18 C", 18),
        ("18.5°C", Fraction(37, 2)),
        ("18,5 deg C", Fraction(37, 2)),
        ("68 F", 20),
        ("32 degrees Fahrenheit", 0),
        ("-4 f", -20),
        ("-5 C", -5),
    ],
)
def test_temperatures(text: str, celsius: Fraction) -> None:
    assert parse_temperature(text).exact_c == celsius
    assert parse_temperature(text).as_written == text


@given(st.integers(-40, 1000))
def test_both_scales_tell_the_same(tenths: int) -> None:
    # Exact law: the same temperature written in either scale.
    celsius = Fraction(tenths, 10)
    if not -20 <= celsius <= 50:
        return
    fahrenheit = celsius * Fraction(9, 5) + 32
    assert parse_temperature(f"{float(fahrenheit):.2f} F").exact_c == celsius


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("18", '"18 C" or "18 F"'),
        ("64 C", "no bench is that warm"),
        ("-30 C", "no bench is that cold"),
        ("291 K", "not a unit of temperature"),
        ("warm", "cannot be read as a temperature"),
        (18, "a bare number"),
        ("", "nothing is written"),
    ],
)
def test_temperatures_refused(text: object, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        parse_temperature(text)


@pytest.mark.parametrize(
    ("text", "percent"),
    [("55 %", 55), ("47.5%", Fraction(95, 2)), ("60 per cent", 60), ("0 %", 0), ("100 % RH", 100)],
)
def test_humidities(text: str, percent: Fraction) -> None:
    assert parse_percent(text).exact == percent


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("55", '"55 %"'),
        ("0.55 %", '"55 %"'),
        ("105 %", "outside 0 to 100"),
        ("-5 %", "cannot be read"),
        ("damp", "cannot be read"),
        (0.55, "a bare number"),
    ],
)
def test_humidities_refused(text: object, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        parse_percent(text)
