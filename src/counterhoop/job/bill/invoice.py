"""The invoice: from an accepted quote and what was really done, never above what was agreed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.job.bill.done import (
    ChangeCharged,
    HigherCeiling,
    ceiling_now,
    lines_done,
)
from counterhoop.job.bill.receipt import Receipt
from counterhoop.job.price.in_one import WorkOf, work_in_one
from counterhoop.job.price.line import QuoteLine, typed_line
from counterhoop.job.price.quote import Quote
from counterhoop.job.price.sums import Sums, add_up
from counterhoop.quantities.money import Money


@dataclass(frozen=True, slots=True, kw_only=True)
class Invoice:
    """A bill as it is given out; it is never changed, a credit note is written against it.

    Attributes
    ----------
    number : str
        Running, given from outside.
    day : date
    job, client : str
    sums : Sums
        Rows, total, and the deposits that come off it.
    ceiling : Money
        What it was allowed to come to.
    deposits : tuple of str
        Numbers of the receipts that come off.
    """

    number: str
    day: dt.date
    job: str
    client: str
    sums: Sums
    ceiling: Money
    deposits: tuple[str, ...] = ()

    @property
    def total(self) -> Money:
        """What it comes to, before deposits."""
        return self.sums.total.gross


def invoice_of(
    quote: Quote,
    *,
    number: str,
    day: dt.date,
    job: str,
    client: str = "",
    changes: Sequence[ChangeCharged] = (),
    raised: Sequence[HigherCeiling] = (),
    deposits: Sequence[Receipt] = (),
    hold: bool = False,
    work: Sequence[WorkOf] = (),
) -> Invoice:
    """Return the bill of a job.

    Parameters
    ----------
    quote : Quote
        As it was accepted.
    number : str
    day : date
    job, client : str
    changes : sequence of ChangeCharged
    raised : sequence of HigherCeiling
    deposits : sequence of Receipt
        Taken for this job before the bill.
    hold : bool
        Bring a bill that passes the ceiling down to it with a line that says so.
    work : sequence of WorkOf
        How the agreed work of each drum is said: at an agreed price it is one row a drum.

    Raises
    ------
    BadInput
        For a bill above the ceiling without a recorded yes, a deposit of another job or one
        that was paid against an invoice, no number, and a bill that comes to nothing.
    """
    need_number(number, where="invoice")
    _deposits_fit(deposits, job=job)
    ceiling = ceiling_now(quote, changes=changes, raised=raised)
    paid = sum(
        (receipt.came_in for receipt in deposits), start=Money(minor=0, currency=ceiling.currency)
    )

    def sums_of(lines: Iterable[QuoteLine]) -> Sums:
        return add_up(
            lines,
            tax=quote.rules.tax,
            currency=ceiling.currency,
            discount=quote.discount,
            paid=paid,
        )

    lines = lines_done(quote, changes=changes)
    if not lines:
        raise BadInput("nothing is billed", where=f"invoice {number}", wanted="at least one line")
    sums = sums_of(lines)
    off = 0
    while hold and ceiling < sums.total.gross:
        # A coin off the line can be less than one off the gross, so it may take several turns.
        off += max(1, (sums.total.gross - ceiling).minor // 2)
        held = typed_line(
            "held to the ceiling",
            "held to the ceiling that was agreed",
            amount=Money(minor=-off, currency=ceiling.currency),
        )
        sums = sums_of((*lines, held))
    if ceiling < sums.total.gross:
        raise BadInput(
            "the bill is above the ceiling, and no yes to more is on record",
            where=f"invoice {number}",
            given=str(sums.total.gross),
            wanted=f"at most {ceiling}",
            step="Ask the client and write down the yes, or hold the bill to the ceiling.",
        )
    if sums.total.gross.minor < 0:
        raise BadInput(
            "a bill below nothing", where=f"invoice {number}", given=str(sums.total.gross)
        )
    if not sums.total.gross.minor:
        # It could be given out again and again: nothing is ever paid on it.
        raise BadInput(
            "the bill comes to nothing, so there is nothing to give out",
            where=f"invoice {number}",
            step="Hand the drum over without one.",
        )
    return Invoice(
        number=number,
        day=day,
        job=job,
        client=client,
        sums=work_in_one(sums, work),
        ceiling=ceiling,
        deposits=tuple(receipt.number for receipt in deposits),
    )


def _deposits_fit(deposits: Sequence[Receipt], *, job: str) -> None:
    seen: set[str] = set()
    for receipt in deposits:
        wrong = (
            f"is of job {receipt.job}"
            if receipt.job != job
            else f"was paid on invoice {receipt.against}"
            if receipt.against
            else "comes off twice"
            if receipt.number in seen
            else ""
        )
        if wrong:
            raise BadInput(f"receipt {receipt.number} {wrong}", where="deposits")
        seen.add(receipt.number)


def need_number(number: str, *, where: str) -> None:
    """Refuse a paper without its running number."""
    if not number.strip():
        raise BadInput("no running number", where=where, wanted="the next one of its series")
