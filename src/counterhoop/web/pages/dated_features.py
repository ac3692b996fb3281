"""What was in use when: packaged rows, the workshop's own over them, and all of it as a file."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, File, Form, UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.evidence.own_reference import NAME, OwnReference, own_reference
from counterhoop.bench.evidence.reference_file import (
    KEYS,
    look_at_file,
    reference_text,
    row_called,
)
from counterhoop.bench.evidence.write_reference import (
    known_sort,
    put_row_away,
    take_row_out,
    write_row,
    write_rows,
)
from counterhoop.bench.folders.kinds import REFERENCE
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.evidence.read_reference import packaged_rows
from counterhoop.store.save import Conflict, Saved
from counterhoop.web.both_versions import theirs_kept
from counterhoop.web.dated_listing import OWN, families_shown, looks_shown, own_shown, parts_shown
from counterhoop.web.dated_rows import CALLED, FIELDS, asked_row, beside, read_row, typed_of
from counterhoop.web.given_form import GivenForm, number_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.served_upload import upload_headers
from counterhoop.web.look.say import capfirst
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_index import around_kept, both_of_workshop, workshop_index
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
DATED = "/workshop/dated"
NEW = "new"
FILE_NAME = "dated features.toml"


# --- looking -----------------------------------------------------------------------------------


@pages.get(DATED)
def look(request: Request, shop: GivenWorkshop) -> Response:
    """Show what was in use when, family by family."""
    return shown(request, shop)


@pages.get(f"{DATED}/file")
def file(request: Request, shop: GivenWorkshop) -> Response:
    """Hand the own rows out as a file."""
    headers = upload_headers(kind="application/toml", name=FILE_NAME)
    return Response(reference_text(shop), headers=headers)


@pages.get(OWN + "/{sort}/{at}")
def row(request: Request, shop: GivenWorkshop, sort: str, at: str) -> Response:
    """Show the form of a row: one that is there, a new one, one over a packaged one."""
    own = own_reference(shop)
    place = _at(own, known_sort(sort), at)
    asked = dict(request.query_params)
    if place is not None:
        typed = typed_of(own.rows[sort][place])
    elif "like" in asked:
        typed = _packaged(sort, asked)
    else:
        typed = {name: text for name, text in asked.items() if name in KEYS[sort]}
    return shown_row(request, shop, sort, place, typed=typed, over="like" in asked)


def shown(
    request: Request, shop: Workshop, *, wrong: str = "", looked: dict[str, Any] | None = None
) -> Response:
    """Return the page, with what is wrong with a file, or what it would change."""
    own = own_reference(shop)
    return page(
        request, "dated_features.html", status=422 if wrong else 200,
        index=workshop_index(DATED), families=families_shown(own), looks=looks_shown(own),
        parts=parts_shown(own), many=own.many, yours=own_shown(own),
        fault=str(own.fault) if own.fault else "",
        away=[row_called(one["sort"], one["row"]) for one in own.away], sorts=CALLED,
        wrong=wrong, looked=looked, **around_kept(shop, own.kept),
    )  # fmt: skip


def shown_row(
    request: Request, shop: Workshop, sort: str, at: int | None, *, typed: dict[str, str],
    faults: dict[str, str] | None = None, over: bool = False, based_on: int | None = None,
) -> Response:  # fmt: skip
    """Return the form of a row, with what is wrong beside its fields."""
    own, faults = own_reference(shop), faults or {}
    called = row_called(sort, typed) if all(typed.get(word) for word in KEYS[sort]) else ""
    return page(
        request, "dated_row.html", status=422 if faults else 200, index=workshop_index(DATED),
        sort=sort, at=NEW if at is None else at, kind=CALLED[sort], called=called, over=over,
        fields=asked_row(sort, typed, faults, own.whole), fault=faults.get("", ""),
        based_on=own.kept.number if based_on is None else based_on,
        **around_kept(shop, own.kept),
    )  # fmt: skip


# --- writing -----------------------------------------------------------------------------------


@pages.post(OWN + "/{sort}/{at}")
def keep(
    request: Request, pen: GivenPen, shop: GivenWorkshop, sort: str, at: str, given: GivenForm
) -> Response:
    """Write a row down; what is wrong is said beside its field, and nothing is lost."""
    own = own_reference(shop)
    place = _at(own, known_sort(sort), at)
    if theirs_kept(given):
        return RedirectResponse(DATED, status_code=303)
    typed = {one.name: text_in(given, one.name) for one in FIELDS[sort]}
    based_on = number_in(given, "based_on")
    made, faults = read_row(sort, typed)
    done: Saved | Conflict | None = None
    if not faults:
        try:
            done = write_row(shop, sort, place, made, based_on=based_on, by=bench_of(request))
        except BadInput as fault:
            where, says = beside(fault, sort)
            faults = {where: says}
    if isinstance(done, Conflict):
        return both_of_workshop(request, done, kind=REFERENCE, given=given)
    if done is None:
        return shown_row(request, shop, sort, place, typed=typed, faults=faults, based_on=based_on)
    return RedirectResponse(f"{DATED}#yours", status_code=303)


@pages.post(OWN + "/{sort}/{at}/away")
def put_away(
    request: Request, pen: GivenPen, shop: GivenWorkshop, sort: str, at: str, given: GivenForm
) -> Response:
    """Put an own row away."""
    if theirs_kept(given):
        return RedirectResponse(DATED, status_code=303)
    own = own_reference(shop)
    place = _at(own, known_sort(sort), at)
    if place is None:
        raise BadInput("a row that is not kept yet cannot be put away", where="row", given=at)
    done = put_row_away(
        shop, sort, place, based_on=number_in(given, "based_on"), by=bench_of(request)
    )
    if isinstance(done, Conflict):
        return both_of_workshop(request, done, kind=REFERENCE, given=given)
    return RedirectResponse(f"{DATED}#away", status_code=303)


@pages.post(f"{DATED}/away")
def take_out(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Take a row out again that was put away."""
    if theirs_kept(given):
        return RedirectResponse(DATED, status_code=303)
    done = take_row_out(
        shop, number_in(given, "at"), based_on=number_in(given, "based_on"), by=bench_of(request)
    )
    if isinstance(done, Conflict):
        return both_of_workshop(request, done, kind=REFERENCE, given=given)
    return RedirectResponse(f"{DATED}#yours", status_code=303)


@pages.post(f"{DATED}/file")
def take_in(
    request: Request, pen: GivenPen, shop: GivenWorkshop,
    file: Annotated[UploadFile | None, File()] = None,
    text: Annotated[str, Form()] = "", based_on: Annotated[int, Form()] = 0,
    keep: Annotated[str, Form()] = "",
) -> Response:  # fmt: skip
    """Show what a file would change; sent again with its text, take it in."""
    if keep == "theirs":
        return RedirectResponse(DATED, status_code=303)
    name = (file.filename if file else "") or FILE_NAME
    try:
        if file is not None and file.filename:
            text = _text(file)
        elif not text:
            raise BadInput("no file was chosen", wanted="a TOML file of dated features")
        looked = look_at_file(shop, text, name=name)
        if file is not None and file.filename:
            return shown(request, shop, looked={"found": looked, "text": text, "name": name})
        done = write_rows(shop, looked.rows, based_on=based_on, by=bench_of(request))
    except BadInput as fault:
        return shown(request, shop, wrong=capfirst(str(fault)))
    if isinstance(done, Conflict):
        sent = {"text": text, "based_on": str(based_on)}
        return both_of_workshop(request, done, kind=REFERENCE, given=_Pairs(sent))
    return RedirectResponse(f"{DATED}#yours", status_code=303)


# --- between -----------------------------------------------------------------------------------


class _Pairs(dict[str, str]):
    """Fields as a form has them."""

    def multi_items(self) -> list[tuple[str, str]]:
        """Return them in pairs."""
        return list(self.items())


def _text(file: UploadFile) -> str:
    try:
        return file.file.read().decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise BadInput("this is no text file", given=file.filename, wanted="TOML") from fault


def _at(own: OwnReference, sort: str, written: str) -> int | None:
    if written == NEW:
        return None
    if written.isdecimal() and len(written) < 6 and int(written) < len(own.rows[sort]):
        return int(written)
    raise BadInput(f"no such row in {NAME}", where="row", given=written)


def _packaged(sort: str, asked: dict[str, str]) -> dict[str, str]:
    """Return the packaged row of a name, its source left to whoever writes over it."""
    for one in packaged_rows()[sort]:
        if all(str(one.get(word)) == asked.get(word) for word in KEYS[sort]):
            return typed_of({word: value for word, value in one.items() if word != "source"})
    raise BadInput("no such row among the packaged ones", where="like")
