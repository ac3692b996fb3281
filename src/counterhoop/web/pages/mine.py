"""What this browser chose: its answers come from the small switch at the foot of every page."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.look.mine import keep_mine, mine_of

pages = APIRouter(route_class=PageRoute)


def own_path(written: str) -> str:
    r"""Return an address to go back to when it is a path of ours, else the first page.

    Examples
    --------
    >>> own_path("/jobs/12"), own_path("//elsewhere.example"), own_path("/\\elsewhere.example")
    ('/jobs/12', '/', '/')
    """
    ours = written.startswith("/") and not written.startswith(("//", "/\\"))
    return written if ours and written.isprintable() else "/"


@pages.post("/mine")
def choose(
    request: Request,
    pen: GivenPen,
    units: Annotated[str, Form()] = "",
    light: Annotated[str, Form()] = "",
    back: Annotated[str, Form()] = "/",
) -> Response:
    """Change what is named and go back to where the person was."""
    answer = RedirectResponse(own_path(back), status_code=303)
    keep_mine(answer, mine_of(request).changed(units=units, light=light), request=request)
    return answer
