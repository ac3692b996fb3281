"""Invoices, credit notes and receipts of all jobs in a span of days, and their sums."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.bill.books import BookTotals, billed_csv, book_lines, paid_csv, totals_of
from counterhoop.job.bill.credit import CreditNote
from counterhoop.job.bill.invoice import Invoice
from counterhoop.job.bill.receipt import Receipt
from counterhoop.store.running.bills import KINDS, Bill, read_bill
from counterhoop.store.running.issued import issued_in_series


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """A bill with the name for programs of its job."""

    bill: Bill
    job_id: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MoneyBook:
    """What was billed and paid from a day to a day, both counted.

    Attributes
    ----------
    given : tuple of Given
        By day.
    """

    given: tuple[Given, ...] = ()

    @property
    def invoices(self) -> tuple[Invoice, ...]:
        """Invoices alone."""
        return tuple(one.bill for one in self.given if isinstance(one.bill, Invoice))

    @property
    def credits(self) -> tuple[CreditNote, ...]:
        """Credit notes alone."""
        return tuple(one.bill for one in self.given if isinstance(one.bill, CreditNote))

    @property
    def receipts(self) -> tuple[Receipt, ...]:
        """Receipts alone."""
        return tuple(one.bill for one in self.given if isinstance(one.bill, Receipt))

    @property
    def totals(self) -> tuple[BookTotals, ...]:
        """Sums, currency by currency."""
        return totals_of(book_lines(self.invoices, self.credits), self.receipts)

    @property
    def billed(self) -> str:
        """Lines of invoices and credit notes as CSV."""
        return billed_csv(book_lines(self.invoices, self.credits))

    @property
    def paid(self) -> str:
        """Payments as CSV."""
        return paid_csv(self.receipts)


def money_book(
    shop: Workshop, *, first: dt.date | None = None, last: dt.date | None = None
) -> MoneyBook:
    """Return what was billed and paid in a span of days.

    Parameters
    ----------
    first, last : date, optional
        As the days stand on the papers, both counted; no bound when omitted.

    Raises
    ------
    BadInput
        When the span ends before it begins.
    """
    if first and last and last < first:
        raise BadInput(
            "the last day is before the first", where="to", given=last.isoformat(),
            wanted=f"{first.isoformat()} or later",
        )  # fmt: skip
    with shop.store.reading() as connection:
        every = [one for kind in KINDS for one in issued_in_series(connection, kind)]
    own = [
        one for one in every if (not first or first <= one.day) and (not last or one.day <= last)
    ]
    own.sort(key=lambda one: (one.day, one.entry))
    return MoneyBook(given=tuple(Given(bill=read_bill(o), job_id=o.job_id or "") for o in own))
