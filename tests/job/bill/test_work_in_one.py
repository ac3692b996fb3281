"""The agreed work of a drum in one row of a bill: no cushion, no coin lost.

Truth: worked by hand, and exact laws of sums.
"""

from __future__ import annotations

import datetime as dt
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from counterhoop.job.bill.credit import credit_of
from counterhoop.job.bill.due import due_of
from counterhoop.job.bill.invoice import Invoice, invoice_of
from counterhoop.job.price.in_one import OF_RULES, WorkOf
from counterhoop.job.price.line import Kind, QuoteLine, typed_line
from counterhoop.job.price.quote import CONTINGENCY, Quote, QuoteRules, quote_of
from counterhoop.job.price.sums import Discount
from counterhoop.job.price.tax import NO_TAX, Rounding, Tax, TaxSort
from counterhoop.quantities.money import Money

DAY = dt.date(2026, 3, 4)
WORKS = (WorkOf(drum="d1", says="work on the snare"), WorkOf(drum="d2", says="work on the tom"))


def gbp(minor: int) -> Money:
    return Money(minor=minor, currency="GBP")


def lines_of(snare: int, tom: int, over: int) -> list[QuoteLine]:
    work = {"kind": Kind.WORK}
    return [
        typed_line("d1/work: plug a hole", "plug a hole", amount=gbp(snare), **work),
        typed_line("d1/part: head", "a head", amount=gbp(1950), kind=Kind.PART),
        typed_line("d1/work: tune a drum", "tune a drum", amount=gbp(1250), **work),
        typed_line("d2/work: plug a hole", "plug a hole", amount=gbp(tom), **work),
        typed_line(f"{OF_RULES}runs over", "work that runs over", amount=gbp(over), **work),
        typed_line("typed: 1", "a journey", amount=gbp(700), kind=Kind.WORK),
    ]


def bill(quote: Quote, *, work: tuple[WorkOf, ...]) -> Invoice:
    return invoice_of(quote, number="7", day=DAY, job="17", hold=True, work=work)


def test_contingency_and_what_runs_over_are_in_the_work_of_each_drum() -> None:
    """By hand: 87.50 and 12.50 on the snare, 50.00 on the tom; 9.00 over are 6.00 and 3.00. The
    work is 166.00 with the journey, a tenth of it 16.60; 185.50 and that are 202.10, asked 200.00,
    so that 14.50 are put on: of 106.00 and 53.00 they are 9.67 and 4.83."""
    quote = quote_of(lines_of(8750, 5000, 900), rules=QuoteRules(round_to=gbp(500)))
    made = bill(quote, work=WORKS)
    assert {row.says: row.figures.gross for row in made.sums.rows} == {
        "work on the snare": gbp(11567), "a head": gbp(1950), "work on the tom": gbp(5783),
        "a journey": gbp(700),
    }  # fmt: skip
    assert made.total == quote.price == gbp(20000)
    back = credit_of(made, number="1", day=DAY, why="Torn.", amounts={"d1/work": gbp(11567)})
    assert back.total.gross == gbp(11567)


def test_without_work_nothing_is_put_together() -> None:
    part = typed_line("d1/part: head", "a head", amount=gbp(1950), kind=Kind.PART)
    bare = bill(quote_of([part], rules=QuoteRules(round_to=gbp(500))), work=WORKS)
    assert [row.key for row in bare.sums.rows] == ["d1/part: head", CONTINGENCY]


def test_a_price_asked_that_leaves_less_than_nothing_for_the_work_is_not_hidden_in_it() -> None:
    lines = lines_of(500, 500, 0)
    quote = quote_of(lines, rules=QuoteRules(round_to=gbp(1)), price=gbp(1000))
    assert CONTINGENCY in {row.key for row in bill(quote, work=WORKS).sums.rows}


taxes = st.one_of(
    st.just(NO_TAX),
    st.builds(
        Tax,
        sort=st.just(TaxSort.ADDED),
        rate=st.integers(0, 300).map(lambda n: Fraction(n, 1000)),
        included=st.booleans(),
        rounding=st.sampled_from(Rounding),
    ),
)
discounts = st.one_of(
    st.none(), st.integers(0, 60).map(lambda n: Discount(says="off", share=Fraction(n, 100)))
)
coins = st.integers(0, 90000)


@given(taxes, discounts, coins, coins, st.integers(-500, 9000), st.integers(1, 700))
def test_every_column_is_what_it_was_and_no_cushion_is_left(
    tax: Tax, discount: Discount | None, snare: int, tom: int, over: int, step: int
) -> None:
    """Exact law: net, tax and gross of the whole are those of the rows apart, to the coin; and
    a note over what is left takes exactly all of it back."""
    rules = QuoteRules(round_to=gbp(step), tax=tax)
    quote = quote_of(lines_of(snare, tom, over), rules=rules, discount=discount)
    apart, made = bill(quote, work=()), bill(quote, work=WORKS)
    assert made.sums.total == apart.sums.total
    for name in ("net", "tax", "gross"):
        column = sum(getattr(row.figures, name).minor for row in made.sums.rows)
        assert column == getattr(made.sums.total, name).minor
    assert not any(row.key.startswith(OF_RULES) for row in made.sums.rows)
    one_each = [row.key for row in made.sums.rows if row.key in ("d1/work", "d2/work")]
    assert one_each == ["d1/work", "d2/work"]
    note = credit_of(made, number="1", day=DAY, why="Agreed.") if made.total.minor else None
    assert due_of(made, credits=[note] if note else []).minor == 0
