"""Printed rows add up to the printed total, under every way of tax, rounding and currency."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.job.price.line import typed_line
from counterhoop.job.price.sums import Discount, Figures, add_up
from counterhoop.job.price.tax import NO_TAX, Rounding, Tax, TaxSort
from counterhoop.quantities.money import PLACES, Money, parse_money, print_money

EVERY_WAY = [
    (sort, rounding, included, currency)
    for sort in TaxSort
    for rounding in Rounding
    for included in (False, True)
    for currency in PLACES
]


def tax_of(sort: TaxSort, rounding: Rounding, included: bool, currency: str, rate: Fraction) -> Tax:
    return Tax(
        sort=sort,
        rate=rate,
        included=included,
        rounding=rounding,
        bought_for=Money(minor=4000, currency=currency) if sort is TaxSort.MARGIN else None,
    )


Way = tuple[TaxSort, Rounding, bool, str]


def is_printed_right(
    way: Way, amounts: list[int], *, rate: Fraction, share: Fraction | None, paid: int
) -> None:
    """Check the printed texts, read back, as someone with a pencil would."""
    currency = way[3]
    sums = add_up(
        [
            typed_line(f"{at}", "a line", amount=Money(minor=minor, currency=currency))
            for at, minor in enumerate(amounts)
        ],
        tax=tax_of(*way, rate),
        currency=currency,
        discount=None if share is None else Discount(says="for waiting", share=share),
        paid=Money(minor=paid, currency=currency),
    )

    def printed(money: Money) -> int:
        return parse_money(print_money(money), allow_negative=True).minor

    for name in ("net", "tax", "gross"):
        column = [printed(getattr(row.figures, name)) for row in sums.rows]
        assert sum(column) == printed(getattr(sums.total, name))
    for figures in [sums.total, *(row.figures for row in sums.rows)]:
        assert printed(figures.net) + printed(figures.tax) == printed(figures.gross)
    assert printed(sums.total.gross) - printed(sums.paid) == printed(sums.left)
    typed = sums.total.gross if way[2] or way[0] is not TaxSort.ADDED else sums.total.net
    off = 0 if share is None else Money(minor=sum(amounts), currency=currency).times(share).minor
    assert typed.minor == sum(amounts) - off
    if way[0] is not TaxSort.ADDED:
        assert sums.total.tax.minor == 0
    if way[0] is not TaxSort.MARGIN:
        assert sums.within_margin.minor == 0


@pytest.mark.parametrize("currency", PLACES)
def test_every_way_adds_up_on_awkward_amounts(currency: str) -> None:
    """Exact law; amounts and rates that leave halves, thirds and tenths of a coin."""
    for way in dict.fromkeys(way[:3] for way in EVERY_WAY):
        for rate in (Fraction(1, 5), Fraction(81, 1000), Fraction(77, 1000)):
            amounts = [99, 99, 99, 1, 3, 250, -45, 12345]
            is_printed_right((*way, currency), amounts, rate=rate, share=None, paid=0)
            third = Fraction(1, 3)
            is_printed_right((*way, currency), amounts, rate=rate, share=third, paid=777)


@given(
    way=st.sampled_from(EVERY_WAY),
    amounts=st.lists(st.integers(-5000, 10**6), min_size=1, max_size=10).filter(
        lambda amounts: sum(amounts) > 0
    ),
    rate=st.integers(0, 400).map(lambda n: Fraction(n, 1000)),
    share=st.one_of(st.none(), st.integers(0, 100).map(lambda n: Fraction(n, 100))),
    paid=st.integers(0, 10**6),
)
def test_whatever_is_printed_adds_up(
    way: Way, amounts: list[int], rate: Fraction, share: Fraction | None, paid: int
) -> None:
    """Exact law."""
    is_printed_right(way, amounts, rate=rate, share=share, paid=paid)


def gbp(minor: int) -> Money:
    return Money(minor=minor, currency="GBP")


def test_a_discount_lessens_the_tax_and_a_deposit_does_not() -> None:
    """Hand-worked: 200.00 less 10 % is 180.00, tax 36.00; 50.00 paid leaves 166.00."""
    sums = add_up(
        [typed_line("w", "true both edges", amount=gbp(20000))],
        tax=Tax(sort=TaxSort.ADDED, rate=Fraction(1, 5)),
        currency="GBP",
        discount=Discount(says="for an old client", share=Fraction(1, 10)),
        paid=gbp(5000),
    )
    assert [str(row.figures.net) for row in sums.rows] == ["200.00 GBP", "-20.00 GBP"]
    assert sums.rows[1].says == "for an old client, 10 %"
    assert str(sums.total.tax) == "36.00 GBP"
    assert str(sums.left) == "166.00 GBP"


def test_what_is_shared_out_is_said() -> None:
    tenth = Tax(sort=TaxSort.ADDED, rate=Fraction(1, 5), rounding=Rounding.TENTH)
    line = Tax(sort=TaxSort.ADDED, rate=Fraction(1, 5), rounding=Rounding.LINE)
    assert any("shared out" in says for says in tenth.says)
    assert not any("shared out" in says for says in line.says)
    assert "20 %" in line.says[0]
    assert NO_TAX.says == ()
    margin = Tax(sort=TaxSort.MARGIN, rate=Fraction(1, 5), bought_for=gbp(100))
    assert not any("%" in says for says in margin.says)


@pytest.mark.parametrize(
    ("lines", "discount", "says"),
    [
        ([("a", gbp(100)), ("b", Money(minor=100, currency="EUR"))], None, "two currencies"),
        ([("a", gbp(100)), ("a", gbp(100))], None, "one key"),
        ([("a", gbp(100))], Discount(says="off", amount=gbp(101)), "more than what it comes off"),
        ([("a", gbp(100))], Discount(says="off", amount=gbp(-1)), "more than what it comes off"),
    ],
)
def test_what_cannot_be_added_is_refused(
    lines: list[tuple[str, Money]], discount: Discount | None, says: str
) -> None:
    with pytest.raises(BadInput, match=says):
        add_up(
            [typed_line(key, key, amount=amount) for key, amount in lines],
            tax=NO_TAX,
            currency="GBP",
            discount=discount,
        )


def test_a_struck_line_does_not_count() -> None:
    lines = [typed_line("a", "a", amount=gbp(100)), typed_line("b", "b", amount=gbp(50)).strike()]
    assert add_up(lines, tax=NO_TAX, currency="GBP").total.gross == gbp(100)


def test_figures_that_do_not_add_up_cannot_be_made() -> None:
    with pytest.raises(BadInput, match="do not make the gross"):
        Figures(net=gbp(100), tax=gbp(20), gross=gbp(119))
