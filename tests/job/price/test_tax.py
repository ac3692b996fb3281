"""Tax in whole coins: published examples, worked ones, and the same sums by another arithmetic."""

from __future__ import annotations

import itertools
from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.job.price.rate import parse_rate, print_rate
from counterhoop.job.price.shares import share_out
from counterhoop.job.price.tax import Rounding, Tax, TaxSort
from counterhoop.quantities.money import Money

TWENTY = Fraction(1, 5)


def added(rounding: Rounding, *, rate: Fraction = TWENTY, included: bool = False) -> Tax:
    return Tax(sort=TaxSort.ADDED, rate=rate, included=included, rounding=rounding)


def by_decimal(amounts: list[int], tax: Tax) -> int:
    """Work the total tax with decimals, the way it is done on paper."""
    with localcontext() as working:
        working.prec = 80
        rate = Decimal(tax.rate.numerator) / Decimal(tax.rate.denominator)

        def exact(minor: int) -> Decimal:
            return minor * rate / (1 + rate) if tax.included else minor * rate

        if tax.rounding is Rounding.LINE:
            return sum(int(exact(a).quantize(Decimal(1), ROUND_HALF_UP)) for a in amounts)
        if tax.rounding is Rounding.TENTH:
            tenths = sum(exact(a).quantize(Decimal("0.1"), ROUND_HALF_UP) for a in amounts)
            return int(Decimal(tenths).quantize(Decimal(1), ROUND_HALF_UP))
        way = ROUND_DOWN if tax.rounding is Rounding.DOWN else ROUND_HALF_UP
        return int(exact(sum(amounts)).quantize(Decimal(1), way))


@pytest.mark.parametrize(
    ("rounding", "pence"),
    [(Rounding.LINE, 60), (Rounding.TENTH, 59), (Rounding.TOTAL, 59), (Rounding.DOWN, 59)],
)
def test_three_at_99_pence(rounding: Rounding, pence: int) -> None:
    """Hand-worked: 3 x 0.99 at 20 % is 0.594 exactly, 0.20 a line, 0.198 to a tenth a line."""
    assert sum(added(rounding).of_lines([99, 99, 99])) == pence


def test_down_is_toward_nothing_for_what_is_taken_back_too() -> None:
    """Hand-worked: a fifth of 0.99 is 19.8 pence, 19 down, whichever way it is paid."""
    assert added(Rounding.DOWN).of_lines([99]) == (19,)
    assert added(Rounding.DOWN).of_lines([-99]) == (-19,)


def test_the_published_example_of_rounding_a_line() -> None:
    """86.76p is 86.8p to a tenth or 87p to the coin.

    Source: HM Revenue & Customs, VAT Notice 700, 17.5 (from memory). The rate here is the one
    that leaves 86.76p on 4.34.
    """
    rate = Fraction("86.76") / 434
    assert added(Rounding.LINE, rate=rate).of_lines([434]) == (87,)
    # Hand-worked: ten lines of 86.8 are 868, exactly they are 867.6, to the coin 870.
    lines = [434] * 10
    assert sum(added(Rounding.TENTH, rate=rate).of_lines(lines)) == 868
    assert sum(added(Rounding.DOWN, rate=rate).of_lines(lines)) == 867
    assert sum(added(Rounding.LINE, rate=rate).of_lines(lines)) == 870


def test_the_tax_within_a_price_at_twenty_in_a_hundred_is_a_sixth() -> None:
    """Source: VAT Notice 700, the VAT fraction (from memory)."""
    assert added(Rounding.TOTAL, included=True).of_lines([600]) == (100,)


lines_of = st.lists(st.integers(-(10**6), 10**7), min_size=1, max_size=12)
rates = st.one_of(
    st.sampled_from([Fraction(n, 1000) for n in (0, 25, 50, 77, 81, 190, 200, 255)]),
    st.integers(0, 1000).map(lambda n: Fraction(n, 1000)),
)


@given(lines_of, rates, st.sampled_from(Rounding), st.booleans())
def test_the_total_is_that_of_another_arithmetic(
    amounts: list[int], rate: Fraction, rounding: Rounding, included: bool
) -> None:
    """Independent implementation: decimals with 80 digits, total first where that is the rule."""
    tax = added(rounding, rate=rate, included=included)
    shares = tax.of_lines(amounts)
    assert sum(shares) == by_decimal(amounts, tax)
    for share, amount in zip(shares, amounts, strict=True):
        # To a tenth first, then shared out: at most 1.05 coins from exact.
        assert abs(share - tax.exact(amount)) <= Fraction(105, 100)


@given(lines_of, rates, st.sampled_from(Rounding))
def test_no_rule_is_further_from_exact_than_its_own_rounding(
    amounts: list[int], rate: Fraction, rounding: Rounding
) -> None:
    tax = added(rounding, rate=rate)
    off = sum(tax.of_lines(amounts)) - rate * sum(amounts)
    most = {
        Rounding.LINE: Fraction(len(amounts), 2),
        Rounding.TENTH: Fraction(len(amounts), 20) + Fraction(1, 2),
        Rounding.TOTAL: Fraction(1, 2),
        Rounding.DOWN: Fraction(1),
    }
    assert abs(off) <= most[rounding]
    if rounding is Rounding.DOWN and sum(amounts) > 0:
        assert -1 < off <= 0


def test_largest_remainders_by_a_published_table() -> None:
    """Ten seats, 100,000 votes, Hare's quota. Source: the usual textbook table (from memory)."""
    votes = (47000, 16000, 15800, 12000, 6100, 3100)
    assert share_out(10, [Fraction(vote, 10000) for vote in votes]) == (5, 2, 1, 1, 1, 0)


@given(st.lists(st.fractions(-3, 3, max_denominator=12), min_size=1, max_size=4), st.booleans())
def test_no_sharing_out_lies_nearer(quotas: list[Fraction], up: bool) -> None:
    """Brute force: every whole share from one below to one above, that adds up."""
    whole = sum(quotas, start=Fraction(0))
    total = whole.__ceil__() if up else whole.__floor__()
    shares = share_out(total, quotas)
    assert sum(shares) == total
    around = [range(quota.__floor__() - 1, quota.__floor__() + 3) for quota in quotas]
    least = min(
        sum(abs(s - q) for s, q in zip(tried, quotas, strict=True))
        for tried in itertools.product(*around)
        if sum(tried) == total
    )
    assert sum(abs(s - q) for s, q in zip(shares, quotas, strict=True)) == least


def test_shares_of_another_sum_are_refused() -> None:
    with pytest.raises(BadInput, match="another sum"):
        share_out(5, [Fraction(1), Fraction(2)])


@pytest.mark.parametrize(
    ("sold", "bought", "within"), [(20000, 8000, 2000), (8000, 8000, 0), (5000, 8000, 0)]
)
def test_tax_within_a_margin(sold: int, bought: int, within: int) -> None:
    """Hand-worked: 120.00 of margin at 20 % holds 20.00; a loss holds none."""
    tax = Tax(sort=TaxSort.MARGIN, rate=TWENTY, bought_for=Money(minor=bought, currency="EUR"))
    assert tax.within(Money(minor=sold, currency="EUR")).minor == within
    assert tax.of_lines([sold]) == (0,)


@given(st.integers(0, 10**7), st.integers(0, 10**7), rates, st.sampled_from(Rounding))
def test_tax_within_a_margin_is_that_in_a_price_of_the_margin(
    sold: int, bought: int, rate: Fraction, rounding: Rounding
) -> None:
    """Exact law: it is what a price as large as the margin would have in it."""
    tax = Tax(
        sort=TaxSort.MARGIN,
        rate=rate,
        rounding=rounding,
        bought_for=Money(minor=bought, currency="JPY"),
    )
    like = added(rounding, rate=rate, included=True)
    (expected,) = like.of_lines([max(0, sold - bought)])
    assert tax.within(Money(minor=sold, currency="JPY")).minor == expected


def test_margin_without_a_purchase_price_is_refused() -> None:
    with pytest.raises(BadInput, match="purchase price"):
        Tax(sort=TaxSort.MARGIN, rate=TWENTY)


@pytest.mark.parametrize(
    ("text", "rate"),
    [("20 %", Fraction(1, 5)), ("8,1%", Fraction(81, 1000)), ("0.5 per cent", Fraction(1, 200))],
)
def test_rates_are_read_exactly(text: str, rate: Fraction) -> None:
    assert parse_rate(text) == rate
    assert parse_rate(print_rate(rate)) == rate


@pytest.mark.parametrize(
    ("text", "says"),
    [("20", '"20 %"'), ("120 %", "more than the whole"), ("-5 %", "cannot be read"), ("", "20 %")],
)
def test_rates_that_cannot_be_meant(text: str, says: str) -> None:
    with pytest.raises(BadInput, match="tax") as caught:
        parse_rate(text, where="tax")
    assert says in str(caught.value)
