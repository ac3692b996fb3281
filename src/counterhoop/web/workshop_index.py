"""The margin index of the workshop's own sheets, and what their foot says."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import HTMLResponse

from counterhoop.bench.folders.folder import Kept
from counterhoop.bench.folders.history import before
from counterhoop.bench.workshop import Workshop
from counterhoop.store.save import Conflict
from counterhoop.web.both_versions import both_versions
from counterhoop.web.folder_index import Sheet
from counterhoop.web.given_form import pairs_in
from counterhoop.web.place_words import place_words

SHEETS = (
    ("/workshop/fittings", "Fittings book"),
    ("/workshop/dated", "Dated features"),
    ("/workshop/rules", "Shop rules"),
    ("/workshop/terms", "How it is priced"),
    ("/workshop/hours", "Open hours"),
    ("/workshop/weeks", "The weeks"),
    ("/workshop/sold", "Bought and sold"),
    ("/workshop/money", "Invoices and receipts"),
    ("/workshop/printer", "Printer"),
    ("/workshop/safe", "Safe keeping"),
    ("/workshop/put-away", "Put away"),
    ("/let-in", "Who is let in"),
)


def workshop_index(here: str) -> list[Sheet]:
    """Return the lines of the index; a sheet's inner pages count as the sheet."""
    return [
        Sheet(href=href, says=says, here=here == href or here.startswith(f"{href}/"))
        for href, says in SHEETS
    ]


def around_kept(shop: Workshop, kept: Kept) -> dict[str, Any]:
    """Return what the foot of a sheet needs: what is saved, and what undo goes back to."""
    return {"saved": kept, "undo_to": before(kept, shop) if kept.number else None}


def both_of_workshop(
    request: Request, conflict: Conflict, *, kind: str, given: Any, action: str = ""
) -> HTMLResponse:
    """Return the page on which one of two versions of a document of the drawer is chosen."""
    # Its tables are those that a job may have too, and are called as there.
    words_kind = "job" if kind == "rules" else kind
    return both_versions(
        request, conflict, kind=kind, action=action or request.url.path, values=pairs_in(given),
        words_of=lambda pointer: place_words(words_kind, pointer),
    )  # fmt: skip
