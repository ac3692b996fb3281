"""A drum offered for sale: its listing from the record, and what to ask before it is posted."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.long_work.answers import Done, Failed, Working
from counterhoop.bench.trade.own_sales import own_sales
from counterhoop.errors import CannotDo
from counterhoop.web.folder_index import drum_address, folder_index, job_address
from counterhoop.web.given_form import GivenForm
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.served_upload import upload_headers
from counterhoop.web.listing_desk import ListingDesk, listing_desk
from counterhoop.web.listing_words import besides_of, parcel_of
from counterhoop.web.plain_sheet import Asked, AskedPart
from counterhoop.web.plain_write import Written, undo_sheet, write_sheet, written
from counterhoop.web.render import page
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
LISTING = "/jobs/{job}/drums/{drum}/listing"
PATIENCE_S = 60.0


@pages.get(LISTING)
def look(request: Request, shop: GivenWorkshop, job: str, drum: str) -> Response:
    """Show a drum as it is offered."""
    return page(request, "listing.html", **_shown(request, shop, job, drum))


def _shown(request: Request, shop: GivenWorkshop, job: str, drum: str) -> dict[str, Any]:
    desk = listing_desk(shop, job, drum)
    own = desk.drum
    address = drum_address(desk.job, own)
    return {
        "desk": desk,
        "job": desk.job,
        "drum": own,
        "job_address": job_address(desk.job),
        "drum_address": address,
        "index": folder_index(desk.job, here=f"{address}/listing", drum=own),
        "working": desk.planned.working,
        "besides": written(shop, besides_of(desk.job, own)),
        "parcel": _with_faults(written(shop, parcel_of(desk.job, own)), desk),
        "sale": own_sales(shop).taken_from(job, drum),
    }


def _with_faults(sheet: Written, desk: ListingDesk) -> Written:
    """Return a sheet with what cannot be read beside its fields."""

    def said(one: Asked) -> Asked:
        return replace(one, fault=one.fault or desk.posting_faults.get(one.name, ""))

    def part(one: AskedPart) -> AskedPart:
        lines = tuple((name, tuple(said(field) for field in of)) for name, of in one.lines)
        return replace(one, lines=lines)

    return replace(sheet, form=tuple(part(one) for one in sheet.form))


@pages.get(LISTING + "/text")
def text(shop: GivenWorkshop, job: str, drum: str) -> Response:
    """Hand the listing out as a text file."""
    desk = listing_desk(shop, job, drum, wait_s=PATIENCE_S)
    headers = upload_headers(kind="text/plain", name=f"listing - {desk.drum.name}.txt")
    return Response(desk.need().text + "\n", headers=headers)


@pages.get(LISTING + "/sheet.pdf")
def sheet(shop: GivenWorkshop, job: str, drum: str) -> Response:
    """Hand the listing out as a sheet to be printed, with photographs."""
    from counterhoop.bench.trade.listing_paper import ask_listing

    desk = listing_desk(shop, job, drum, wait_s=PATIENCE_S)
    answer = ask_listing(shop, desk.job, desk.drum, desk.need())
    if isinstance(answer, Working):
        answer = shop.works.wait(answer.id, PATIENCE_S)
    if isinstance(answer, Failed):
        raise answer.fault or CannotDo(answer.says)
    if not isinstance(answer, Done):
        raise CannotDo("The paper is still being set: ask for it again in a while.")
    made = answer.value
    return Response(
        made.content, media_type=made.media_type,
        headers={"content-disposition": f'attachment; filename="{made.name}"'},
    )  # fmt: skip


# --- writing -----------------------------------------------------------------------------------


@pages.post(LISTING + "/besides")
def write_besides(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Write down what the listing says besides the record."""
    kept = kept_job(shop, job)

    def answer() -> Response:
        return page(request, "listing_kept.html", **_shown(request, shop, job, drum))

    return write_sheet(request, shop, besides_of(kept, kept.drum(drum)), given, answer=answer)


@pages.post(LISTING + "/parcel")
def write_parcel(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Write down what it is made of, the parcel, and what the carrier takes."""
    kept = kept_job(shop, job)

    def answer() -> Response:
        return page(request, "parcel_kept.html", **_shown(request, shop, job, drum))

    return write_sheet(request, shop, parcel_of(kept, kept.drum(drum)), given, answer=answer)


@pages.post(LISTING + "/besides/undo")
@pages.post(LISTING + "/parcel/undo")
def undo(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Go one step back: both sheets are one document."""
    kept = kept_job(shop, job)
    undo_sheet(request, shop, besides_of(kept, kept.drum(drum)), given)
    own = f"{drum_address(kept, kept.drum(drum))}/listing"
    return RedirectResponse(own, status_code=303)
