"""Invoices, receipts, credit notes of a job, and the books of a span of days."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from counterhoop.cli.of_job import JobCalled, job_called
from counterhoop.cli.options import DataFolder, StoreAddress
from counterhoop.cli.store import BENCH, workshop
from counterhoop.errors import BadInput

if TYPE_CHECKING:
    from counterhoop.bench.folders.folder import KeptJob
    from counterhoop.bench.workshop import Workshop
    from counterhoop.store.running.bills import Bill

bill_app = typer.Typer(
    help="What a job is billed and paid: show, invoice, receipt, credit, print.",
    no_args_is_help=True, rich_markup_mode=None, add_completion=False,
)  # fmt: skip
Day = Annotated[str, typer.Option("--day", metavar="DAY", help="2026-11-02; today.")]
Earlier = Annotated[
    str,
    typer.Option(
        "--why-earlier", metavar="WORDS", help="Why its day is before one that was written already."
    ),
]


@bill_app.command()
def show(job: JobCalled, data: DataFolder = None, store: StoreAddress = "") -> None:
    """Show what was billed and paid, what is still due, and what the next invoice would hold."""
    from counterhoop.bench.price.bills import bills_of_job
    from counterhoop.bench.promise.promises import today_of
    from counterhoop.bench.record.next_bill import next_bill
    from counterhoop.quantities.day import say_day

    with workshop(store, data) as shop:
        kept = job_called(shop, job)
        bills = bills_of_job(shop, kept)
        coming = next_bill(kept, bills, day=today_of(shop))
    for one in bills.invoices:
        due = bills.due(one)
        typer.echo(f"Invoice {one.number}, {say_day(one.day)}: {one.total}, still due {due}.")
    for paid in bills.receipts:
        against = f" on invoice {paid.against}" if paid.against else ", before a bill"
        back = " paid back" if paid.back else ""
        typer.echo(
            f"Receipt {paid.number}, {say_day(paid.day)}: {paid.amount}{back}{against}, {paid.how}."
        )
    for note in bills.credits:
        typer.echo(
            f"Credit note {note.number}, {say_day(note.day)}: {note.total.gross} of invoice"
            f" {note.against}: {note.why}"
        )
    if not bills.invoices:
        typer.echo("Nothing is billed yet.")
    if coming.bill is not None and not bills.stands:
        typer.echo(f"The next invoice would come to {coming.bill.total}.")
    elif coming.fault is not None and not bills.stands:
        typer.echo(f"It cannot be billed yet: {coming.fault}.")


@bill_app.command()
def invoice(
    job: JobCalled,
    day: Day = "",
    why_earlier: Earlier = "",
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Give out the invoice of the accepted offer, under the next number; deposits come off it.

    Changes that were agreed, and what was typed beside the offer in the pages, are on it.
    """
    from counterhoop.bench.price.bills import bills_of_job, give_invoice
    from counterhoop.bench.promise.promises import today_of
    from counterhoop.bench.record.bill_kept import bill_kept
    from counterhoop.bench.record.next_bill import next_bill

    with workshop(store, data) as shop:
        kept = job_called(shop, job)
        today = today_of(shop)
        bills = bills_of_job(shop, kept)
        coming = next_bill(kept, bills, day=today)
        if coming.fault is not None and not bills.stands:
            # What cannot be read would be left off the bill, and nobody would see it.
            raise coming.fault
        made = give_invoice(
            shop, kept, day=day or today.isoformat(), changes=coming.changes,
            raised=coming.raised, hold=coming.hold, why_earlier=why_earlier, by=BENCH,
        )  # fmt: skip
        bill_kept(shop, kept, made, by=BENCH)
    typer.echo(f"Invoice {made.number}: {made.total}, to be paid {made.sums.left}.")


@bill_app.command()
def receipt(
    job: JobCalled,
    amount: Annotated[str, typer.Argument(metavar="AMOUNT", help='Such as "120.00 GBP".')],
    how: Annotated[str, typer.Option("--how", metavar="WORDS", help='"cash", "by transfer".')],
    against: Annotated[
        str, typer.Option("--on", metavar="NUMBER", help="Of the invoice; none for a deposit.")
    ] = "",
    back: Annotated[bool, typer.Option("--back", help="It is paid back to the client.")] = False,
    day: Day = "",
    why_earlier: Earlier = "",
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Give out the receipt for money that came in, or went back."""
    from counterhoop.bench.price.bills import give_receipt
    from counterhoop.bench.price.example import currency_of
    from counterhoop.bench.promise.promises import today_of
    from counterhoop.bench.record.bill_kept import bill_kept

    with workshop(store, data) as shop:
        kept = job_called(shop, job)
        made = give_receipt(
            shop, kept, day=day or today_of(shop).isoformat(), amount=amount, how=how,
            against=against, back=back, currency=currency_of(shop), why_earlier=why_earlier,
            by=BENCH,
        )  # fmt: skip
        bill_kept(shop, kept, made, by=BENCH)
    typer.echo(f"Receipt {made.number}: {made.amount}{' paid back' if back else ''}, {made.how}.")


@bill_app.command()
def credit(
    job: JobCalled,
    against: Annotated[str, typer.Argument(metavar="NUMBER", help="Of the invoice.")],
    why: Annotated[
        str, typer.Option("--why", metavar="WORDS", help="For the client and the books.")
    ],
    day: Day = "",
    why_earlier: Earlier = "",
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Take back an invoice, all that is left of it; the invoice stays as it was given out.

    Part of an invoice is taken back in the pages, row by row.
    """
    from counterhoop.bench.price.bills import give_credit
    from counterhoop.bench.promise.promises import today_of
    from counterhoop.bench.record.bill_kept import bill_kept

    with workshop(store, data) as shop:
        kept = job_called(shop, job)
        made = give_credit(
            shop, kept, against=against, day=day or today_of(shop).isoformat(), why=why,
            why_earlier=why_earlier, by=BENCH,
        )  # fmt: skip
        bill_kept(shop, kept, made, by=BENCH)
    typer.echo(f"Credit note {made.number}: {made.total.gross} of invoice {made.against}.")


@bill_app.command(name="print")
def print_bill(
    job: JobCalled,
    number: Annotated[str, typer.Argument(metavar="NUMBER", help="Of the paper.")],
    kind: Annotated[
        str, typer.Option("--kind", metavar="KIND", help="invoice, receipt or credit note.")
    ] = "invoice",
    to: Annotated[
        Path, typer.Option("--to", metavar="FILE", help="The PDF to write.")
    ] = Path("bill.pdf"),
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:  # fmt: skip
    """Set an invoice, a receipt or a credit note as it was given out."""
    from counterhoop.bench.deliver import deliver_file
    from counterhoop.bench.record.bill_kept import bill_kept

    with workshop(store, data) as shop:
        kept = job_called(shop, job)
        made = bill_kept(shop, kept, _bill(shop, kept, kind, number), by=BENCH)
    typer.echo(f"Wrote {deliver_file(made, path=to)}.")


def money(
    first: Annotated[str, typer.Option("--from", metavar="DAY", help="The first day.")] = "",
    last: Annotated[str, typer.Option("--to", metavar="DAY", help="The last day.")] = "",
    csv: Annotated[
        Path | None,
        typer.Option("--csv", metavar="FOLDER", help="Write billed.csv and paid.csv there."),
    ] = None,
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Show what was billed and paid in a span of days, for whoever keeps the books."""
    from counterhoop.bench.deliver import deliver_file
    from counterhoop.bench.folders.days import need_day
    from counterhoop.bench.promise.promises import today_of
    from counterhoop.bench.record.money_book import money_book

    with workshop(store, data) as shop:
        today = today_of(shop)
        book = money_book(
            shop, first=need_day(first, where="from", today=today) if first else None,
            last=need_day(last, where="to", today=today) if last else None,
        )  # fmt: skip
    for one in book.totals:
        typer.echo(f"Billed {one.billed.gross}, of it tax {one.billed.tax}; came in {one.came_in}.")
    if not book.given:
        typer.echo("Nothing was billed or paid in these days.")
    if csv is not None:
        for name, text in (("billed.csv", book.billed), ("paid.csv", book.paid)):
            typer.echo(f"Wrote {deliver_file(text.encode(), path=csv / name)}.")


def _bill(shop: Workshop, job: KeptJob, kind: str, number: str) -> Bill:
    from counterhoop.bench.price.bills import bills_of_job

    bills = bills_of_job(shop, job)
    every: dict[str, tuple[Bill, ...]] = {
        "invoice": bills.invoices, "receipt": bills.receipts, "credit note": bills.credits,
    }  # fmt: skip
    if kind not in every:
        raise BadInput("no such paper", where="kind", given=kind, wanted=", ".join(every))
    for one in every[kind]:
        if one.number == number:
            return one
    raise BadInput(f"no such {kind} of this job", where="number", given=number)
