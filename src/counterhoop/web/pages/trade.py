"""Own sales, what a drum is worth, which way of selling it pays."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated

from fastapi import APIRouter, File, Form, UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.kinds import SALES
from counterhoop.bench.shelf.whose import key_of, parted, said
from counterhoop.bench.trade.from_drum import not_written, sale_typed_of
from counterhoop.bench.trade.own_sales import KeptSale, own_sales, strike_sale, write_sale
from counterhoop.bench.trade.sale_typed import SALE
from counterhoop.bench.trade.sales_rows import sales_out, take_sales
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.scheme.phrases import counted
from counterhoop.store.save import Conflict, Saved
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.given_form import GivenForm, number_in, pairs_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.served_upload import upload_headers
from counterhoop.web.render import page
from counterhoop.web.trade_desk import worth_desk
from counterhoop.web.trade_words import DRUM, SOLD, asked_fields, said_fault
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_index import around_kept, workshop_index
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
SHEET = "/workshop/sold"
NEW = "new"
LABELS = {one.name: one.label for one in (*SOLD, *DRUM)}


# --- looking -----------------------------------------------------------------------------------


@pages.get(SHEET)
def look(request: Request, shop: GivenWorkshop) -> Response:
    """Show what the shop has sold."""
    return listed(request, shop)


def listed(
    request: Request, shop: Workshop, *, wrong: tuple[str, ...] = (), said: str = ""
) -> Response:
    """Return the list, with what is wrong with a sheet of rows, or what became of it."""
    own = own_sales(shop)
    return page(
        request, "sold.html", status=422 if wrong else 200, index=workshop_index(SHEET), own=own,
        not_written=not_written(shop, own), wrong=wrong, said=said, **around_kept(shop, own.kept),
    )  # fmt: skip


@pages.get(f"{SHEET}/rows")
def rows_out(shop: GivenWorkshop) -> Response:
    """Hand all sales out as a sheet of rows."""
    headers = upload_headers(kind="text/csv", name="sold.csv")
    # By the mark in front a spreadsheet knows that it is UTF-8.
    return Response("\ufeff" + sales_out(own_sales(shop)), headers=headers)


@pages.get(f"{SHEET}/worth")
def worth(request: Request, shop: GivenWorkshop) -> Response:
    """Show what a drum is worth by the shop's own sales, and which way of selling it pays."""
    desk = worth_desk(shop, dict(request.query_params))
    return page(
        request, "sold_worth.html", status=422 if desk.has_fault else 200,
        index=workshop_index(SHEET), desk=desk,
    )  # fmt: skip


@pages.get(SHEET + "/{key}")
def one(request: Request, shop: GivenWorkshop, key: str) -> Response:
    """Show the form of a sale: one that is there, or a new one."""
    query = request.query_params
    if key != NEW:
        sale = own_sales(shop).sale(key)
        return shown(request, shop, sale, typed=sale.typed, faults=sale.read.faults)
    if query.get("job") and query.get("drum"):
        job = kept_job(shop, query["job"])
        drum = job.drum(query["drum"])
        already = own_sales(shop).taken_from(job.id, drum.id)
        if already:
            return RedirectResponse(f"{SHEET}/{already.key}", status_code=303)
        typed = sale_typed_of(shop, job, drum)
        return shown(request, shop, None, typed=typed, came_from=key_of(job.id, drum.id))
    return shown(request, shop, None, typed={})


def shown(
    request: Request, shop: Workshop, sale: KeptSale | None, *, typed: Mapping[str, str],
    faults: Mapping[str, BadInput] | None = None, came_from: str = "", based_on: int | None = None,
    status: int = 200,
) -> Response:  # fmt: skip
    """Return the form of a sale, what is wrong beside its fields."""
    own, faults = own_sales(shop), faults or {}
    came_from = sale.came_from if sale else came_from
    return page(
        request, "sold_one.html", status=status, index=workshop_index(SHEET), sale=sale,
        key=sale.key if sale else NEW, sold=asked_fields(SOLD, typed, faults),
        drum=asked_fields(DRUM, typed, faults), currency=own.currency, came_from=came_from,
        came_from_says=said(shop, came_from) if came_from else "",
        came_from_at="/jobs/{}/drums/{}".format(*parted(came_from)) if came_from else "",
        based_on=own.kept.number if based_on is None else based_on, **around_kept(shop, own.kept),
    )  # fmt: skip


# --- writing -----------------------------------------------------------------------------------


@pages.post(f"{SHEET}/rows")
def rows_in(
    request: Request, pen: GivenPen, shop: GivenWorkshop,
    file: Annotated[UploadFile | None, File()] = None, based_on: Annotated[int, Form()] = 0,
) -> Response:  # fmt: skip
    """Take a sheet of rows in: all of it, or nothing."""
    try:
        taken = take_sales(shop, _text(file), based_on=based_on, by=bench_of(request))
    except BadInput as fault:
        return listed(request, shop, wrong=(said_fault(fault),))
    if isinstance(taken.done, Conflict):
        raise CannotDo("Others wrote among the sales at the same moment: take the sheet in again.")
    if taken.faults:
        return listed(request, shop, wrong=("Nothing was taken in.", *taken.faults))
    return listed(
        request, shop,
        said=f"{counted(taken.new, 'sale')} taken in; {taken.there} stood there already.",
    )  # fmt: skip


def _text(file: UploadFile | None) -> str:
    if file is None or not file.filename:
        raise BadInput("no file was chosen", wanted="a sheet of rows as CSV")
    try:
        return file.file.read().decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise BadInput(
            "this is no text file", given=file.filename, wanted="CSV in UTF-8"
        ) from fault


@pages.post(SHEET + "/{key}")
def write(
    request: Request, pen: GivenPen, shop: GivenWorkshop, key: str, given: GivenForm
) -> Response:
    """Write a sale down; what is wrong is said beside its field, and nothing is lost."""
    if theirs_kept(given):
        return RedirectResponse(SHEET, status_code=303)
    typed = {name: text_in(given, name) for name in SALE}
    based_on, came_from = number_in(given, "based_on"), text_in(given, "came_from")
    sale = own_sales(shop).sale(key) if key != NEW else None
    if came_from and sale is None:
        job_id, drum_id = parted(came_from)
        kept_job(shop, job_id).drum(drum_id)
    done = write_sale(
        shop, sale.key if sale else "", typed, came_from=came_from, based_on=based_on,
        by=bench_of(request),
    )  # fmt: skip
    if isinstance(done, Conflict):
        return _both(request, done, given)
    if not isinstance(done, Saved):
        return shown(
            request, shop, sale, typed=typed, faults=done, came_from=came_from, based_on=based_on,
            status=422,
        )  # fmt: skip
    return RedirectResponse(f"{SHEET}#own", status_code=303)


@pages.post(SHEET + "/{key}/struck")
def strike(
    request: Request, pen: GivenPen, shop: GivenWorkshop, key: str, given: GivenForm
) -> Response:
    """Leave a sale out of every value, or take it in again."""
    if theirs_kept(given):
        return RedirectResponse(SHEET, status_code=303)
    done = strike_sale(
        shop, key, struck=text_in(given, "struck") == "yes", based_on=number_in(given, "based_on"),
        by=bench_of(request),
    )  # fmt: skip
    if isinstance(done, Conflict):
        return _both(request, done, given)
    return RedirectResponse(f"{SHEET}#own", status_code=303)


def _both(request: Request, conflict: Conflict, given: GivenForm) -> Response:
    return both_versions(
        request, conflict, kind=SALES, action=request.url.path, values=pairs_in(given),
        words_of=_place,
    )  # fmt: skip


def _place(pointer: str) -> str:
    """Return what a place of the document is called: the field of a sale."""
    name = pointer.rsplit("/", 1)[-1]
    return LABELS.get(name, "left out of every value" if name == "struck" else "a sale")
