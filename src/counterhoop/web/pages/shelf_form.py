"""A piece written down or changed: on the form of its bag."""

from __future__ import annotations

from typing import Annotated, Final

from fastapi import APIRouter, Query
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.shelf.cards import card_of, next_number, write_piece
from counterhoop.bench.shelf.for_whom import for_whom
from counterhoop.bench.shelf.piece_form import (
    INSTRUMENTS,
    Line,
    Typed,
    read_typed,
    typed_in,
    typed_of,
)
from counterhoop.bench.shelf.said import WHOSE, called
from counterhoop.bench.shelf.workshops_own import workshops_own
from counterhoop.bench.shelf.written import differing
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Kind
from counterhoop.parts.dimension import Dimension
from counterhoop.store.shelf.put import PieceConflict
from counterhoop.web.both_versions import theirs_kept
from counterhoop.web.given_form import GivenForm, number_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.look.mine import mine_of
from counterhoop.web.pages.shelf_piece import CARD
from counterhoop.web.render import page
from counterhoop.web.shelf_index import shelf_index
from counterhoop.web.shelf_words import address, fault_says
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
NEW: Final = "/shelf/new"
LINES, MORE_LINES = 3, 6
NOT_LIKE: Final = ("number", "count", "came_on", "condition")
"""What another piece of the same sort has of its own."""


@pages.get(NEW)
def write_new(
    request: Request, shop: GivenWorkshop, like: Annotated[str, Query(max_length=40)] = "",
    bin: Annotated[str, Query(max_length=120)] = "",
) -> Response:  # fmt: skip
    """Show the form of a new piece, or of one like another."""
    texts: dict[str, str] = {"count": "1"}
    lines: tuple[Line, ...] = ()
    if like:
        other = typed_of(card_of(shop, like).kept.piece)
        texts |= {name: text for name, text in other.texts.items() if name not in NOT_LIKE}
        lines = other.lines
    texts |= {"number": next_number(shop), "came_on": shop.now().astimezone().date().isoformat()}
    if bin:
        texts["bin"] = bin
    return shown(request, shop, Typed(texts=texts, lines=lines), piece_id="", based_on=0)


@pages.get(CARD + "/change")
def change(request: Request, shop: GivenWorkshop, piece: str) -> Response:
    """Show the form of a piece that is there."""
    kept = card_of(shop, piece).kept
    return shown(
        request, shop, typed_of(kept.piece), piece_id=piece, based_on=kept.head,
        heading=called(kept.piece),
    )  # fmt: skip


@pages.post(NEW)
def keep_new(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Put a new piece on the shelf."""
    return _write(request, shop, given, piece_id="")


@pages.post(CARD + "/change")
def keep(
    request: Request, pen: GivenPen, shop: GivenWorkshop, piece: str, given: GivenForm
) -> Response:
    """Write down what changed."""
    if theirs_kept(given):
        return RedirectResponse(address(piece), status_code=303)
    return _write(request, shop, given, piece_id=piece)


def _write(request: Request, shop: Workshop, given: FormData, *, piece_id: str) -> Response:
    typed, based_on = typed_in(given), number_in(given, "based_on")
    own = workshops_own(shop)
    read = read_typed(
        typed, new=not piece_id, book=own.book, currency=own.currency,
        units=mine_of(request).units, today=shop.now().astimezone().date(),
    )  # fmt: skip
    faults = read.faults
    if not faults:
        try:
            done = write_piece(
                shop, piece_id or None, read.fields, based_on=based_on, by=bench_of(request)
            )
        except BadInput as fault:
            faults = {_field(fault): fault}
        else:
            if isinstance(done, PieceConflict):
                return _both(request, done, action=f"{address(piece_id)}/change")
            return RedirectResponse(address(done.piece.id), status_code=303)
    return shown(
        request, shop, typed, piece_id=piece_id, based_on=based_on,
        faults={name: fault_says(fault) for name, fault in faults.items()},
    )  # fmt: skip


def shown(
    request: Request, shop: Workshop, typed: Typed, *, piece_id: str, based_on: int,
    heading: str = "", faults: dict[str, str] | None = None,
) -> Response:  # fmt: skip
    """Return the form with what is typed, and faults beside their fields."""
    own = workshops_own(shop)
    lines = (*typed.lines, *[Line()] * max(1, LINES - len(typed.lines)))
    kinds = dict.fromkeys(one.value for one in Kind)
    return page(
        request, "shelf_form.html", status=422 if faults else 200,
        index=shelf_index(NEW), piece_id=piece_id, based_on=based_on,
        heading=heading or typed.texts.get("says", "").split("\n")[0],
        action=f"{address(piece_id)}/change" if piece_id else NEW,
        texts=typed.texts, lines=lines, more_lines=[Line()] * MORE_LINES, faults=faults or {},
        kinds=list(kinds),
        clients=sorted({one.client for one in for_whom(shop) if one.client}),
        names=[one.name for one in own.book], whose=WHOSE, currency=own.currency,
        dimensions=[("", ""), *((one.value, one.value) for one in Dimension)],
        instruments=_instruments,
    )  # fmt: skip


def _instruments(chosen: str) -> list[tuple[str, str]]:
    known = [("", "the usual"), *((one, one) for one in INSTRUMENTS)]
    return known if chosen in dict(known) else [*known, (chosen, f"give or take {chosen[1:]}")]


def _both(request: Request, conflict: PieceConflict, *, action: str) -> Response:
    """Show what both changed: in the rest theirs is taken over before one chooses."""
    theirs = conflict.theirs
    typed = typed_of(conflict.mine)
    values = {**typed.texts, "based_on": f"{theirs.head}"}
    for n, line in enumerate(typed.lines):
        values |= {
            f"measured.{n}.what": line.what, f"measured.{n}.written": line.written,
            f"measured.{n}.with": line.taken_with,
        }  # fmt: skip
    return page(
        request, "both_versions.html", status=409,
        rows=list(differing(conflict.mine, theirs.piece)), unshown=0, action=action,
        values=values, by=theirs.bench, when=theirs.changed_at,
    )  # fmt: skip


def _field(fault: BadInput) -> str:
    return "number" if fault.where == "number" else "says"
