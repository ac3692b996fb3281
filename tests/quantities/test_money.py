"""Money in whole smallest units; nothing is rounded that was not asked to be."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.quantities.money import PLACES, Money, parse_money, print_money


@pytest.mark.parametrize(
    ("text", "minor", "currency"),
    [
        ("28.00 GBP", 2800, "GBP"),
        ("GBP 28", 2800, "GBP"),
        ("£28.50", 2850, "GBP"),
        ("28.5 gbp", 2850, "GBP"),
        ("€4,50", 450, "EUR"),
        ("4,50 €", 450, "EUR"),
        ("0.01 USD", 1, "USD"),
        ("1200 JPY", 1200, "JPY"),
        ("1.234 KWD", 1234, "KWD"),
    ],
)
def test_reads_exactly(text: str, minor: int, currency: str) -> None:
    assert parse_money(text) == Money(minor=minor, currency=currency)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("28", '"28 GBP"'),
        (28.5, "in quotes"),
        ("$5", '"5 USD"'),
        ("¥500", '"500 JPY"'),
        ("£28 GBP", "two currencies"),
        ("28 GPB", 'Did you mean "GBP"?'),
        ("1,234.50 GBP", "digits in groups"),
        ("1.234 GBP", '"1234 GBP"'),
        ("28.0050 GBP", "GBP has 2 decimals"),
        ("28.5 JPY", "JPY has 0 decimals"),
        ("-5 GBP", "below zero"),
        ("9" * 20 + " GBP", "more money"),
        ("", "nothing is written"),
        ("free", "cannot be read"),
        ("nan GBP", "cannot be read"),
    ],
)
def test_refuses_with_what_to_write(text: object, says: str) -> None:
    with pytest.raises(BadInput) as caught:
        parse_money(text, where="prices.lug")
    assert says in str(caught.value)


def test_decimals_of_currencies() -> None:
    """Source: ISO 4217, as carried by the package iso4217 1.16.20260101."""
    assert PLACES == {"GBP": 2, "EUR": 2, "USD": 2, "CHF": 2, "JPY": 0, "KWD": 3}


@given(st.integers(-(10**12), 10**12), st.sampled_from(sorted(PLACES)))
def test_printed_is_read_back(minor: int, currency: str) -> None:
    money = Money(minor=minor, currency=currency)
    assert parse_money(print_money(money), allow_negative=True) == money


@given(st.integers(-(10**9), 10**9), st.fractions(-10, 10, max_denominator=60))
def test_times_is_within_half_a_penny(minor: int, factor: Fraction) -> None:
    money = Money(minor=minor, currency="GBP")
    assert abs(money.times(factor).minor - minor * factor) <= Fraction(1, 2)
    assert money.times(-factor).minor == -money.times(factor).minor


def test_currencies_are_not_joined() -> None:
    with pytest.raises(BadInput, match="two currencies"):
        Money(minor=1, currency="GBP") + Money(minor=1, currency="EUR")
    assert Money(minor=1, currency="GBP") < Money(minor=2, currency="GBP")
