"""What was put away, and the way back."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.out_of_sight import PutAway, take_out_again, what_is_away
from counterhoop.bench.shelf.out_of_sight import pieces_away
from counterhoop.errors import BadInput
from counterhoop.store.hide import Thing
from counterhoop.web.given_form import GivenForm, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.render import page
from counterhoop.web.shelf_words import line_of as line_of_piece
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_index import workshop_index
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
PUT_AWAY = "/workshop/put-away"


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One thing that is out of sight."""

    says: str
    href: str
    at: dt.datetime
    by: str
    thing: str
    thing_id: str


@pages.get(PUT_AWAY)
def look(request: Request, shop: GivenWorkshop) -> Response:
    """Show what is out of sight."""
    pieces, all_pieces = pieces_away(shop)
    return page(
        request, "put_away.html", index=workshop_index(PUT_AWAY),
        things=[line_of(one) for one in what_is_away(shop)],
        pieces=[(line_of_piece(one.kept), one.hidden) for one in pieces], all_pieces=all_pieces,
    )  # fmt: skip


@pages.post(PUT_AWAY)
def take_out(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Bring a thing back as it was, and open the folder that it lies in."""
    named, thing_id = text_in(given, "thing"), text_in(given, "thing_id")
    for one in what_is_away(shop):
        if (one.thing.value, one.thing_id) == (named, thing_id):
            take_out_again(shop, thing=one.thing, thing_id=thing_id, by=bench_of(request))
            return RedirectResponse(address_of(one) or PUT_AWAY, status_code=303)
    raise BadInput(
        "it is not put away", where="thing", given=named or None,
        step="It may have been taken out in another window",
    )  # fmt: skip


def line_of(one: PutAway) -> Line:
    """Return a thing as the page lists it."""
    return Line(
        says=one.says, href=address_of(one), at=one.hidden_at, by=one.hidden_by,
        thing=one.thing.value, thing_id=one.thing_id,
    )  # fmt: skip


def address_of(one: PutAway) -> str:
    """Return where a thing lies; nothing for the workshop's own."""
    if not one.job_id:
        return ""
    if one.drum:
        return f"/jobs/{one.job_id}/drums/{one.drum}/tuned/recordings/{one.thing_id}"
    end = f"/photographs/{one.thing_id}" if one.thing is Thing.ENCLOSURE else ""
    return f"/jobs/{one.job_id}{end}"
