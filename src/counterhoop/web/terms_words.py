"""What the sheet of terms asks, in the order in which a price comes about."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from counterhoop.job.price.tax import Rounding, TaxSort
from counterhoop.web.plain_sheet import Question


@dataclass(frozen=True, slots=True, kw_only=True)
class TermsPart:
    """One sheet of the terms: its id, its heading, a sentence, its questions."""

    ident: str
    title: str
    says: str
    of: tuple[Question, ...]


TAX: Final = (
    ("", "no tax is charged"),
    (str(TaxSort.ADDED), "tax on every line"),
    (str(TaxSort.MARGIN), "second-hand goods: tax within the margin"),
)
ROUNDED: Final = (
    ("", str(Rounding.TOTAL)),
    *((str(one), str(one)) for one in Rounding if one is not Rounding.TOTAL),
)
TERMS_ASKED: Final = (
    TermsPart(
        ident="price",
        title="From hours to a price",
        says="",
        of=(
            Question(
                name="contingency", label="For what cannot be seen before",
                help="A share of the work, usually 10 %. Parts are sure.",
            ),
            Question(
                name="round", label="Prices are round in steps of",
                help="Usually 5.00, in the currency of the job.",
            ),
            Question(
                name="over", label="The ceiling stands at least so much above",
                help="Usually 15 %. Higher where the hours are less sure.",
            ),
            Question(
                name="deposit", label="Asked for before work begins",
                help="A share of the price, such as 30 %. Empty for none.",
            ),
            Question(
                name="valid_days", label="A price holds for so many days", help="Usually 30."
            ),
        ),
    ),
    TermsPart(
        ident="tax",
        title="Tax",
        says=(
            "You type what applies to you: nothing here says what the law is. Ask whoever does"
            " your books."
        ),
        of=(
            Question(name="tax", label="How your prices stand to tax", kind="choice", choices=TAX),
            Question(name="rate", label="Rate", help="As you were told it, such as 20 %."),
            Question(name="included", label="You type prices with the tax in them", kind="yes"),
            Question(name="rounding", label="Rounded", kind="choice", choices=ROUNDED),
        ),
    ),
    TermsPart(
        ident="letters",
        title="On your papers",
        says="",
        of=(
            Question(name="shop", label="Name of the workshop"),
            Question(
                name="shop_lines", label="Where it is, and how it is reached", kind="note",
                help="A line each, as at the head of a letter.",
            ),
            Question(
                name="exclusions", label="What is not in a price", kind="note",
                help="A sentence to a line: it stands on every quote.",
            ),
            Question(
                name="to_pay", label="How a bill is paid", kind="note",
                help="A line each; it stands on every invoice.",
            ),
            Question(
                name="warranty", label="What you stand for afterwards", kind="note",
                help="A sentence to a line, for the paper of the hand-over. Rights that the law"
                " gives the client stay.",
            ),
            Question(
                name="uncollected", label="What becomes of drums that nobody fetches",
                help="For the booking-in sheet. Local law applies; ask before you write a term.",
            ),
        ),
    ),
    TermsPart(
        ident="numbers",
        title="Numbers of invoices and receipts",
        says=(
            "They run on without a gap. Once a paper has gone out, leave this as it is until the"
            " year ends."
        ),
        of=(
            Question(name="by_year", label="Each year begins at one", kind="yes"),
            Question(
                name="digits", label="Filled up with noughts to so many figures",
                help="3 writes 007.",
            ),
        ),
    ),
)  # fmt: skip
