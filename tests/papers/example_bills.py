"""An invented quote of a small tom, and what is billed, paid and taken back of it."""

from __future__ import annotations

from fractions import Fraction

from example_jobs import before, full_scheme
from example_letters import DAY, head_of, photograph_of
from example_shells import small_tom

from counterhoop.job.bill.credit import CreditNote, credit_of
from counterhoop.job.bill.invoice import Invoice, invoice_of
from counterhoop.job.bill.receipt import Receipt
from counterhoop.job.price.doubt import Doubt
from counterhoop.job.price.line import Kind, QuoteLine, typed_line
from counterhoop.job.price.quote import Quote, QuoteRules, quote_of
from counterhoop.job.price.sides import side_by_side
from counterhoop.job.price.tax import NO_TAX, Rounding, Tax, TaxSort
from counterhoop.papers.client_picture import (
    after_picture,
    before_picture,
    client_legend,
    common_frame,
)
from counterhoop.papers.letter_head import LetterHead
from counterhoop.papers.quote_sheet import QuoteSheet
from counterhoop.quantities.money import Money

FIFTH = Tax(sort=TaxSort.ADDED, rate=Fraction(1, 5), rounding=Rounding.LINE)
EXCLUSIONS = ("Cases and covers.", "Damage that only shows once the wrap is off.")


def gbp(minor: int) -> Money:
    return Money(minor=minor, currency="GBP")


def lines_of(text: str = "true both edges") -> list[QuoteLine]:
    """By hand: work 260.00, parts 46.50, together 306.50; a tenth of the work on top 332.50."""
    return [
        typed_line("edges", text, amount=gbp(20000), kind=Kind.WORK),
        typed_line("plugs", "plug a hole", amount=gbp(6000), kind=Kind.WORK, count=8),
        typed_line("heads", "head, 12 in", amount=gbp(4650), kind=Kind.PART, count=2),
    ]


def quote(text: str = "true both edges", *, tax: Tax = NO_TAX, work: int = 0) -> Quote:
    """By hand: 332.50 to the nearest 5.00 is 335.00."""
    rules = QuoteRules(
        round_to=gbp(500), tax=tax, deposit=Fraction(1, 5), exclusions=EXCLUSIONS
    )  # fmt: skip
    lines = lines_of(text)
    if work:
        lines.append(typed_line("bed", "cut a snare bed", amount=gbp(work), kind=Kind.WORK))
    doubt = Doubt(quick=Fraction(3, 4), slow=Fraction(3, 2))
    return quote_of(lines, rules=rules, doubt=doubt, extra_holes=10)


def quote_of_tom(
    text: str = "true both edges", *, head: LetterHead | None = None, drawn: bool = True,
    tax: Tax = NO_TAX,
) -> QuoteSheet:  # fmt: skip
    """The offer with drawings or photographs, and two other ways beside it."""
    layout, now = full_scheme().layout, before(small_tom())
    frame = common_frame([now, layout], wide_mm=186.0)
    ours = quote(text, tax=tax)
    return QuoteSheet(
        head=head or head_of(drums=("small tom",)), quote=ours,
        title=f"a second head with long lugs, {text}", story=("Long lugs across both heads.", text),
        before=before_picture(now, frame=frame) if drawn else photograph_of("as it is"),
        after=after_picture(layout, frame=frame) if drawn else photograph_of("as it would be"),
        legend=client_legend([layout], wide_mm=186.0) if drawn else None,
        permanent=("Ten holes drilled, thirteen closed.", text),
        ready="Ready by 20 March 2026: sure to at least 80 %.",
        offer=2,
        sides=side_by_side(
            {
                "Long lugs": ours,
                text: quote(text, tax=tax, work=9000),
                "As it was": quote(text, tax=tax, work=500),
            }
        ),
    )  # fmt: skip


def deposit(text: str = "cash") -> Receipt:
    return Receipt(number="R-31", day=DAY, job="17", client="A. Player", amount=gbp(6700), how=text)


def invoice(
    text: str = "true both edges", *, client: str = "A. Player", tax: Tax = NO_TAX
) -> Invoice:
    return invoice_of(
        quote(text, tax=tax), number="2026-007", day=DAY, job="17", client=client,
        deposits=[deposit()],
    )  # fmt: skip


def credit(
    text: str = "One head was the client's own.", *, client: str = "A. Player"
) -> CreditNote:
    return credit_of(
        invoice(client=client), number="C-2", day=DAY, why=text, amounts={"heads": gbp(2325)}
    )
