"""Labels: for pieces and bins that were chosen, on plain or gummed sheets."""

from __future__ import annotations

from typing import Annotated, Final

from fastapi import APIRouter, Query
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.long_work.answers import Done, Failed, Working
from counterhoop.bench.shelf.bins import bin_of, bins_of
from counterhoop.bench.shelf.cards import find_pieces
from counterhoop.bench.shelf.label_sheet import (
    FIELDS,
    OWN,
    PLAIN,
    chosen_sheet,
    typed_sheet,
    write_sheet,
)
from counterhoop.bench.shelf.labels import MOST_LABELS, labelled, labels_for, make_label_sheets
from counterhoop.bench.shelf.said import called
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.save import Conflict
from counterhoop.store.shelf.look_up import Kept
from counterhoop.web.both_versions import theirs_kept
from counterhoop.web.given_form import GivenForm, number_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.look.mine import mine_of
from counterhoop.web.phone_address import phone_address
from counterhoop.web.render import page
from counterhoop.web.shelf_index import shelf_index
from counterhoop.web.shelf_words import fault_says
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_index import both_of_workshop
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
LABELS: Final = "/shelf/labels"
PATIENCE_S: Final = 60.0
Chosen = Annotated[list[str] | None, Query(max_length=MOST_LABELS + 1)]


@pages.get(LABELS)
def look(
    request: Request, shop: GivenWorkshop, piece: Chosen = None, bin: Chosen = None,
    find: Annotated[str, Query(max_length=1000)] = "",
    free: Annotated[str, Query(max_length=3)] = "",
) -> Response:  # fmt: skip
    """Show for what labels are printed, and on what."""
    return shown(request, shop, pieces=piece or [], bins=bin or [], find=find, free=free)


@pages.get(LABELS + "/file")
def file(
    request: Request, shop: GivenWorkshop, piece: Chosen = None, bin: Chosen = None,
    sheet: Annotated[str, Query(max_length=10)] = "A4",
    used: Annotated[str, Query(max_length=10)] = "",
) -> Response:  # fmt: skip
    """Hand out the sheets."""
    pieces, bins, gone = piece or [], bin or [], used.strip() or "0"
    try:
        if not (gone.isascii() and gone.isdecimal()):
            raise BadInput("how many are gone?", where="used", given=used, wanted="a whole number")
        labels = labels_for(
            shop, piece_ids=pieces, bins=bins, address=phone_address(request).address
        )
        chosen = chosen_sheet(shop, sheet)
        # Said beside its field, before anything is set.
        next(chosen.corners(1, used=int(gone)))
        answer = make_label_sheets(shop, labels, sheet=chosen, used=int(gone))
    except BadInput as fault:
        return shown(
            request,
            shop,
            pieces=pieces,
            bins=bins,
            fault=fault,
            typed={"sheet": sheet, "used": used},
        )
    if isinstance(answer, Working):
        answer = shop.works.wait(answer.id, PATIENCE_S)
    if isinstance(answer, Failed):
        raise answer.fault or CannotDo(answer.says)
    if not isinstance(answer, Done):
        raise CannotDo("The labels are still being set: ask for them again in a while.")
    return Response(
        answer.value.content, media_type=answer.value.media_type,
        headers={"content-disposition": 'attachment; filename="labels.pdf"'},
    )  # fmt: skip


@pages.post(LABELS + "/sheet")
def write(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Write down what the gummed sheet measures."""
    if theirs_kept(given):
        return RedirectResponse(LABELS, status_code=303)
    typed = {name: text_in(given, name) for name in FIELDS}
    try:
        done = write_sheet(shop, typed, based_on=number_in(given, "based_on"), by=bench_of(request))
    except BadInput as fault:
        return shown(request, shop, measures=typed, wrong=fault)
    if isinstance(done, Conflict):
        return both_of_workshop(request, done, kind="labels", given=given)
    return RedirectResponse(f"{LABELS}#gummed", status_code=303)


def shown(
    request: Request, shop: Workshop, *, pieces: list[str] | None = None,
    bins: list[str] | None = None, find: str = "", free: str = "", fault: BadInput | None = None,
    typed: dict[str, str] | None = None, measures: dict[str, str] | None = None,
    wrong: BadInput | None = None,
) -> Response:  # fmt: skip
    """Return the sheet; what could not be read stays as it was typed."""
    chosen = _chosen(request, shop, pieces=pieces or [], bins=bins or [], find=find, free=free)
    kept_sheet, kept = typed_sheet(shop)
    phone = phone_address(request)
    return page(
        request, "shelf_labels.html", status=422 if fault or wrong else 200,
        index=shelf_index(LABELS), find=find.strip(), free=free, most=MOST_LABELS,
        chosen=[(one.piece.id, one.piece.number, called(one.piece)) for one in chosen],
        bins=bins or [], every_bin=list(bins_of(shop).items()),
        sheets=[*((one, f"plain {one}, to be cut") for one in PLAIN),
                *([(OWN, "your gummed sheets")] if kept.table else [])],
        typed=typed or {"sheet": OWN if kept.table else PLAIN[0], "used": ""},
        faults={_field(fault): fault_says(fault)} if fault else {},
        measures=measures or kept_sheet, kept=kept, papers=[(one, one) for one in PLAIN],
        wrong={_measure(wrong): fault_says(wrong)} if wrong else {}, phone=phone,
    )  # fmt: skip


def _chosen(
    request: Request, shop: Workshop, *, pieces: list[str], bins: list[str], find: str, free: str
) -> tuple[Kept, ...]:
    if pieces:
        return labelled(shop, pieces[:MOST_LABELS])
    if find.strip():
        found = find_pieces(
            shop, find.strip(), units=mine_of(request).units, only_free=free == "yes",
            limit=MOST_LABELS,
        )  # fmt: skip
        return tuple(one.kept for one in found.found)
    return bin_of(shop, bins[0])[:MOST_LABELS] if len(bins) == 1 else ()


def _field(fault: BadInput) -> str:
    return "used" if fault.where == "used" else "sheet"


def _measure(fault: BadInput) -> str:
    return fault.where if fault.where in FIELDS else "across"
