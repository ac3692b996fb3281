"""What is this? A part in hand, measured line by line, and what it is, more surely each time."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import drawer
from counterhoop.bench.folders.own_book import own_book
from counterhoop.bench.shelf.cards import card_of, next_number, write_piece
from counterhoop.bench.shelf.piece_form import read_typed, typed_in
from counterhoop.bench.shelf.unknown import Told, it_is, what_is_it
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.shelf.put import PieceConflict
from counterhoop.web.forms import fault_words
from counterhoop.web.given_form import GivenForm, number_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.look.mine import mine_of
from counterhoop.web.render import page
from counterhoop.web.shelf_index import shelf_index
from counterhoop.web.shelf_words import address as card_address
from counterhoop.web.unknown_asked import (
    ADDRESS,
    PartAsked,
    on_a_card,
    part_in,
    part_on_card,
    read_part,
    written_out,
)
from counterhoop.web.unknown_told import told_words
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)


@pages.get(ADDRESS)
def look(request: Request, shop: GivenWorkshop) -> Response:
    """Show what a part may be, what to measure next, and how to put it on the shelf."""
    asked = part_in(request.query_params)
    if set(request.query_params) == {"piece"}:
        own = part_on_card(card_of(shop, asked.piece).kept.piece)
        if len(own.pairs) > 1:
            return RedirectResponse(own.address, status_code=303)
    # The address is kept and sent on: whoever opens it may read other units first.
    whole = written_out(asked, units=mine_of(request).units)
    if whole != asked:
        return RedirectResponse(whole.address, status_code=303)
    return shown(request, shop, asked)


@pages.post(f"{ADDRESS}/put")
def put(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Put the part on the shelf, as what it is or as an unknown one."""
    typed = typed_in(given)
    # A line that was about to be measured, and was not, says nothing of the part.
    lines = written_out(part_in(given), units=mine_of(request).units).lines
    typed = replace(typed, lines=tuple(on_a_card(line) for line in lines if line.written))
    read = read_typed(
        typed, new=True, book=own_book(drawer(shop)).book, currency="",
        units=mine_of(request).units, today=shop.now().astimezone().date(),
    )  # fmt: skip
    faults = dict(read.faults)
    if not faults and read.fields["count"] == 0:
        faults["count"] = BadInput("none to put on the shelf", given="0", wanted="1 or more")
    if not faults:
        try:
            kept = write_piece(shop, None, read.fields, based_on=0, by=bench_of(request))
            assert not isinstance(kept, PieceConflict)
            return RedirectResponse(card_address(kept.piece.id), status_code=303)
        except BadInput as fault:
            faults["number"] = fault
    return shown(request, shop, part_in(given), card=dict(typed.texts), faults=faults)


@pages.post(f"{ADDRESS}/is")
def name(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Write on a piece's card what it is."""
    asked = part_in(given)
    # A line that was to be changed, and was not sent, stands as it was.
    read = read_part(replace(asked, write=-1), units=mine_of(request).units)
    if read.faults:
        return shown(request, shop, asked)
    done = it_is(
        shop, asked.piece, name=text_in(given, "fitting"), measured=tuple(read.taken.values()),
        based_on=number_in(given, "based_on"), by=bench_of(request),
    )  # fmt: skip
    if isinstance(done, PieceConflict):
        return shown(request, shop, asked, conflict=done)
    return RedirectResponse(card_address(asked.piece), status_code=303)


def shown(
    request: Request, shop: Workshop, asked: PartAsked, *, card: dict[str, str] | None = None,
    faults: dict[str, BadInput] | None = None, conflict: PieceConflict | None = None,
) -> Response:  # fmt: skip
    """Return the page, with what is wrong with the card that was to be written."""
    units = mine_of(request).units
    asked = written_out(asked, units=units)
    read = read_part(asked, units=units)
    told = what_is_it(shop, tuple(read.taken.values()), seen=asked.seen, without=asked.piece)
    words = told_words(told, asked, read, units=units)
    wrong = {field: fault_words(fault) for field, fault in (faults or {}).items()}
    piece = card_of(shop, asked.piece).kept if asked.piece else None
    like = told.leader.candidate.piece_id if told.leader and _is_sure(told) else ""
    again = card_of(shop, like).kept if like and not piece else None
    status = 409 if conflict else 422 if wrong or read.faults else 200
    data: dict[str, Any] = {
        "asked": asked, "told": told, "words": words, "piece": piece, "wrong": wrong,
        "conflict": conflict, "number": "" if piece else next_number(shop), "card": card or {},
        "again": again,
    }  # fmt: skip
    return page(
        request, "shelf_unknown.html", status=status, index=shelf_index(ADDRESS), **data
    )  # fmt: skip


def _is_sure(told: Told) -> bool:
    return told.odds.word in ("almost sure", "likely")
