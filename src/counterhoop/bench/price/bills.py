"""Give out invoices, receipts and credit notes of a job, each under the next number of its row."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from counterhoop.bench.folders.days import need_day
from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.folders.kinds import BILL, FOUND, QUOTE
from counterhoop.bench.folders.unmoved import has_moved
from counterhoop.bench.price.kept_quote import kept_quote
from counterhoop.bench.price.terms import terms_of
from counterhoop.bench.price.work_words import works_agreed
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.bill.credit import CreditNote, credit_of
from counterhoop.job.bill.done import ChangeCharged, HigherCeiling
from counterhoop.job.bill.due import due_of, receipt_on
from counterhoop.job.bill.invoice import Invoice, invoice_of
from counterhoop.job.bill.receipt import Receipt
from counterhoop.quantities.money import Money, parse_money
from counterhoop.store.running.bills import KINDS, Bill, issue_bill, read_bill
from counterhoop.store.running.issued import issued_in_job
from counterhoop.store.store import Connection

BILLED_BY: Final = (QUOTE, BILL, FOUND)
"""The documents that say what an invoice holds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JobBills:
    """What was billed and paid of a job, in the order in which it was given out."""

    invoices: tuple[Invoice, ...] = ()
    receipts: tuple[Receipt, ...] = ()
    credits: tuple[CreditNote, ...] = ()

    def invoice(self, number: str) -> Invoice:
        """Return an invoice by its number.

        Raises
        ------
        BadInput
            When the job has none of it.
        """
        for one in self.invoices:
            if one.number == number:
                return one
        raise BadInput("no such invoice of this job", where="invoice", given=number)

    @property
    def deposits(self) -> tuple[Receipt, ...]:
        """Payments before any bill that no invoice has taken off yet."""
        taken = {number for one in self.invoices for number in one.deposits}
        return tuple(one for one in self.receipts if not one.against and one.number not in taken)

    def taken_back(self, invoice: Invoice) -> bool:
        """Tell whether credit notes have taken all of an invoice back."""
        nothing = Money(minor=0, currency=invoice.total.currency)
        back = (note.total.gross for note in self.credits if note.against == invoice.number)
        return sum(back, start=nothing) == invoice.total

    @property
    def stands(self) -> str:
        """The number of the invoice that the job is billed by; empty for none."""
        return next((one.number for one in self.invoices if not self.taken_back(one)), "")

    def due(self, invoice: Invoice) -> Money:
        """Return what is still to be paid on an invoice; below zero where some is paid back."""
        return due_of(invoice, receipts=self.receipts, credits=self.credits)


def bills_of_job(shop: Workshop, job: KeptJob) -> JobBills:
    """Return what was billed and paid of a job."""
    with shop.store.reading() as connection:
        return _bills(connection, job)


def give_invoice(
    shop: Workshop,
    job: KeptJob,
    *,
    day: str,
    changes: Sequence[ChangeCharged] = (),
    raised: Sequence[HigherCeiling] = (),
    hold: bool = False,
    why_earlier: str = "",
    mark: str = "",
    by: str,
) -> Invoice:
    """Give out the invoice of the accepted offer and what was done beside it.

    Deposits of the job that no invoice has taken off come off it.

    Parameters
    ----------
    changes, raised, hold :
        As for ``job.bill.invoice.invoice_of``.
    why_earlier : str
        Why its day is before one that the series has reached.
    mark : str
        Chosen anew for each form that is shown: the same form sent twice is one invoice.

    Raises
    ------
    BadInput
        Where no offer is accepted, for a bill above the ceiling without a recorded yes, for one of
        nothing, and where somebody wrote on what is billed since ``job`` was read; no number is
        taken then.
    """
    accepted = kept_quote(job).accepted
    if accepted is None:
        raise BadInput(
            "no offer is accepted, so nothing is agreed that could be billed", where="invoice",
            step="Write down the yes to an offer first.",
        )  # fmt: skip

    def make(connection: Connection, on: dt.date, number: str) -> Invoice:
        bills = _bills(connection, job)
        _need_unbilled(bills)
        if has_moved(connection, job, kinds=BILLED_BY):
            raise BadInput(
                "somebody wrote on what is billed at the same time", where="invoice",
                step="Look at it again, then give it out",
            )  # fmt: skip
        return invoice_of(
            accepted.offer.quote, number=number, day=on, job=_number(job), client=_client(job),
            changes=changes, raised=raised, hold=hold, deposits=bills.deposits,
            work=works_agreed(accepted),
        )  # fmt: skip

    made = _give(shop, job, "invoice", make, day=day, why_earlier=why_earlier, mark=mark, by=by)
    assert isinstance(made, Invoice)
    return made


def give_receipt(
    shop: Workshop,
    job: KeptJob,
    *,
    day: str,
    amount: str,
    how: str,
    against: str = "",
    back: bool = False,
    currency: str,
    why_earlier: str = "",
    mark: str = "",
    by: str,
) -> Receipt:
    """Give out the receipt for money that came in, or went back.

    Parameters
    ----------
    amount, how : str
        As typed; "cash", "by transfer".
    against : str
        Number of the invoice; empty for a deposit before there is one.
    back : bool
        It was paid back to the client.
    currency : str
        Of the workshop's prices, for a job of which nothing was offered yet.

    Raises
    ------
    BadInput
        For more than is to be paid, no such invoice, another currency than the job's, or
        something not filled in.
    """
    kept = kept_quote(job)
    offer = kept.accepted.offer if kept.accepted else next(reversed(kept.offers), None)
    agreed = offer.quote.price.currency if offer else currency
    money = parse_money(amount, where="amount", otherwise=agreed)
    if money.currency != agreed:
        # A deposit that no bill can take off would stop every bill of the job.
        raise BadInput(
            "the job is agreed in another currency" if offer else "prices are in another currency",
            where="amount", given=amount, wanted=f"an amount in {agreed}",
        )  # fmt: skip

    def make(connection: Connection, on: dt.date, number: str) -> Receipt:
        bills = _bills(connection, job)
        if against:
            return receipt_on(
                bills.invoice(against), number=number, day=on, amount=money, how=how, back=back,
                receipts=bills.receipts, credits=bills.credits,
            )  # fmt: skip
        _need_held(bills, money, back=back)
        return Receipt(
            number=number, day=on, job=_number(job), client=_client(job), amount=money, how=how,
            back=back,
        )  # fmt: skip

    made = _give(shop, job, "receipt", make, day=day, why_earlier=why_earlier, mark=mark, by=by)
    assert isinstance(made, Receipt)
    return made


def give_credit(
    shop: Workshop,
    job: KeptJob,
    *,
    against: str,
    day: str,
    why: str,
    amounts: Mapping[str, Money] | None = None,
    why_earlier: str = "",
    mark: str = "",
    by: str,
) -> CreditNote:
    """Take back an invoice, or part of it; the invoice itself stays as it was given out.

    Parameters
    ----------
    against : str
        Number of the invoice.
    why : str
        One sentence for the client and the books.
    amounts : mapping of str to Money, optional
        By the key of a row, what of it is taken back; all that is left when omitted.
    """

    def make(connection: Connection, on: dt.date, number: str) -> CreditNote:
        bills = _bills(connection, job)
        return credit_of(
            bills.invoice(against), number=number, day=on, why=why, amounts=amounts,
            earlier=[one for one in bills.credits if one.against == against],
        )  # fmt: skip

    made = _give(shop, job, "credit note", make, day=day, why_earlier=why_earlier, mark=mark, by=by)
    assert isinstance(made, CreditNote)
    return made


def _give(
    shop: Workshop, job: KeptJob, kind: str, make: Callable[[Connection, dt.date, str], Bill], *,
    day: str, why_earlier: str, mark: str, by: str,
) -> Bill:  # fmt: skip
    on, terms = need_day(day, where="day", today=shop.now().date()), terms_of(shop)
    with shop.store.writing() as connection:
        # What was billed and paid is read once the turn is ours: nothing is taken off twice.
        _, bill = issue_bill(
            connection, lambda number: make(connection, on, number), kind=kind,
            style=terms.numbers, job_id=job.id, day=on, stamp=shop.stamp(by),
            why_earlier=why_earlier, mark=mark,
        )  # fmt: skip
    return bill


def _bills(connection: Connection, job: KeptJob) -> JobBills:
    given = [read_bill(one) for one in issued_in_job(connection, job.id) if one.kind in KINDS]
    return JobBills(
        invoices=tuple(one for one in given if isinstance(one, Invoice)),
        receipts=tuple(one for one in given if isinstance(one, Receipt)),
        credits=tuple(one for one in given if isinstance(one, CreditNote)),
    )


def _need_unbilled(bills: JobBills) -> None:
    if bills.stands:
        raise BadInput(
            "the job is billed already", where="invoice", given=bills.stands,
            step="Write a credit note against it before it is billed anew.",
        )  # fmt: skip


def _need_held(bills: JobBills, money: Money, *, back: bool) -> None:
    """Refuse to pay back more of deposits than lies here, and a deposit that no bill would take."""
    if bills.stands and not back:
        raise BadInput(
            "the job is billed already, so this is paid on its invoice", where="amount",
            given=str(money), wanted=f"a receipt on invoice {bills.stands}",
        )  # fmt: skip
    held = sum(
        (one.came_in for one in bills.deposits), start=Money(minor=0, currency=money.currency)
    )
    if back and held < money:
        raise BadInput(
            "more than was paid before the bill", where="amount", given=str(money),
            wanted=f"at most {held}",
        )  # fmt: skip


def _number(job: KeptJob) -> str:
    return str(job.job.get("number") or job.title)


def _client(job: KeptJob) -> str:
    return str(job.job.get("client") or "")
