"""From an accepted quote to an invoice, its payments and its credit notes."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.job.bill.credit import CreditNote, after_discount, credit_of
from counterhoop.job.bill.done import ChangeCharged, HigherCeiling, SaidYes
from counterhoop.job.bill.due import due_of, receipt_on
from counterhoop.job.bill.invoice import Invoice, invoice_of
from counterhoop.job.bill.receipt import Receipt
from counterhoop.job.price.line import Kind, typed_line
from counterhoop.job.price.quote import Quote, QuoteRules, quote_of
from counterhoop.job.price.sums import Discount, Row
from counterhoop.job.price.tax import NO_TAX, Rounding, Tax, TaxSort
from counterhoop.quantities.money import Money

DAY = dt.date(2026, 3, 4)
YES = SaidYes(who="Ann Hallmere", when=DAY, how="by telephone")
FIFTH = Tax(sort=TaxSort.ADDED, rate=Fraction(1, 5))


def gbp(minor: int) -> Money:
    return Money(minor=minor, currency="GBP")


def offer(*, tax: Tax = NO_TAX, discount: Discount | None = None) -> Quote:
    """Work 200.00, parts 46.50: a price of 265.00, a ceiling of 305.00 (tested with the quote)."""
    lines = [
        typed_line("w", "true both edges", amount=gbp(20000), kind=Kind.WORK),
        typed_line("p", "two heads", amount=gbp(4650), kind=Kind.PART),
    ]
    return quote_of(lines, rules=QuoteRules(round_to=gbp(500), tax=tax), discount=discount)


def bill(quote: Quote, **changes: object) -> Invoice:
    return invoice_of(quote, **({"number": "12", "day": DAY, "job": "marching snare"} | changes))


def deposit(minor: int, **changes: object) -> Receipt:
    usual = {"number": "3", "day": DAY, "job": "marching snare", "client": "", "how": "cash"}
    return Receipt(amount=gbp(minor), **(usual | changes))


def test_the_bill_of_a_price_is_the_price_less_the_deposit() -> None:
    invoice = bill(offer(tax=FIFTH), deposits=[deposit(10000)])
    assert invoice.total == gbp(31800)
    assert invoice.sums.left == gbp(21800)
    assert invoice.deposits == ("3",)


MORE = ChangeCharged(key="more", says="both edges again", amount=gbp(8150))


def test_a_bill_above_the_ceiling_is_refused_with_what_to_do() -> None:
    with pytest.raises(BadInput) as caught:
        bill(offer(), changes=[MORE])
    assert str(caught.value) == (
        "invoice 12: the bill is above the ceiling, and no yes to more is on record:"
        " found '346.50 GBP', wanted at most 305.00 GBP."
        " Ask the client and write down the yes, or hold the bill to the ceiling."
    )


def test_a_bill_held_to_the_ceiling_comes_to_it() -> None:
    """Hand-worked: 346.50 and a fifth are 415.80; 305.00 and a fifth, 366.00, was agreed."""
    invoice = bill(offer(tax=FIFTH), changes=[MORE], hold=True)
    assert invoice.total == gbp(36600)
    assert invoice.sums.rows[-1].says == "held to the ceiling that was agreed"
    assert invoice.sums.rows[-1].figures.gross == gbp(-4980)


def test_a_recorded_yes_lifts_the_ceiling() -> None:
    to = HigherCeiling(to=gbp(34650), yes=YES)
    invoice = bill(offer(), changes=[MORE], raised=[to])
    assert invoice.total == invoice.ceiling == gbp(34650)
    with pytest.raises(BadInput, match="above the ceiling"):
        bill(offer(), changes=[MORE], raised=[replace(to, to=gbp(34649))])


def test_a_change_with_a_yes_moves_the_ceiling_and_one_without_does_not() -> None:
    crack = ChangeCharged(key="1", says="glue a hidden crack", amount=gbp(4500), yes=YES)
    assert bill(offer(), changes=[crack]).ceiling == gbp(35000)
    assert bill(offer(), changes=[crack]).total == gbp(31000)
    unasked = ChangeCharged(key="1", says="glue a hidden crack", amount=gbp(4500))
    with pytest.raises(BadInput, match="above the ceiling"):
        bill(offer(), changes=[unasked])
    less = ChangeCharged(key="2", says="no second head", amount=gbp(-2300), yes=YES)
    assert (bill(offer(), changes=[less]).total, bill(offer(), changes=[less]).ceiling) == (
        gbp(24200),
        gbp(28200),
    )


TO_THE_COIN = {"round_to": gbp(1), "contingency": Fraction(0), "over": Fraction(0)}


def test_less_that_was_agreed_can_be_billed_where_the_ceiling_is_the_price() -> None:
    """Hand-worked: 246.50 and 146.50, each less a tenth: 221.85 and 131.85."""
    lines = [line for line in offer().lines if line.key in ("w", "p")]
    off = Discount(says="old client", share=Fraction(1, 10))
    quote = quote_of(lines, rules=QuoteRules(**TO_THE_COIN), discount=off)
    less = ChangeCharged(key="1", says="one edge only", amount=gbp(-10000), yes=YES)
    assert (quote.price, bill(quote, changes=[less]).total) == (gbp(22185), gbp(13185))


def test_a_coin_of_rounding_does_not_stop_a_bill_that_was_agreed() -> None:
    """Hand-worked: a fifth of 2.97 is 0.59, of 0.02 nothing, of 2.99 0.60: 3.59 is agreed."""
    line = typed_line("p", "washers", amount=gbp(297), kind=Kind.PART)
    quote = quote_of([line], rules=QuoteRules(**TO_THE_COIN, tax=FIFTH))
    assert quote.ceiling.gross == gbp(356)
    more = ChangeCharged(key="1", says="a dearer washer", amount=gbp(2), yes=YES)
    assert bill(quote, changes=[more]).total == bill(quote, changes=[more]).ceiling == gbp(359)


taxes = st.one_of(
    st.just(NO_TAX),
    st.builds(
        Tax,
        sort=st.just(TaxSort.ADDED),
        rate=st.integers(0, 300).map(lambda n: Fraction(n, 1000)),
        included=st.booleans(),
        rounding=st.sampled_from(Rounding),
    ),
    st.builds(
        Tax,
        sort=st.just(TaxSort.MARGIN),
        rate=st.just(Fraction(1, 5)),
        bought_for=st.integers(0, 30000).map(gbp),
        rounding=st.sampled_from(Rounding),
    ),
)
discounts = st.one_of(
    st.none(), st.integers(0, 60).map(lambda n: Discount(says="off", share=Fraction(n, 100)))
)


@given(taxes, discounts, st.integers(0, 300000), st.booleans())
def test_no_bill_passes_the_ceiling_and_one_held_to_it_lies_at_it(
    tax: Tax, discount: Discount | None, more: int, hold: bool
) -> None:
    """Exact law: whatever came on top; held down, no more than the roundings are given away."""
    quote = offer(tax=tax, discount=discount)
    try:
        invoice = bill(quote, changes=[replace(MORE, amount=gbp(more))], hold=hold)
    except BadInput:
        assert not hold
        return
    assert not invoice.ceiling < invoice.total
    if any(row.key == "held to the ceiling" for row in invoice.sums.rows):
        assert (invoice.ceiling - invoice.total).minor <= 3


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"number": " "}, "no running number"),
        ({"deposits": [deposit(100, job="other")]}, "is of job other"),
        ({"deposits": [deposit(100, against="11")]}, "was paid on invoice 11"),
        ({"deposits": [deposit(100), deposit(100)]}, "comes off twice"),
        ({"changes": [ChangeCharged(key="1", says="x", amount=gbp(-90000))]}, "below nothing"),
        ({"changes": [ChangeCharged(key="1", says="x", amount=gbp(-26500))]}, "comes to nothing"),
        ({"changes": [ChangeCharged(key="1", says="x", amount=gbp(1))] * 2}, "one key"),
    ],
)
def test_bills_that_cannot_go_out(changes: dict[str, object], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        bill(offer(), **changes)


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: deposit(0), "payment of nothing"),
        (lambda: deposit(100, how=""), "how it was paid"),
        (lambda: deposit(100, number=""), "running number"),
        (lambda: SaidYes(who="", when=DAY, how="by letter"), "without who"),
    ],
)
def test_papers_without_what_makes_them(make, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        make()


def test_a_number_is_not_spent_on_an_empty_bill() -> None:
    struck = [line.strike() for line in offer().lines]
    with pytest.raises(BadInput, match="nothing is billed"):
        bill(quote_of(struck, rules=QuoteRules(round_to=gbp(500))))


def test_a_deposit_larger_than_the_bill_is_paid_back() -> None:
    invoice = bill(offer(), deposits=[deposit(30000)])
    assert due_of(invoice) == gbp(-3500)
    with pytest.raises(BadInput, match="more than is still to be paid"):
        receipt_on(invoice, number="4", day=DAY, amount=gbp(1), how="cash")
    back = receipt_on(invoice, number="4", day=DAY, amount=gbp(3500), how="cash", back=True)
    assert due_of(invoice, receipts=[back]) == gbp(0)


def test_payments_and_notes_come_off_until_nothing_is_left() -> None:
    invoice = bill(offer())
    half = receipt_on(invoice, number="4", day=DAY, amount=gbp(13000), how="by transfer")
    note = credit_of(
        invoice, number="1", day=DAY, why="One head came torn.", amounts={"p": gbp(2325)}
    )
    so_far = {"receipts": [half], "credits": [note]}
    assert due_of(invoice, **so_far) == gbp(11175)
    with pytest.raises(BadInput, match=r"at most 111\.75 GBP"):
        receipt_on(invoice, number="5", day=DAY, amount=gbp(11176), how="cash", **so_far)
    other = deposit(500, against="99")
    assert due_of(invoice, receipts=[half, other], credits=[note]) == gbp(11175)


def test_a_note_says_of_tax_what_its_invoice_said() -> None:
    tax = Tax(sort=TaxSort.ADDED, rate=Fraction(1, 5))
    invoice = bill(offer(tax=tax))
    note = credit_of(invoice, number="1", day=DAY, why="One head came torn.")
    assert note.says == invoice.sums.says
    assert "Tax at 20 %" in note.says[0]
    assert credit_of(bill(offer()), number="1", day=DAY, why="Torn.").says == ()


def test_of_a_discounted_bill_a_row_was_paid_for_with_its_share_of_the_discount() -> None:
    """By hand: a tenth off everything is a tenth off each row; the rows and no discount add up."""
    invoice = bill(offer(discount=Discount(says="old friend", share=Fraction(1, 10))))
    whole = {row.key: row.figures.gross for row in invoice.sums.rows if row.key != "discount"}
    paid = {key: after_discount(invoice, key) for key in whole}
    assert paid["p"] == whole["p"].times(Fraction(9, 10))
    assert abs(sum(one.minor for one in paid.values()) - invoice.total.minor) <= len(paid)
    plain = bill(offer())
    assert after_discount(plain, "p") == next(
        row.figures.gross for row in plain.sums.rows if row.key == "p"
    )
    with pytest.raises(BadInput, match="no such row"):
        after_discount(plain, "nothing of it")


def note_of(invoice: Invoice, earlier: list[CreditNote], **changes: object) -> CreditNote:
    usual = {"number": f"{len(earlier) + 1}", "day": DAY, "why": "Agreed.", "earlier": earlier}
    return credit_of(invoice, **(usual | changes))


@given(taxes, discounts, st.lists(st.tuples(st.integers(0, 3), st.integers(0, 100)), max_size=6))
def test_however_it_is_taken_back_the_whole_is_exactly_the_invoice(
    tax: Tax, discount: Discount | None, steps: list[tuple[int, int]]
) -> None:
    """Exact law: parts of rows in any order, then all that is left; rows, tax and margin too."""
    invoice = bill(offer(tax=tax, discount=discount))
    notes: list[CreditNote] = []

    def left(row: Row) -> int:
        return row.figures.gross.minor - sum(
            taken.figures.gross.minor
            for note in notes
            for taken in note.rows
            if taken.key == row.key
        )

    for at, percent in steps:
        row = invoice.sums.rows[at % len(invoice.sums.rows)]
        part = int(left(row) * percent / 100)
        after = sum(note.total.gross.minor for note in notes) + part
        if part and 0 <= after <= invoice.total.minor:
            notes.append(note_of(invoice, notes, amounts={row.key: gbp(part)}))
    if any(map(left, invoice.sums.rows)):
        notes.append(note_of(invoice, notes))
    for row in invoice.sums.rows:
        back = [taken for note in notes for taken in note.rows if taken.key == row.key]
        for name in ("net", "tax", "gross"):
            billed = getattr(row.figures, name).minor
            assert sum(getattr(taken.figures, name).minor for taken in back) == billed
    assert due_of(invoice, credits=notes).minor == 0
    within = sum(note.within_margin.minor for note in notes)
    assert within == invoice.sums.within_margin.minor
    with pytest.raises(BadInput, match="nothing is taken back"):
        note_of(invoice, notes)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"amounts": {"z": gbp(100)}}, "no such row"),
        ({"amounts": {"p": gbp(4651)}}, "more than the row came to"),
        ({"amounts": {"p": gbp(-1)}}, "less than nothing"),
        ({"amounts": {}}, "nothing is taken back"),
        ({"why": ""}, "not said why"),
        ({"number": ""}, "no running number"),
    ],
)
def test_notes_that_cannot_go_out(changes: dict[str, object], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        note_of(bill(offer()), [], **changes)


def test_no_more_is_taken_back_than_was_billed() -> None:
    off = Discount(says="off", share=Fraction(1, 2))
    invoice = bill(offer(discount=off))
    with pytest.raises(BadInput, match=r"at most 132\.50 GBP"):
        note_of(invoice, [], amounts={"w": gbp(20000)})
    first = note_of(invoice, [])
    with pytest.raises(BadInput, match="another invoice"):
        note_of(bill(offer(), number="13"), [first])
