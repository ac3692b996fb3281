"""Invoice, credit note and receipt: one paper with a running number, made to be kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from counterhoop.job.bill.credit import CreditNote
from counterhoop.job.bill.invoice import Invoice
from counterhoop.job.bill.receipt import Receipt
from counterhoop.papers.facts import Fact, listed
from counterhoop.papers.letter_head import LetterHead, head_data, kept_data
from counterhoop.papers.money_rows import rows_data
from counterhoop.papers.printable import set_readable
from counterhoop.quantities.money import print_money


def invoice_pdf(
    invoice: Invoice, *, head: LetterHead, to_pay: tuple[str, ...] = (), paper: str = "A4"
) -> bytes:
    """Set an invoice, as a file that is kept (PDF/A-2a and PDF/UA-1).

    Parameters
    ----------
    invoice : Invoice
        Its job, client and day go before the head's.
    head : LetterHead
        Workshop, client and drums.
    to_pay : tuple of str
        How and until when it is to be paid, in the workshop's words; left out where nothing is.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    return _set(invoice_data(invoice, head=head, to_pay=to_pay, paper=paper))


def invoice_data(
    invoice: Invoice, *, head: LetterHead, to_pay: tuple[str, ...] = (), paper: str = "A4"
) -> dict[str, Any]:
    """Return what an invoice says, as plain data."""
    sums = invoice.sums
    paid: list[Fact] = []
    if sums.paid.minor:
        numbers = listed(invoice.deposits)
        by = f", receipt{'s' * (len(invoice.deposits) > 1)} {numbers}" if numbers else ""
        paid.append((f"paid already{by}", print_money(sums.paid)))
    back = sums.left.minor < 0
    left = sums.left.times(-1) if back else sums.left
    return {
        **_shared(invoice, head=head, sort="Invoice", paper=paper),
        "lines": rows_data(sums.rows, total=sums.total),
        "says": list(sums.says),
        "sums": paid,
        "large": ("to be paid back" if back else "to be paid", print_money(left)),
        "after": list(to_pay) if sums.left.minor > 0 else [],
    }


def credit_pdf(note: CreditNote, *, head: LetterHead, paper: str = "A4") -> bytes:
    """Set a credit note; the invoice that it is against stays as it is."""
    return _set(credit_data(note, head=head, paper=paper))


def credit_data(note: CreditNote, *, head: LetterHead, paper: str = "A4") -> dict[str, Any]:
    """Return what a credit note says, as plain data; one that mends an earlier one asks again."""
    again = note.total.gross.minor < 0
    more = (("against invoice", note.against),)
    # Part of what eight pieces came to is not the price of eight.
    rows = [replace(row, count=1) for row in note.rows]
    return {
        **_shared(note, head=head, sort="Credit note", more=more, paper=paper),
        "why": note.why,
        "lines": rows_data(rows, total=note.total, named="taken back"),
        "says": list(note.says),
        "large": (
            f"{'asked for again' if again else 'taken back'} of invoice {note.against}",
            print_money(note.total.gross.times(-1 if again else 1)),
        ),
    }


def receipt_pdf(receipt: Receipt, *, head: LetterHead, paper: str = "A4") -> bytes:
    """Set a receipt for money that came in or went back."""
    return _set(receipt_data(receipt, head=head, paper=paper))


def receipt_data(receipt: Receipt, *, head: LetterHead, paper: str = "A4") -> dict[str, Any]:
    """Return what a receipt says, as plain data."""
    deposit = f"{'of' if receipt.back else 'as'} a deposit, before the bill"
    what = f"on invoice {receipt.against}" if receipt.against else deposit
    who = receipt.client or head.client
    words = "paid back" if receipt.back else "received"
    if who:
        words += f" to {who}" if receipt.back else f" from {who}"
    return {
        **_shared(receipt, head=head, sort="Receipt", more=(("paid", receipt.how),), paper=paper),
        "large": (f"{words}, {what}", print_money(receipt.amount)),
        "signed": "received by" if receipt.back else "for the workshop",
    }


def _shared(
    of: Invoice | CreditNote | Receipt, *, head: LetterHead, sort: str,
    more: Sequence[Fact] = (), paper: str,
) -> dict[str, Any]:  # fmt: skip
    """Return what all three say: the number in the title, the day, who and for whom."""
    on = replace(head, job=of.job, client=of.client or head.client, date=of.day)
    return {
        **head_data(on, what=f"{sort.lower()} {of.number}", more=more, paper=paper),
        **kept_data(on, what=sort.lower()),
        "named": f"{sort} {of.number}",
        "why": "",
        "lines": None,
        "says": [],
        "sums": [],
        "after": [],
        "signed": "",
    }


def _set(data: dict[str, Any]) -> bytes:
    return set_readable("invoice", data, title=data["named"], kept=True)
