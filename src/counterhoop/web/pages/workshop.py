"""The workshop's own drawer: what lies in it, earlier versions of it, one step back."""

from __future__ import annotations

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.copies import copies
from counterhoop.bench.evidence.own_reference import own_reference
from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.history import document_in, versions
from counterhoop.bench.folders.kinds import OPEN_HOURS, PRINTER, RULES, SALES, TERMS, WORDS
from counterhoop.bench.folders.out_of_sight import what_is_away
from counterhoop.bench.folders.own_book import own_book
from counterhoop.bench.folders.own_figures import FIGURES, own_figures
from counterhoop.bench.trade.own_sales import own_sales
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.web.given_form import GivenForm, text_in
from counterhoop.web.go_back import go_back
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.pages.history import MOST_SHOWN, told
from counterhoop.web.render import page
from counterhoop.web.workshop_index import workshop_index
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
HISTORY = "/workshop/history/{document}"
SHEET_OF = {
    "rules": "/workshop/rules",
    "book": "/workshop/fittings",
    "printer": "/workshop/printer",
    "reference": "/workshop/dated",
    "rows": "/shelf/rows",
    TERMS: "/workshop/terms",
    OPEN_HOURS: "/workshop/hours",
    SALES: "/workshop/sold",
}


@pages.get("/workshop")
def look(request: Request, shop: GivenWorkshop) -> Response:
    """Show what the workshop keeps for all jobs."""
    held = drawer(shop)
    own = own_book(held)
    figures = own_figures(held)
    tables = held.get(RULES, Kept()).table
    dated = own_reference(shop)
    return page(
        request, "workshop.html", index=workshop_index(request.url.path),
        own=len(own.entries), unread=len(own.unread),
        limits=sum(len(tables.get(name) or {}) for name in FIGURES if name != "stock"),
        stock=len(tables.get("stock") or {}), not_read=len(figures.faults),
        printer=held.get(PRINTER, Kept()).table, copy=next(iter(copies(shop)), None),
        terms=bool(held.get(TERMS, Kept()).number), sold=len(own_sales(shop, held=held).counted),
        away=len(what_is_away(shop)), dated=dated.many, dated_unread=dated.fault is not None,
    )  # fmt: skip


@pages.post("/workshop/undo")
def undo(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Go one step back on one of the workshop's sheets."""
    kind = text_in(given, "kind")
    if kind not in SHEET_OF:
        raise BadInput("there is no such sheet", where="kind", given=kind or None)
    kept = drawer(shop).get(kind)
    if kept is None:
        raise BadInput("nothing is written there yet", where="kind", given=kind)
    go_back(request, shop, kept.document_id, given)
    return RedirectResponse(SHEET_OF[kind], status_code=303)


@pages.get(HISTORY)
def history(request: Request, shop: GivenWorkshop, document: str, below: int = 0) -> Response:
    """Show the versions of one of the workshop's documents, the newest first."""
    lies = in_the_drawer(shop, document)
    found = versions(shop, document)
    shown = [one for one in found if not below or one.number < below]
    return page(
        request,
        "workshop_history.html",
        about=WORDS[lies],
        told=told("job" if lies == RULES else lies, tuple(shown[: MOST_SHOWN + 1]))[:MOST_SHOWN],
        older=shown[MOST_SHOWN - 1].number if len(shown) > MOST_SHOWN else 0,
        newest=found[0],
        settled=None,
        only_forward=False,
        address=request.url.path,
        leads=SHEET_OF[lies],
        index=workshop_index(SHEET_OF[lies]),
    )


@pages.post(HISTORY)
def choose(
    request: Request, pen: GivenPen, shop: GivenWorkshop, document: str, given: GivenForm
) -> Response:
    """Make an earlier version the newest again."""
    in_the_drawer(shop, document)
    go_back(request, shop, document, given)
    return RedirectResponse(request.url.path, status_code=303)


def in_the_drawer(shop: Workshop, document: str) -> str:
    """Return the kind of a document of the workshop's own."""
    lies = document_in(shop, document)
    if lies.job_id is not None:
        raise BadInput("no such document of the workshop's own", where="document", given=document)
    return lies.kind
