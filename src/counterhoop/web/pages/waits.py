"""What is in hand, what waits and for whom, what is promised: for the first page, and by itself."""

from __future__ import annotations

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from counterhoop.web.guard.pen import PageRoute
from counterhoop.web.render import is_part, page
from counterhoop.web.waits_shown import waits_data
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)


@pages.get("/waits")
def look(request: Request, shop: GivenWorkshop) -> Response:
    """Tell of the bench; while its plan is worked out, what is known without it."""
    name = "waits_part.html" if is_part(request) else "waits.html"
    return page(request, name, **waits_data(shop))
