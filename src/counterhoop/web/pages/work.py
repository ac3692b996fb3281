"""How far long work is, a way to stop it, and a way to begin it again: for all pages."""

from __future__ import annotations

from collections.abc import AsyncIterator
from typing import Annotated

from fastapi import APIRouter, Form
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response, StreamingResponse

from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.pages.mine import own_path
from counterhoop.web.render import page
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
WORK = "/work/{work}"
Back = Annotated[str, Form()]


@pages.get(WORK + "/events")
async def events(request: Request, shop: GivenWorkshop, work: str) -> Response:
    """Tell how far it is until there is an answer; then the page loads itself again."""

    async def told() -> AsyncIterator[str]:
        async for says, share in shop.works.events(work):
            part = page(request, "work_line.html", says=says, share=share)
            line = " ".join(bytes(part.body).decode().split())
            yield f"data: {line}\n\n"
        yield "event: done\ndata: done\n\n"

    return StreamingResponse(told(), media_type="text/event-stream")


@pages.post(WORK + "/stop")
def stop(pen: GivenPen, shop: GivenWorkshop, work: str, back: Back = "/") -> Response:
    """Stop it for good, and go back to the page that waits for it."""
    shop.works.stop(work)
    return RedirectResponse(own_path(back), status_code=303)


@pages.post(WORK + "/again")
def again(pen: GivenPen, shop: GivenWorkshop, work: str, back: Back = "/") -> Response:
    """Begin it again, and go back."""
    shop.works.again(work)
    return RedirectResponse(own_path(back), status_code=303)
