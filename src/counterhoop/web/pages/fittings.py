"""The fittings book: found by name, kind, thread or size; entries of one's own laid over it."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.book_listing import (
    BookLine,
    book_lines,
    found,
    packaged_entry,
    packaged_item,
)
from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import BOOK
from counterhoop.bench.folders.own_book import AWAY, own_book
from counterhoop.bench.folders.write_own_book import put_entry_away, take_entry_out, write_entry
from counterhoop.errors import BadInput
from counterhoop.fittings.book import name_key
from counterhoop.fittings.entry import Kind
from counterhoop.fittings.show import describe
from counterhoop.store.save import Conflict
from counterhoop.web.both_versions import theirs_kept
from counterhoop.web.entry_desk import EntryDesk, desk_of, drawn, parts_of
from counterhoop.web.forms import faults_in, read_form
from counterhoop.web.given_form import GivenForm, number_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.look.mine import mine_of
from counterhoop.web.render import is_part, page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_index import around_kept, both_of_workshop, workshop_index
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
FITTINGS = "/workshop/fittings"
OWN = f"{FITTINGS}/own"
NEW = "new"
Words = Annotated[str, Query(max_length=120)]


# --- looking -----------------------------------------------------------------------------------


@pages.get(FITTINGS)
def look(request: Request, shop: GivenWorkshop, find: Words = "", kind: Words = "") -> Response:
    """Show the book, own entries first, then kind by kind."""
    kept = drawer(shop).get(BOOK, Kept())
    own = own_book({BOOK: kept})
    lines = book_lines(own, units=mine_of(request).units)
    these = found(lines, words=find, kind=kind)
    kinds = [one.value for one in Kind if any(line.kind == one.value for line in lines)]
    away = kept.table.get(AWAY, [])
    return page(
        request, "fittings.html", index=workshop_index(FITTINGS), find=find, kind=kind,
        kinds=kinds, count=len(these), all_count=len(lines),
        yours=[line for line in these if line.own],
        groups=[(one, [line for line in these if line.kind == one]) for one in kinds],
        away=[_name_of(one) for one in away] if isinstance(away, list) else [],
        looks_for=bool(find or kind), **around_kept(shop, kept),
    )  # fmt: skip


@pages.get(f"{FITTINGS}/entry")
def entry(
    request: Request, shop: GivenWorkshop, name: Annotated[str, Query(max_length=200)]
) -> Response:
    """Show one entry: drawn life-size, its figures, and where they come from."""
    kept = drawer(shop).get(BOOK, Kept())
    units = mine_of(request).units
    line = _line(book_lines(own_book({BOOK: kept}), units=units), name)
    if line.fitting is None and line.own is not None:
        return RedirectResponse(f"{OWN}/{line.own.at}", status_code=303)
    assert line.fitting is not None
    beneath = packaged_entry(name) if line.over else None
    told = dict(describe(line.fitting, units=units))
    says, source = told.pop("worth knowing", ""), told.pop("source", "")
    if told.get("kind") == line.kind:
        del told["kind"]
    facts = [(label[:1].upper() + label[1:], value) for label, value in told.items()]
    return page(
        request, "fitting.html", index=workshop_index(FITTINGS), line=line, says=says,
        source=source, told=facts,
        beneath=describe(beneath, units=units) if beneath else (),
        svg=drawn(line.fitting, units=units), **around_kept(shop, kept),
    )  # fmt: skip


@pages.get(OWN + "/{at}")
def write(
    request: Request, shop: GivenWorkshop, at: str, kind: Words = "",
    like: Annotated[str, Query(max_length=200)] = "", over: bool = False,
) -> Response:  # fmt: skip
    """Show the form of an own entry: one that is there, a new one, or one after a packaged one."""
    kept = drawer(shop).get(BOOK, Kept())
    item: Any = {"kind": kind} if kind in {one.value for one in Kind} else {}
    if like:
        item = packaged_item(like)
        if item is None:
            raise BadInput("no such fitting in the packaged book", where="like", given=like)
        item = item if over else {name: value for name, value in item.items() if name != "name"}
    desk = desk_of(kept, _at(at, kept), item=item, units=mine_of(request).units)
    kinds = [one.value for one in Kind]
    return page(
        request, "fitting_form.html", index=workshop_index(FITTINGS), kinds=kinds,
        over=like if over else "", **_shown(shop, desk),
    )  # fmt: skip


# --- writing -----------------------------------------------------------------------------------


@pages.post(OWN + "/{at}")
def keep(
    request: Request, pen: GivenPen, shop: GivenWorkshop, at: str, given: GivenForm
) -> Response:
    """Write an entry down, whole or half, or put it away."""
    kept = drawer(shop).get(BOOK, Kept())
    # A new one that was kept while it was typed has its place by now.
    place = _at(text_in(given, "at") or at, kept)
    if theirs_kept(given):
        return RedirectResponse(FITTINGS if place is None else f"{OWN}/{place}", status_code=303)
    item = read_form("book entry", given)
    based_on, by = number_in(given, "based_on"), bench_of(request)
    if place is None and not item:
        return RedirectResponse(f"{OWN}/{NEW}", status_code=303)
    done = write_entry(shop, place, item, based_on=based_on, by=by)
    if isinstance(done, Conflict):
        return both_of_workshop(request, done, kind=BOOK, given=given)
    if place is None:
        listed = _listed(done.revision.body)
        place = len(listed) - 1 - listed[::-1].index(item)
    if is_part(request) and not text_in(given, "done"):
        kept = drawer(shop).get(BOOK, Kept())
        desk = desk_of(kept, place, item=item, units=mine_of(request).units, hushed=True)
        return page(request, "fitting_kept.html", **_shown(shop, desk))
    own = own_book(drawer(shop)).entries[place]
    if own.fitting is None or faults_in("book entry", item):
        return RedirectResponse(f"{OWN}/{place}", status_code=303)
    return RedirectResponse(_address(own.name), status_code=303)


@pages.post(OWN + "/{at}/away")
def put_away(
    request: Request, pen: GivenPen, shop: GivenWorkshop, at: str, given: GivenForm
) -> Response:
    """Put an own entry away."""
    if theirs_kept(given):
        return RedirectResponse(FITTINGS, status_code=303)
    place = _at(at, drawer(shop).get(BOOK, Kept()))
    assert place is not None
    done = put_entry_away(shop, place, based_on=number_in(given, "based_on"), by=bench_of(request))
    if isinstance(done, Conflict):
        return both_of_workshop(request, done, kind=BOOK, given=given)
    return RedirectResponse(f"{FITTINGS}#away", status_code=303)


@pages.post(f"{FITTINGS}/away")
def take_out(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Take an own entry out again that was put away."""
    if theirs_kept(given):
        return RedirectResponse(FITTINGS, status_code=303)
    done = take_entry_out(
        shop, number_in(given, "at"), based_on=number_in(given, "based_on"), by=bench_of(request)
    )
    if isinstance(done, Conflict):
        return both_of_workshop(request, done, kind=BOOK, given=given)
    return RedirectResponse(FITTINGS, status_code=303)


# --- between -----------------------------------------------------------------------------------


def _shown(shop: Any, desk: EntryDesk) -> dict[str, Any]:
    return {**parts_of(desk), **around_kept(shop, desk.kept)}


def _at(written: str, kept: Kept) -> int | None:
    """Return the place of an own entry, None for a new one."""
    if written == NEW:
        return None
    if written.isdecimal() and len(written) < 6 and int(written) < len(_listed(kept.body)):
        return int(written)
    raise BadInput("no such entry in your book", where="entry", given=written)


def _listed(body: Any) -> list[Any]:
    held = body.get("fitting") if isinstance(body, dict) else None
    return held if isinstance(held, list) else []


def _line(lines: tuple[BookLine, ...], name: str) -> BookLine:
    for line in lines:
        if name_key(line.name) == name_key(name):
            return line
    raise BadInput("no such fitting in the book", where="name", given=name)


def _name_of(item: Any) -> str:
    return str(item.get("name") or "without a name") if isinstance(item, dict) else "without a name"


def _address(name: str) -> str:
    from urllib.parse import quote

    return f"{FITTINGS}/entry?name={quote(name, safe='')}"
