"""When the workshop is open, and what it has to glue and dry with."""

from __future__ import annotations

from contextlib import suppress
from typing import Final

from fastapi import APIRouter
from starlette.background import BackgroundTask
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import OPEN_HOURS
from counterhoop.bench.promise.hours_open import write_open_hours
from counterhoop.bench.promise.shop_plan import shop_plan
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.save import Conflict
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.given_form import GivenForm, number_in, pairs_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.hours_desk import HoursDesk, hours_desk, table_of, typed_in
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_index import around_kept, workshop_index
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
HOURS: Final = "/workshop/hours"
WORDS: Final = {"off": "days off", "extra": "days with hours of their own", "clamps": "clamps",
                "drying": "places to dry", "room": "the room", "week": "the week"}  # fmt: skip


@pages.get(HOURS)
def look(request: Request, shop: GivenWorkshop) -> Response:
    """Show when the workshop is open."""
    kept = drawer(shop).get(OPEN_HOURS, Kept())
    return shown(request, shop, kept, hours_desk(kept))


@pages.post(HOURS)
def write(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Write the hours down; the bench is planned anew with them."""
    if theirs_kept(given):
        return RedirectResponse(HOURS, status_code=303)
    typed, based_on = typed_in(given), number_in(given, "based_on")
    try:
        done = write_open_hours(shop, table_of(typed), based_on=based_on, by=bench_of(request))
    except BadInput as fault:
        kept = drawer(shop).get(OPEN_HOURS, Kept())
        desk = hours_desk(kept, typed=typed, fault=fault, based_on=based_on)
        return shown(request, shop, kept, desk, status=422)
    if isinstance(done, Conflict):
        return both_versions(
            request, done, kind=OPEN_HOURS, action=HOURS, values=pairs_in(given),
            words_of=_place_says,
        )  # fmt: skip
    # Whoever looks at a date next finds the new plan under way or there.
    return RedirectResponse(HOURS, status_code=303, background=BackgroundTask(_begin_plan, shop))


def shown(
    request: Request, shop: Workshop, kept: Kept, desk: HoursDesk, *, status: int = 200
) -> Response:
    """Return the sheet."""
    return page(
        request, "open_hours.html", status=status, desk=desk, index=workshop_index(HOURS),
        **around_kept(shop, kept),
    )  # fmt: skip


def _begin_plan(shop: Workshop) -> None:
    # That the hours do not see the end of the work is said where a date is asked for.
    with suppress(BadInput):
        shop_plan(shop)


def _place_says(pointer: str) -> str:
    first, *rest = pointer.split("/")[1:] or [""]
    if first == "week" and rest:
        return rest[0]
    return ", ".join([WORDS.get(first, "open hours"), *rest])
