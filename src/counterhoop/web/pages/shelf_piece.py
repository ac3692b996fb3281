"""A piece's card: what is written on it, how many there are, what moved."""

from __future__ import annotations

from collections.abc import Callable, Collection
from functools import cache
from typing import Final, cast, get_args

from fastapi import APIRouter
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.shelf.cards import Card, card_of, move_piece
from counterhoop.bench.shelf.for_whom import for_whom
from counterhoop.bench.shelf.out_of_sight import put_piece_away, take_piece_out
from counterhoop.bench.shelf.said import WHOSE, called, movement_lines, stock_says
from counterhoop.bench.shelf.whose import said
from counterhoop.bench.shelf.workshops_own import workshops_own
from counterhoop.bench.shelf.written import facts_of, versions_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book, name_key
from counterhoop.parts.movement import MovementKind
from counterhoop.web.given_form import GivenForm, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.render import page
from counterhoop.web.shelf_index import shelf_index
from counterhoop.web.shelf_words import address, bin_address, fault_says
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
CARD: Final = "/shelf/pieces/{piece}"
FEW: Final = 2
"""Of so many the first is a good guess; of more, one chooses."""
HAPPENED: Final = (
    ("came in", "more came in"),
    ("counted", "counted: so many lie there"),
    ("sold", "sold"),
    ("scrapped", "scrapped"),
    ("given back", "given back to whose it is"),
)
"""What moves a piece for no job of ours."""


@pages.get(CARD)
def look(request: Request, shop: GivenWorkshop, piece: str) -> Response:
    """Show a piece's card."""
    return shown(request, shop, card_of(shop, piece))


@pages.post(CARD + "/move")
def move(
    request: Request, pen: GivenPen, shop: GivenWorkshop, piece: str, given: GivenForm
) -> Response:
    """Write down that it moved."""
    try:
        kind = _kind(text_in(given, "kind"))
        move_piece(
            shop, piece, kind, count=_count(given), job=text_in(given, "job"),
            corrects=text_in(given, "corrects"), release=text_in(given, "release"),
            why=text_in(given, "why"), mark=text_in(given, "mark"), by=bench_of(request),
        )  # fmt: skip
    except BadInput as fault:
        return shown(request, shop, card_of(shop, piece), given=given, fault=fault)
    return RedirectResponse(f"{address(piece)}#stock", status_code=303)


@pages.post(CARD + "/away")
def put_away(request: Request, pen: GivenPen, shop: GivenWorkshop, piece: str) -> Response:
    """Put a piece out of sight."""
    try:
        put_piece_away(shop, piece, by=bench_of(request))
    except BadInput as fault:
        return shown(request, shop, card_of(shop, piece), fault=fault)
    return RedirectResponse(address(piece), status_code=303)


@pages.post(CARD + "/back")
def take_out(request: Request, pen: GivenPen, shop: GivenWorkshop, piece: str) -> Response:
    """Bring a piece back."""
    take_piece_out(shop, piece, by=bench_of(request))
    return RedirectResponse(address(piece), status_code=303)


def shown(
    request: Request, shop: Workshop, card: Card, *, given: FormData | None = None,
    fault: BadInput | None = None, refused: list[tuple[str, str]] | None = None,
) -> Response:  # fmt: skip
    """Return the card; what could not be moved stays as it was typed."""
    its, owner = card.kept.piece, card.kept.piece.owner
    said_once = _said_once(shop)
    own = workshops_own(shop)
    whom = for_whom(shop, owner=owner)
    return page(
        request, "shelf_piece.html", status=422 if fault or refused else 200,
        index=shelf_index(address(its.id)), kept=card.kept, its=its, called=called(its),
        here_it_is=address(its.id), bin_at=bin_address(its.bin) if its.bin else "",
        stock=card.stock, says=stock_says(card.stock, said=said_once), whose=WHOSE,
        facts=facts_of(its), whom=[*([("", "")] if len(whom) > FEW else []),
              *((one.key, one.says) for one in whom)],
        aside=[(key, count, said_once(key)) for key, count in card.stock.set_aside.items()],
        moved=movement_lines(card.movements, said=said_once),
        happened=_happened(owner), versions=versions_of(card.history),
        in_book=_in_book(own.book, its.fitting),
        typed={name: text_in(given, name) for name in
               ("form", "kind", "count", "job", "corrects", "release", "why")} if given else {},
        fault=fault_says(fault) if fault else "",
        fault_at=_asked_in(card, given, whom=[one.key for one in whom]),
        refused=refused or [],
        album=[one for one in card.photographs if not one.hidden],
        album_away=[one for one in card.photographs if one.hidden],
    )  # fmt: skip


def _said_once(shop: Workshop) -> Callable[[str], str]:
    @cache
    def say(key: str) -> str:
        return said(shop, key)

    return say


def _happened(owner: str) -> list[tuple[str, str]]:
    return [("", ""), *((kind, says) for kind, says in HAPPENED if owner or kind != "given back")]


def _in_book(book: Book, name: str) -> bool:
    return bool(name) and any(name_key(one.name) == name_key(name) for one in book)


def _kind(text: str) -> MovementKind:
    if text not in get_args(MovementKind):
        raise BadInput("what happened?", wanted="one of the list")
    return cast(MovementKind, text)


def _count(given: FormData) -> int:
    text = text_in(given, "count")
    if not (text.isascii() and text.isdecimal() and len(text) < 10):
        raise BadInput("how many?", given=text or None, wanted="a whole number such as 2")
    return int(text)


def _asked_in(card: Card, given: FormData | None, *, whom: Collection[str]) -> str:
    """Return the field beside which a fault is said; empty where no form has it any more."""
    if given is None:
        return ""
    form, owner, free = text_in(given, "form"), card.kept.piece.owner, card.kept.free
    asked = {"other": {"kind", "count", "corrects", "release" if owner else ""}}
    if free and whom:
        asked["aside"] = {"job", "count"} if free > 1 else {"job"}
    for n, count in enumerate(card.stock.set_aside.values(), 1):
        asked[f"aside-{n}"] = {"count"} if count > 1 else set()
    field = _at_fault(given, owner=owner, whom=whom)
    return field if field in asked.get(form, ()) else ""


def _at_fault(given: FormData, *, owner: str, whom: Collection[str]) -> str:
    kind = text_in(given, "kind")
    if kind not in get_args(MovementKind):
        return "kind"
    if text_in(given, "form") == "aside" and text_in(given, "job") not in whom:
        return "job"
    if kind == "counted" and not text_in(given, "corrects"):
        return "corrects"
    if kind in ("sold", "scrapped") and owner and not text_in(given, "release"):
        return "release"
    return "count"
