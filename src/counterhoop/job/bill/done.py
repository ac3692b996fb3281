"""What was really done, and what the client said yes to on the way."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.job.price.line import Kind, QuoteLine, typed_line
from counterhoop.job.price.quote import Quote
from counterhoop.job.price.sums import add_up
from counterhoop.quantities.money import Money


@dataclass(frozen=True, slots=True, kw_only=True)
class SaidYes:
    """Who agreed, when and how ("by telephone")."""

    who: str
    when: dt.date
    how: str

    def __post_init__(self) -> None:
        if not self.who.strip() or not self.how.strip():
            raise BadInput(
                "a yes without who gave it and how",
                where="yes",
                given=f"{self.who}, {self.how}",
                wanted="a name, and such as by telephone",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeCharged:
    """A change note on the bill: its amount as the workshop types prices, below zero for less.

    One without a yes is paid only as far as the ceiling allows; one with it moves the ceiling.
    """

    key: str
    says: str
    amount: Money
    kind: Kind = Kind.WORK
    yes: SaidYes | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HigherCeiling:
    """A yes to a higher ceiling, in what the client pays."""

    to: Money
    yes: SaidYes


def lines_done(quote: Quote, *, changes: Iterable[ChangeCharged] = ()) -> tuple[QuoteLine, ...]:
    """Return the lines of a bill: those of the quote, then what changed."""
    added = [typed_line(f"change: {c.key}", c.says, amount=c.amount, kind=c.kind) for c in changes]
    return (*(line for line in quote.lines if line.counts), *added)


def ceiling_now(
    quote: Quote,
    *,
    changes: Iterable[ChangeCharged] = (),
    raised: Iterable[HigherCeiling] = (),
) -> Money:
    """Return what the bill may come to: the ceiling, moved by every recorded yes.

    A change moves it by what it makes of the price, discount, tax and their rounding included:
    what was agreed can always be billed.
    """
    agreed = add_up(
        lines_done(quote, changes=[change for change in changes if change.yes is not None]),
        tax=quote.rules.tax,
        currency=quote.price.currency,
        discount=quote.discount,
    )
    moved = quote.ceiling.gross + (agreed.total.gross - quote.price)
    return max([moved, *(higher.to for higher in raised)])
