"""What is still to be paid on an invoice, and the receipt for a payment on it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from counterhoop.errors import BadInput
from counterhoop.job.bill.credit import CreditNote
from counterhoop.job.bill.invoice import Invoice
from counterhoop.job.bill.receipt import Receipt
from counterhoop.quantities.money import Money


def due_of(
    invoice: Invoice, *, receipts: Sequence[Receipt] = (), credits: Sequence[CreditNote] = ()
) -> Money:
    """Return what is still to be paid; below zero where something is to be paid back.

    Parameters
    ----------
    invoice : Invoice
    receipts : sequence of Receipt
        Those of other invoices, and deposits, are passed over: deposits are on the invoice.
    credits : sequence of CreditNote
        Those of other invoices are passed over.
    """
    left = invoice.sums.left
    for note in credits:
        if note.against == invoice.number:
            left -= note.total.gross
    for receipt in receipts:
        if receipt.against == invoice.number:
            left -= receipt.came_in
    return left


def receipt_on(
    invoice: Invoice,
    *,
    number: str,
    day: dt.date,
    amount: Money,
    how: str,
    back: bool = False,
    receipts: Sequence[Receipt] = (),
    credits: Sequence[CreditNote] = (),
) -> Receipt:
    """Return the receipt for a payment on an invoice, or for one paid back.

    Raises
    ------
    BadInput
        For more than is still to be paid, or to be paid back.
    """
    due = due_of(invoice, receipts=receipts, credits=credits)
    most = due.times(-1) if back else due
    if most < amount:
        raise BadInput(
            "more than is to be paid back" if back else "more than is still to be paid",
            where=f"receipt {number}",
            given=str(amount),
            wanted=f"at most {max(most, amount - amount)}",
        )
    return Receipt(
        number=number,
        day=day,
        job=invoice.job,
        client=invoice.client,
        amount=amount,
        how=how,
        against=invoice.number,
        back=back,
    )
