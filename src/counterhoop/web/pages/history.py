"""Earlier versions of a document: when, where, what changed; any of them can be chosen again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.history import ONLY_FORWARD, Version, document_in, versions
from counterhoop.bench.folders.kinds import (
    BILL,
    CHOICE,
    FOUND,
    HANDOVER,
    LISTING,
    OF_A_DRUM,
    OFFERS,
    QUOTE,
    STRIPPED,
    SURVEY,
    TICKS,
    WISH,
    WORDS,
)
from counterhoop.bench.folders.write_down import differences
from counterhoop.errors import BadInput
from counterhoop.store.pointer import NOTHING, Nothing, value_at
from counterhoop.web.folder_index import drum_address, folder_index, job_address
from counterhoop.web.given_form import GivenForm
from counterhoop.web.go_back import go_back
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.place_words import place_words, value_words
from counterhoop.web.render import page
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
HISTORY = "/jobs/{job}/history/{document}"
MOST_SHOWN = 40
MOST_PLACES = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One version in words.

    Attributes
    ----------
    changed : tuple of (place, before, after)
        Against the version before it.
    more : int
        Further places that are not shown.
    """

    version: Version
    changed: tuple[tuple[str, str, str], ...]
    more: int


def told(kind: str, found: tuple[Version, ...]) -> list[Told]:
    """Return versions in words, the newest first; each against the one before it."""
    said = []
    for newer, older in zip(found, (*found[1:], None), strict=True):
        before: Any = older.body if older else {}
        places = list(differences(before, newer.body)) if older else []
        rows = tuple(
            (place_words(kind, pointer), value_words(_before(before, pointer)), value_words(new))
            for pointer, new in places[:MOST_PLACES]
        )
        said.append(Told(version=newer, changed=rows, more=len(places) - len(rows)))
    return said


def _before(body: Any, pointer: str) -> Any | Nothing:
    return value_at(body, pointer) if pointer else (NOTHING if body == {} else body)


@pages.get(HISTORY)
def look(
    request: Request, shop: GivenWorkshop, job: str, document: str, below: int = 0
) -> Response:
    """Show the versions of a document, the newest first."""
    kept = kept_job(shop, job)
    lies = document_in(shop, document)
    if lies.job_id != job:
        raise BadInput("no such document in this job", where="document", given=document)
    found = versions(shop, document)
    shown = [one for one in found if not below or one.number < below]
    drum = kept.drum(lies.name) if lies.kind in OF_A_DRUM else None
    about = f"{drum.name}: {WORDS[lies.kind]}" if drum else WORDS.get(lies.kind, lies.kind)
    return page(
        request,
        "history.html",
        job=kept,
        about=about,
        told=told(lies.kind, tuple(shown[: MOST_SHOWN + 1]))[:MOST_SHOWN],
        older=shown[MOST_SHOWN - 1].number if len(shown) > MOST_SHOWN else 0,
        newest=found[0],
        settled=lies.as_found,
        only_forward=lies.kind in ONLY_FORWARD,
        address=request.url.path,
        job_address=job_address(kept),
        leads=_leads(kept, drum, lies.kind),
        index=folder_index(kept, here=request.url.path, drum=drum),
    )


@pages.post(HISTORY)
def choose(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, document: str, given: GivenForm
) -> Response:
    """Make an earlier version the newest again."""
    if document_in(shop, document).job_id != job:
        raise BadInput("no such document in this job", where="document", given=document)
    go_back(request, shop, document, given)
    return RedirectResponse(request.url.path, status_code=303)


def _leads(job: Any, drum: Any, kind: str) -> str:
    """Return the sheet that a document is written on."""
    ends = {SURVEY: "/shell", WISH: "/shell", CHOICE: "/schemes", TICKS: "/bench"}
    ends |= {STRIPPED: "/parts", OFFERS: "/parts", FOUND: "/found", LISTING: "/listing"}
    ends |= {HANDOVER: "/handed-over", BILL: "/handed-over/bills", QUOTE: "/price"}
    top = job_address(job) if drum is None else drum_address(job, drum)
    return top + ends.get(kind, "")
