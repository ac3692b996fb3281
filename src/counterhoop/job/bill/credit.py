"""A credit note: what is taken back of an invoice that stays as it is."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.job.bill.invoice import Invoice, need_number
from counterhoop.job.price.sums import DISCOUNT, Figures, Row
from counterhoop.quantities.money import Money


@dataclass(frozen=True, slots=True, kw_only=True)
class CreditNote:
    """What is taken back; its figures are to be subtracted from the invoice's.

    Attributes
    ----------
    number : str
        Running, given from outside.
    day : date
    job, client : str
    against : str
        Number of the invoice.
    why : str
        One sentence for the client and the books.
    rows : tuple of Row
    total : Figures
    within_margin : Money
    says : tuple of str
        What the invoice said of tax and rounding: its figures here follow the same.
    """

    number: str
    day: dt.date
    job: str
    client: str
    against: str
    why: str
    rows: tuple[Row, ...]
    total: Figures
    within_margin: Money
    says: tuple[str, ...] = ()


def credit_of(
    invoice: Invoice,
    *,
    number: str,
    day: dt.date,
    why: str,
    amounts: Mapping[str, Money] | None = None,
    earlier: Sequence[CreditNote] = (),
) -> CreditNote:
    """Return a credit note against an invoice.

    The tax taken back of a row is its share of the row's tax. Shares are reckoned on all that
    was taken back so far, so that several notes that take back a whole row take back exactly
    its net and its tax.

    Parameters
    ----------
    invoice : Invoice
    number : str
    day : date
    why : str
    amounts : mapping of str to Money, optional
        By row, what of its gross is taken back; all that is left of the invoice when omitted.
    earlier : sequence of CreditNote
        All that were written against this invoice before.

    Raises
    ------
    BadInput
        For a row that the invoice has not, more than was billed, nothing at all, no number, no
        reason.
    """
    need_number(number, where="credit note")
    where = f"credit note {number}"
    if not why.strip():
        raise BadInput("not said why", where=where, wanted="a sentence for the client")
    if any(note.against != invoice.number for note in earlier):
        raise BadInput("an earlier note is of another invoice", where=where)
    rows = {row.key: row for row in invoice.sums.rows}
    before = {key: _taken(key, earlier, invoice=invoice) for key in rows}
    if amounts is None:
        amounts = {key: row.figures.gross - before[key].gross for key, row in rows.items()}
    for key in amounts.keys() - rows.keys():
        raise BadInput("no such row on the invoice", where=where, given=key, wanted=", ".join(rows))
    taken = tuple(
        _part(rows[key], before[key], amount, where=where)
        for key, amount in amounts.items()
        if amount.minor
    )
    if not taken:
        raise BadInput("nothing is taken back", where=where)
    total = sum((row.figures for row in taken), start=_nothing(invoice))
    so_far = sum((note.total for note in earlier), start=_nothing(invoice))
    after = (so_far + total).gross
    if invoice.total < after or after.minor < 0:
        raise BadInput(
            "more than was billed is taken back, or less than nothing",
            where=where,
            given=str(total.gross),
            wanted=f"at most {invoice.total - so_far.gross}",
        )
    share = Fraction(after.minor, invoice.total.minor or 1)
    within = sum(
        (note.within_margin.times(-1) for note in earlier),
        start=invoice.sums.within_margin.times(share),
    )
    return CreditNote(
        number=number,
        day=day,
        job=invoice.job,
        client=invoice.client,
        against=invoice.number,
        why=why,
        rows=taken,
        total=total,
        within_margin=within,
        says=invoice.sums.says,
    )


def after_discount(invoice: Invoice, key: str) -> Money:
    """Return what was paid for a row in truth: its gross less its share of the discount.

    The rest of what a row came to is taken back where no discount was given.

    Raises
    ------
    BadInput
        When the invoice has no such row.
    """
    rows = {row.key: row.figures.gross for row in invoice.sums.rows}
    if key not in rows:
        raise BadInput("no such row on the invoice", where="row", given=key)
    off = rows.get(DISCOUNT)
    if off is None or key == DISCOUNT:
        return rows[key]
    before = sum(one.minor for name, one in rows.items() if name != DISCOUNT)
    return rows[key].times(1 + Fraction(off.minor, before)) if before else rows[key]


def _nothing(invoice: Invoice) -> Figures:
    nothing = Money(minor=0, currency=invoice.total.currency)
    return Figures(net=nothing, tax=nothing, gross=nothing)


def _taken(key: str, earlier: Sequence[CreditNote], *, invoice: Invoice) -> Figures:
    rows = (row for note in earlier for row in note.rows if row.key == key)
    return sum((row.figures for row in rows), start=_nothing(invoice))


def _part(row: Row, before: Figures, amount: Money, *, where: str) -> Row:
    whole, so_far = row.figures, (before.gross + amount).minor
    # A row below nothing, such as a discount, is taken back by amounts below nothing.
    share = Fraction(so_far, whole.gross.minor) if whole.gross.minor else Fraction(-1)
    if not 0 <= share <= 1:
        raise BadInput(
            "more than the row came to is taken back, or less than nothing",
            where=f"{where}, {row.says}",
            given=str(amount),
            wanted=f"at most {whole.gross - before.gross}",
        )
    tax = whole.tax.times(share) - before.tax
    return replace(row, figures=Figures(net=amount - tax, tax=tax, gross=amount))
