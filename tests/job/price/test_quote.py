"""One price on the face, a ceiling above it, and the doubt of the hours beneath."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.job.hours.belief import Belief
from counterhoop.job.hours.hours_said import hours_of
from counterhoop.job.hours.shared import SHARED_SPREAD
from counterhoop.job.price.doubt import Doubt, doubt_of
from counterhoop.job.price.face import beneath_says, face_says, terms_say
from counterhoop.job.price.from_scheme import lines_of_scheme
from counterhoop.job.price.line import Kind, QuoteLine, typed_line
from counterhoop.job.price.quote import CONTINGENCY, Quote, QuoteRules, quote_of
from counterhoop.job.price.sides import side_by_side
from counterhoop.job.price.sums import Discount
from counterhoop.job.price.tax import NO_TAX, Rounding, Tax, TaxSort
from counterhoop.quantities.money import Money
from counterhoop.scheme.plan import PartLine, WorkLine
from counterhoop.scheme.price import money_minor
from counterhoop.shell.shop_rules import ShopFigures

HARD = Doubt(quick=Fraction(3, 4), slow=Fraction(3, 2))


FIGURES = ShopFigures(hour_minor=3550)
WORK = (
    WorkLine(operation="plug a hole", count=7, minutes=7 * 11.5),
    WorkLine(operation="drill a hole", count=5, minutes=5 * 6.0),
    WorkLine(operation="true an edge", count=1, minutes=37.0),
)
PARTS = (
    PartLine(name="Corvane lug", count=4, bought=4, each_minor=1250),
    PartLine(name="Dunmarrow rod", count=8, bought=8, each_minor=None),
)


def gbp(minor: int) -> Money:
    return Money(minor=minor, currency="GBP")


def lines_of(work: int, parts: int) -> list[QuoteLine]:
    return [
        typed_line("w", "true both edges", amount=gbp(work), kind=Kind.WORK),
        typed_line("p", "two heads", amount=gbp(parts), kind=Kind.PART),
    ]


def rules_of(**changes: object) -> QuoteRules:
    return QuoteRules(**({"round_to": gbp(500)} | changes))


def test_a_worked_quote() -> None:
    """Hand-worked: 200.00 of work and 46.50 of parts; 10 % of the work makes 266.50, round 265.00.

    Work from 150.00 to 300.00: 196.50 to 346.50. Fifteen in a hundred over the price are 304.75;
    the ceiling is the larger, 346.50, up to 350.00.
    """
    quote = quote_of(lines_of(20000, 4650), rules=rules_of(), doubt=HARD, extra_holes=4)
    assert [str(row.figures.gross) for row in quote.sums.rows] == [
        "200.00 GBP",
        "46.50 GBP",
        "18.50 GBP",
    ]
    assert quote.price == gbp(26500)
    assert (quote.low, quote.usual, quote.high) == (gbp(19650), gbp(24650), gbp(34650))
    assert quote.ceiling.gross == gbp(35000)
    assert face_says(quote) == (
        "The price is 265.00 GBP.",
        "It does not pass 350.00 GBP without a call to you first.",
        "4 holes are added to the shell: that cannot be undone.",
    )
    assert beneath_says(quote) == (
        "Of ten such jobs, eight come to between 195.00 GBP and 350.00 GBP.",
    )


def test_sure_work_has_the_named_share_for_a_ceiling() -> None:
    """Hand-worked: 265.00 and fifteen in a hundred are 304.75, up to 305.00."""
    quote = quote_of(lines_of(20000, 4650), rules=rules_of())
    assert quote.ceiling.gross == gbp(30500)
    assert beneath_says(quote) == ("Nothing in it hangs on hours that are not known.",)
    assert face_says(quote)[2] == "No hole is added to the shell."


def test_tax_is_in_every_figure_that_a_client_sees() -> None:
    """Hand-worked: the figures of the worked quote and a fifth; the ceiling 350.00 is 420.00."""
    tax = Tax(sort=TaxSort.ADDED, rate=Fraction(1, 5))
    quote = quote_of(lines_of(20000, 4650), rules=rules_of(tax=tax), doubt=HARD)
    assert (quote.price, quote.sums.total.net) == (gbp(31800), gbp(26500))
    assert (quote.low, quote.high) == (gbp(23580), gbp(41580))
    assert (quote.ceiling.net, quote.ceiling.gross) == (gbp(35000), gbp(42000))


def test_a_discount_comes_off_price_and_ceiling() -> None:
    """Hand-worked: 265.00 less a tenth is 238.50; 346.50 less a tenth is 311.85, up to 315.00."""
    off = Discount(says="for an old client", share=Fraction(1, 10))
    quote = quote_of(lines_of(20000, 4650), rules=rules_of(), doubt=HARD, discount=off)
    assert quote.price == gbp(23850)
    assert quote.high == gbp(31185)
    assert quote.ceiling.gross == gbp(31500)


def test_a_price_that_the_workshop_names() -> None:
    quote = quote_of(lines_of(20000, 4650), rules=rules_of(), price=gbp(24000))
    assert quote.price == gbp(24000)
    assert quote.sums.rows[-1].says == "to the price asked"
    assert quote.sums.rows[-1].figures.gross == gbp(-650)
    dearer = quote_of(lines_of(20000, 4650), rules=rules_of(), price=gbp(40000))
    assert dearer.sums.rows[-1].says == "to the price asked"  # 153.50, no tenth of 200.00


@pytest.mark.parametrize(
    ("work", "parts", "says"),
    [
        (20000, 4650, "for what cannot be seen before, 10 % of the work, and to a round price"),
        (0, 4820, "to a round price"),
        (0, 4720, "to a round price"),
        (2000, 20, "to a round price"),
    ],
)
def test_the_last_row_says_what_it_is_made_of(work: int, parts: int, says: str) -> None:
    """Hand-worked: 48.20 goes up to 50.00; 47.20 and 20.20 (22.20 with its share) go down."""
    assert quote_of(lines_of(work, parts), rules=rules_of()).sums.rows[-1].says == says
    bare = rules_of(contingency=Fraction(0))
    assert quote_of(lines_of(20100, 0), rules=bare).sums.rows[-1].says == "to a round price"


def test_what_is_taken_in_exchange_leaves_no_bound_below_nothing() -> None:
    """Hand-worked: 190.00 off 200.00 of work; off 150.00 it leaves nothing, off 300.00 110.00."""
    lines = [*lines_of(20000, 0), typed_line("o", "an old tom in exchange", amount=gbp(-19000))]
    quote = quote_of(lines, rules=rules_of(), doubt=HARD)
    assert (quote.low, quote.high) == (gbp(0), gbp(11000))


def test_one_hole_is_said_as_one() -> None:
    face = face_says(quote_of(lines_of(20000, 4650), rules=rules_of(), extra_holes=1))
    assert face[2] == "1 hole is added to the shell: that cannot be undone."


def test_nothing_is_said_above_the_ceiling() -> None:
    """Hand-worked: 205.00 and a fifth are 246.00, the ceiling; 250.00 would stand above it."""
    tax = Tax(sort=TaxSort.ADDED, rate=Fraction(1, 5))
    doubt = Doubt(quick=Fraction(3, 4), slow=Fraction(41, 40))
    rules = rules_of(tax=tax, contingency=Fraction(0), over=Fraction(0))
    quote = quote_of(lines_of(20000, 0), rules=rules, doubt=doubt)
    assert quote.high == quote.ceiling.gross == gbp(24600)
    assert beneath_says(quote) == (
        "Of ten such jobs, eight come to between 180.00 GBP and 246.00 GBP.",
    )


def test_the_contingency_is_made_anew_each_time() -> None:
    once = quote_of(lines_of(20000, 4650), rules=rules_of(), doubt=HARD)
    assert quote_of(once.lines, rules=rules_of(), doubt=HARD) == once


def test_a_small_job_is_not_given_away() -> None:
    """Hand-worked: 2.00 is nearer to nothing than to 5.00, and costs 5.00 all the same."""
    assert quote_of(lines_of(200, 0), rules=rules_of()).price == gbp(500)
    assert quote_of([], rules=rules_of()).price == gbp(0)


def test_a_ceiling_is_not_a_coin_below_its_price() -> None:
    """Hand-worked: 3 x 0.99 with each line's tax rounded are 3.57; 2.97 at once would be 3.56."""
    tax = Tax(sort=TaxSort.ADDED, rate=Fraction(1, 5), rounding=Rounding.LINE)
    lines = [typed_line(f"{n}", "a washer", amount=gbp(99), kind=Kind.PART) for n in range(3)]
    quote = quote_of(lines, rules=rules_of(round_to=gbp(1), tax=tax, over=Fraction(0)))
    assert quote.price == quote.ceiling.gross == gbp(357)


def test_terms() -> None:
    quote = quote_of(lines_of(20000, 4650), rules=rules_of(deposit=Fraction(1, 5), valid_days=30))
    assert terms_say(quote, given=dt.date(2026, 3, 4)) == (
        "This price holds until 3 April 2026.",
        "A deposit of 53.00 GBP is asked for before work begins.",
    )


taxes = st.one_of(
    st.just(NO_TAX),
    st.builds(
        Tax,
        sort=st.just(TaxSort.ADDED),
        rate=st.sampled_from([Fraction(1, 5), Fraction(81, 1000), Fraction(7, 100)]),
        included=st.booleans(),
        rounding=st.sampled_from(Rounding),
    ),
    st.builds(
        Tax,
        sort=st.just(TaxSort.MARGIN),
        rate=st.just(Fraction(1, 5)),
        bought_for=st.just(gbp(9000)),
    ),
)
shares = st.integers(0, 50).map(lambda n: Fraction(n, 100))


@given(
    work=st.lists(st.integers(0, 60000), max_size=5),
    parts=st.lists(st.integers(0, 30000), max_size=4),
    quick=st.integers(20, 100),
    slow=st.integers(100, 300),
    rules=st.builds(
        QuoteRules,
        round_to=st.sampled_from([1, 100, 500, 1000]).map(gbp),
        tax=taxes,
        contingency=shares,
        over=shares,
        deposit=shares,
    ),
    off=st.one_of(st.none(), shares.map(lambda share: Discount(says="off", share=share))),
)
def test_the_face_keeps_its_word(
    work: list[int],
    parts: list[int],
    quick: int,
    slow: int,
    rules: QuoteRules,
    off: Discount | None,
) -> None:
    """Exact laws: bounds in order, ceiling over both price and the slow end, rows add up."""
    lines = [
        *(typed_line(f"w{n}", "work", amount=gbp(m), kind=Kind.WORK) for n, m in enumerate(work)),
        *(typed_line(f"p{n}", "part", amount=gbp(m), kind=Kind.PART) for n, m in enumerate(parts)),
    ]
    doubt = Doubt(quick=Fraction(quick, 100), slow=Fraction(slow, 100))
    quote = quote_of(lines, rules=rules, doubt=doubt, discount=off)
    assert not quote.usual < quote.low
    assert not quote.high < quote.usual
    assert not quote.ceiling.gross < quote.price
    assert not quote.ceiling.gross < quote.high
    assert sum(row.figures.gross.minor for row in quote.sums.rows) == quote.price.minor
    typed = sum(line.amount.minor for line in quote.lines)
    assert typed % rules.round_to.minor == 0
    asked = sum(work) + sum(parts)
    assert (typed > 0) == (asked > 0)
    wished = asked + sum(work) * rules.contingency
    assert abs(typed - wished) <= Fraction(rules.round_to.minor, 2) or typed == rules.round_to.minor
    assert (len(quote.lines) == len(lines)) == (typed == asked)


def believed_of(*, minutes: dict[str, float], spread: float) -> dict[str, Belief]:
    return {
        name: Belief(operation=name, median_min=each, spread=spread, times=0, whose="the book's")
        for name, each in minutes.items()
    }


def test_the_interval_is_that_of_simulated_jobs() -> None:
    """Independent check: 400,000 jobs, a factor a line and one that all share, within 1 %."""
    beliefs = believed_of(minutes={"plug a hole": 12.0, "true an edge": 40.0}, spread=0.35)
    works = [("plug a hole", 7), ("true an edge", 2)]
    hours = hours_of(works, beliefs)
    work = [
        WorkLine(operation=one.operation, count=one.count, minutes=one.usual_min)
        for one in hours.lines
    ]
    lines = lines_of_scheme(PARTS[:1], work, figures=FIGURES)
    # Medians of lines add up to a little less than the job's: what runs over is a line.
    over = hours.usual_min - sum(one.minutes for one in work)
    lines += (typed_line("over", "runs over", amount=gbp(round(over / 60 * 3550)), kind=Kind.WORK),)
    quote = quote_of(lines, rules=rules_of(), doubt=doubt_of(hours))
    chance = np.random.default_rng(7)
    own = np.exp(0.35 * chance.standard_normal((400_000, 2)))
    shared = np.exp(SHARED_SPREAD * chance.standard_normal(400_000))
    minutes = (own @ np.array([84.0, 80.0])) * shared
    low, usual, high = np.quantile(minutes / 60 * 3550 + 5000, [0.1, 0.5, 0.9])
    assert quote.low.minor == pytest.approx(low, rel=0.01)
    assert quote.usual.minor == pytest.approx(usual, rel=0.01)
    assert quote.high.minor == pytest.approx(high, rel=0.01)
    # Lines that vary each for itself would have said too narrow a bound.
    apart = np.quantile((own @ np.array([84.0, 80.0])) / 60 * 3550 + 5000, 0.9)
    assert quote.high.minor > 1.02 * apart


def test_no_work_is_no_doubt() -> None:
    assert doubt_of(hours_of([], {})) == Doubt()


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: quote_of(lines_of(0, -500), rules=rules_of()), r"its lines: .*'-5\.00 GBP'"),
        (lambda: quote_of(lines_of(-500, 900), rules=rules_of()), r"its work: .*'-5\.00 GBP'"),
        (lambda: quote_of([], rules=rules_of(), price=gbp(-1)), r"asked: .*'-0\.01 GBP'"),
        (lambda: quote_of([], rules=rules_of(), price=Money(minor=1, currency="EUR")), "joined"),
        (lambda: rules_of(round_to=gbp(0)), "round prices"),
        (lambda: rules_of(over=Fraction(3, 2)), "not a share"),
        (lambda: rules_of(valid_days=0), "at least a day"),
        (lambda: Doubt(quick=Fraction(5, 4), slow=Fraction(3, 2)), "quick is not below"),
    ],
)
def test_what_cannot_be_offered(make, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        make()


def test_lines_of_a_scheme_come_to_what_the_scheme_says() -> None:
    lines = lines_of_scheme(PARTS, WORK, figures=FIGURES, drum="snare")
    priced = [line for line in lines if line.stands.amount is not None]
    apart = sum(line.amount.minor for line in priced) - money_minor(PARTS, WORK, figures=FIGURES)
    assert abs(apart) <= len(WORK) / 2
    assert [line.key for line in lines][:2] == [
        "snare: work: plug a hole",
        "snare: work: drill a hole",
    ]
    assert lines[-1].stands.amount is None
    assert lines[-1].stands.count == 8
    with pytest.raises(BadInput, match="no price is known"):
        quote_of(lines, rules=rules_of())


def test_the_same_work_is_the_same_amount_beside_whatever_other_work() -> None:
    """By hand: 8 minutes at 34.00 GBP an hour are 4.533 GBP, so 4.53; sharing out the coins of
    two such lines, 9.07 together, made one of them 4.54.
    """
    figures = replace(FIGURES, hour_minor=3400)
    refit = WorkLine(operation="refit a fitting", count=1, minutes=8.0)
    other = replace(refit, operation="another")
    (alone,) = lines_of_scheme([], [refit], figures=figures)
    beside = lines_of_scheme([], [other, refit], figures=figures)
    assert [line.amount.minor for line in (alone, *beside)] == [453, 453, 453]


def test_a_shelf_part_is_paid_for() -> None:
    shelf = PartLine(name="Corvane lug", count=4, bought=1, each_minor=1250)
    free = PartLine(name="a gift", count=1, bought=0, each_minor=0)
    lug, gift = lines_of_scheme([shelf, free], [], figures=FIGURES)
    assert (lug.amount, gift.amount) == (gbp(5000), gbp(0))


def quotes() -> dict[str, Quote]:
    more = [*lines_of(20000, 4650), typed_line("x", "long lugs", amount=gbp(9600), count=6)]
    return {
        "all holes plugged": quote_of(lines_of(20000, 4650), rules=rules_of(), doubt=HARD),
        "long lugs": quote_of(more, rules=rules_of(), doubt=HARD, extra_holes=6),
    }


def test_quotes_side_by_side_add_up_and_what_differs_comes_first() -> None:
    sides = side_by_side(quotes())
    assert sides.titles == ("all holes plugged", "long lugs")
    assert [(row.says, row.same) for row in sides.rows][-2:] == [
        ("true both edges", True),
        ("two heads", True),
    ]
    assert sides.rows[0].same is False
    for at, price in enumerate(sides.prices):
        column = [row.amounts[at] for row in sides.rows]
        assert sum(amount.minor for amount in column if amount) == price.minor
    assert sides.dearer == (gbp(0), sides.prices[1] - sides.prices[0])
    assert sides.extra_holes == (0, 6)
    assert any(row.amounts[0] is None and row.amounts[1] for row in sides.rows)
    assert CONTINGENCY in {row.key for quote in quotes().values() for row in quote.sums.rows}


def test_a_row_that_is_called_otherwise_in_each_says_both() -> None:
    """A tenth off and a fifth off are one row of two amounts; neither's words stand for both."""
    lines, off = lines_of(20000, 4650), Discount(says="old client", share=Fraction(1, 10))
    sides = side_by_side(
        {
            "a tenth": quote_of(lines, rules=rules_of(), discount=off),
            "a fifth": quote_of(
                lines, rules=rules_of(), discount=replace(off, share=Fraction(1, 5))
            ),
        }
    )
    row = sides.rows[0]
    assert (row.says, row.amounts) == (
        "old client, 10 % / old client, 20 %",
        (gbp(-2650), gbp(-5300)),
    )


@pytest.mark.parametrize("count", [1, 5])
def test_one_or_five_quotes_are_not_compared(count: int) -> None:
    one = quotes()["long lugs"]
    with pytest.raises(BadInput, match="2 to 4"):
        side_by_side({f"{n}": one for n in range(count)})
