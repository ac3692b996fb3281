"""Invoices, receipts and credit notes of a job."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from fastapi import APIRouter
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.price.bills import give_credit, give_invoice, give_receipt
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.quantities.money import Money, parse_money
from counterhoop.store.running.bills import Bill
from counterhoop.web.answered_once import new_mark
from counterhoop.web.bills_desk import BillsDesk, bills_desk
from counterhoop.web.bills_words import FormName, Typed, bill_sheet
from counterhoop.web.folder_index import folder_index, job_address
from counterhoop.web.given_form import GivenForm, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.plain_write import undo_sheet, write_sheet, written
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
BILLS = "/jobs/{job}/handed-over/bills"


@pages.get(BILLS)
def look(request: Request, shop: GivenWorkshop, job: str) -> Response:
    """Show what is due, what was given out, and what the next invoice will hold."""
    return shown(request, shop, job)


def shown(request: Request, shop: Workshop, job: str, *, typed: Typed | None = None) -> Response:
    """Return the page; a form that could not be used comes back as it was typed."""
    desk = bills_desk(shop, job)
    sheet = bill_sheet(desk.job, currency=desk.currency)
    return page(
        request, "bills.html", status=422 if typed else 200, desk=desk, job=desk.job,
        job_address=job_address(desk.job), beside=written(shop, sheet), typed=typed,
        mark=new_mark(),
        index=folder_index(desk.job, here=f"{job_address(desk.job)}/handed-over"),
    )  # fmt: skip


@pages.post(BILLS)
def write(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Write down what the next invoice holds beside the offer."""
    desk = bills_desk(shop, job)
    return write_sheet(request, shop, bill_sheet(desk.job, currency=desk.currency), given)


@pages.post(BILLS + "/undo")
def undo(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Go one step back in that."""
    desk = bills_desk(shop, job)
    return undo_sheet(request, shop, bill_sheet(desk.job, currency=desk.currency), given)


@pages.post(BILLS + "/invoice")
def invoice(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Give the next invoice out."""
    desk, seen = bills_desk(shop, job), text_in(given, "seen")

    def give() -> Bill:
        if desk.next.fault is not None and not desk.billed:
            raise desk.next.fault
        if desk.next.bill is not None and not desk.billed and desk.next.seen != seen:
            raise BadInput(
                "what is billed has changed since that page was opened",
                step="Look at it again, then give it out",
            )
        return give_invoice(
            shop, desk.job, day=text_in(given, "day"), changes=desk.next.changes,
            raised=desk.next.raised, hold=desk.next.hold,
            why_earlier=text_in(given, "why_earlier"), mark=_mark(given, "invoice"),
            by=bench_of(request),
        )  # fmt: skip

    return _given(request, shop, desk, give, given, form="invoice")


@pages.post(BILLS + "/receipt")
def receipt(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Give a receipt for money that came in, or went back."""
    desk = bills_desk(shop, job)
    give = partial(
        give_receipt, shop, desk.job, day=text_in(given, "day"), amount=text_in(given, "amount"),
        how=text_in(given, "how"), against=text_in(given, "against"),
        back=text_in(given, "back") == "yes", currency=desk.currency,
        why_earlier=text_in(given, "why_earlier"), mark=_mark(given, "receipt"),
        by=bench_of(request),
    )  # fmt: skip
    return _given(request, shop, desk, give, given, form="receipt")


@pages.post(BILLS + "/credit")
def credit(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Take an invoice back, or part of it; it stays as it is."""
    desk = bills_desk(shop, job)
    against = text_in(given, "against")

    def give() -> Bill:
        return give_credit(
            shop, desk.job, against=against, day=text_in(given, "day"), why=text_in(given, "why"),
            amounts=_amounts(desk, against, given), why_earlier=text_in(given, "why_earlier"),
            mark=_mark(given, "credit"), by=bench_of(request),
        )  # fmt: skip

    return _given(request, shop, desk, give, given, form="credit", number=against)


@pages.get(BILLS + "/{sort}/{number}.pdf")
def paper(shop: GivenWorkshop, job: str, sort: str, number: str) -> Response:
    """Hand a paper out as it was given out."""
    from counterhoop.bench.record.bill_kept import bill_name, bill_paper

    desk = bills_desk(shop, job)
    bill = desk.bill(sort, number)
    return Response(
        bill_paper(shop, desk.job, bill), media_type="application/pdf",
        headers={"content-disposition": f'attachment; filename="{bill_name(bill)}"'},
    )  # fmt: skip


def _given(
    request: Request, shop: Workshop, desk: BillsDesk, give: Callable[[], Bill], given: FormData, *,
    form: FormName, number: str = "",
) -> Response:  # fmt: skip
    from counterhoop.bench.record.bill_kept import bill_kept

    try:
        made = give()
    except BadInput as fault:
        values = {name: text_in(given, name) for name in given}
        typed = Typed(form=form, number=number, values=values, fault=fault)
        return shown(request, shop, desk.job.id, typed=typed)
    # Set while the terms are those that it was given out by.
    bill_kept(shop, desk.job, made, by=bench_of(request))
    return RedirectResponse(f"{desk.address}#given", status_code=303)


def _mark(given: FormData, form: FormName) -> str:
    """Return the mark of a form that was sent; another form's is never taken for it."""
    mark = text_in(given, "mark")
    return f"{form} {mark}" if mark else ""


def _amounts(desk: BillsDesk, against: str, given: FormData) -> dict[str, Money] | None:
    """Return what is taken back row by row; nothing typed takes back all that is left."""
    found = {}
    for place, row in enumerate(desk.bills.invoice(against).sums.rows):
        if text := text_in(given, f"row.{place}"):
            found[row.key] = parse_money(text, where=f"row.{place}", otherwise=desk.currency)
    return found or None
