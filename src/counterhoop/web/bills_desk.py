"""The bills of a job as their page finds them."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from urllib.parse import quote

from counterhoop.bench.folders.folder import KeptJob, kept_job
from counterhoop.bench.price.bills import JobBills, bills_of_job
from counterhoop.bench.record.next_bill import NextBill, next_bill
from counterhoop.bench.shelf.workshops_own import workshops_own
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.bill.credit import CreditNote, after_discount
from counterhoop.job.bill.invoice import Invoice
from counterhoop.job.bill.receipt import Receipt
from counterhoop.job.price.sums import Row
from counterhoop.quantities.day import say_day
from counterhoop.quantities.money import Money, print_money
from counterhoop.store.running.bills import Bill
from counterhoop.web.folder_index import job_address

SORTS: dict[str, str] = {"invoice": "Invoice", "receipt": "Receipt", "credit-note": "Credit note"}


@dataclass(frozen=True, slots=True, kw_only=True)
class BillShown:
    """One paper that was given out."""

    called: str
    says: str
    href: str
    ident: str


@dataclass(frozen=True, slots=True, kw_only=True)
class InvoiceOpen:
    """An invoice of which something can be paid or taken back.

    Attributes
    ----------
    rows : tuple of (int, str, str)
        Place, words and amount of each row.
    """

    number: str
    due: Money
    rows: tuple[tuple[int, str, str], ...]
    whole: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BillsDesk:
    """A job with its bills.

    Attributes
    ----------
    next : NextBill
        What the next invoice would be.
    rows : tuple of Row
        Of the next invoice.
    currency : str
        Of amounts that are typed without one.
    """

    job: KeptJob
    bills: JobBills
    next: NextBill
    rows: tuple[Row, ...]
    currency: str
    today: dt.date

    @property
    def address(self) -> str:
        """Of the page."""
        return f"{job_address(self.job)}/handed-over/bills"

    @property
    def open(self) -> tuple[InvoiceOpen, ...]:
        """Invoices that were not taken back whole, with what is due on each."""
        found = []
        for one in self.bills.invoices:
            whole = self.bills.taken_back(one)
            if not whole or self.bills.due(one).minor:
                rows = tuple(
                    (place, row.says, _came_to(one, row)) for place, row in enumerate(one.sums.rows)
                )
                found.append(
                    InvoiceOpen(
                        number=one.number, due=self.bills.due(one), rows=rows, whole=whole
                    )
                )  # fmt: skip
        return tuple(found)

    @property
    def against(self) -> tuple[tuple[str, str], ...]:
        """What a payment may be for."""
        listed = ((one.number, f"invoice {one.number}") for one in self.open)
        if self.billed and not self.bills.deposits:
            return tuple(listed)
        return (*listed, ("", "a deposit, before the bill"))

    @property
    def billed(self) -> bool:
        """Whether an invoice stands, so that no other can be given out."""
        return bool(self.bills.stands)

    @property
    def face(self) -> tuple[str, str]:
        """What stands large, and what stands beneath it."""
        due = [one for one in self.open if one.due.minor]
        if due:
            said = [_due(one) for one in due]
            return said[0], " ".join(said[1:])
        if self.billed:
            return "Everything is paid.", ""
        if self.next.accepted is None:
            return "Nothing is agreed yet that could be billed.", self._held
        if self.next.bill is None:
            return "No invoice can be given out yet.", self._held
        left = self.next.bill.sums.left
        return f"{print_money(self.next.bill.total)} to bill.", (
            f"{self._held} {print_money(left)} will be due.".strip() if self._held else ""
        )

    @property
    def _held(self) -> str:
        held = _held(self.bills.deposits)
        return f"{print_money(held)} was paid before the bill." if held and held.minor else ""

    @property
    def suggested(self) -> str:
        """What is likely paid next: what is due, or the deposit that was asked for."""
        due = [one.due for one in self.open if one.due.minor > 0]
        if due:
            return print_money(due[0])
        asked = self.next.accepted.offer.quote.deposit if self.next.accepted else None
        return print_money(asked) if asked and asked.minor and not self.bills.receipts else ""

    @property
    def ceiling(self) -> str:
        """Whether the ceiling is kept."""
        bill = self.next.bill
        if bill is None:
            return ""
        return f"The ceiling is {print_money(bill.ceiling)}, and it is kept."

    @property
    def given(self) -> tuple[BillShown, ...]:
        """Every paper that was given out, by day."""
        every: list[Bill] = [*self.bills.invoices, *self.bills.receipts, *self.bills.credits]
        return tuple(self._shown(one) for one in sorted(every, key=lambda one: one.day))

    def bill(self, sort: str, number: str) -> Bill:
        """Return one of them.

        Raises
        ------
        BadInput
            When the job has none of that number.
        """
        of: dict[str, tuple[Bill, ...]] = {
            "invoice": self.bills.invoices, "receipt": self.bills.receipts,
            "credit-note": self.bills.credits,
        }  # fmt: skip
        for one in of.get(sort, ()):
            if one.number == number:
                return one
        raise BadInput("no such paper of this job", where="number", given=number)

    def _shown(self, one: Bill) -> BillShown:
        sort = (
            "invoice" if isinstance(one, Invoice)
            else "receipt" if isinstance(one, Receipt) else "credit-note"
        )  # fmt: skip
        return BillShown(
            called=f"{SORTS[sort]} {one.number}",
            says=f"{say_day(one.day)}, {_says(one)}",
            href=f"{self.address}/{sort}/{quote(one.number, safe='')}.pdf",
            ident=f"{sort}-{one.number}",
        )


def bills_desk(shop: Workshop, job: str) -> BillsDesk:
    """Return the bills of a job."""
    kept = kept_job(shop, job)
    bills = bills_of_job(shop, kept)
    today = shop.now().astimezone().date()
    made = next_bill(kept, bills, day=today)
    sums = made.bill.sums if made.bill else None
    return BillsDesk(
        job=kept, bills=bills, next=made, rows=sums.rows if sums else (),
        currency=made.currency or workshops_own(shop).currency, today=today,
    )  # fmt: skip


def _says(one: Bill) -> str:
    if isinstance(one, Invoice):
        return print_money(one.total)
    if isinstance(one, CreditNote):
        return f"{print_money(one.total.gross)} of invoice {one.against} taken back: {one.why}"
    what = f"on invoice {one.against}" if one.against else "as a deposit"
    way = "paid back" if one.back else "received"
    return f"{print_money(one.amount)} {way} {what}, {one.how}"


def _due(one: InvoiceOpen) -> str:
    if one.due.minor > 0:
        return f"{print_money(one.due)} is due on invoice {one.number}."
    return f"{print_money(one.due.times(-1))} is to be paid back on invoice {one.number}."


def _held(deposits: tuple[Receipt, ...]) -> Money | None:
    if not deposits:
        return None
    nothing = Money(minor=0, currency=deposits[0].amount.currency)
    return sum((one.came_in for one in deposits), start=nothing)


def _came_to(invoice: Invoice, row: Row) -> str:
    """Say what a row came to, and what was paid for it where a discount came off."""
    whole, paid = row.figures.gross, after_discount(invoice, row.key)
    said = print_money(whole)
    return said if paid == whole else f"{said}, {print_money(paid)} after the discount"
