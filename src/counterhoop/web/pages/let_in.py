"""Who is let in: every phone, computer and program, and the way in for one more of each."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Depends, Form
from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.errors import CannotDo
from counterhoop.web.given_form import GivenForm, text_in
from counterhoop.web.guard.link_words import link, square_drawn
from counterhoop.web.guard.pairing import let_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.shown_name import shown_name
from counterhoop.web.guard.stack import Settings, settings_of
from counterhoop.web.guard.visitor import visitor_of
from counterhoop.web.render import page
from counterhoop.web.workshop_index import workshop_index

pages = APIRouter(route_class=PageRoute)

NOT_ON_NETWORK = (
    "No phone can reach this program: it was started for this machine only. "
    "Stop it and start it again with --lan."
)


def settings_here(request: Request) -> Settings:
    """Return what the guard before this page knows."""
    settings = settings_of(request.scope)
    if settings is None:
        raise CannotDo("No guard stands before these pages, so there is no list of who is let in.")
    return settings


GivenSettings = Annotated[Settings, Depends(settings_here)]


def shown(
    request: Request, settings: Settings, *, phone_link: str = "", program: str = "",
    token: str = "", wrong: str = "",
) -> Response:  # fmt: skip
    """Return the sheet, with the link for a phone or a program's token, made just now."""
    visitor = visitor_of(request.scope)
    return page(
        request,
        "let_in.html",
        status=422 if wrong else 200,
        index=workshop_index("/let-in"),
        devices=settings.paired.listed(),
        own_number=visitor.device.number if visitor else 0,
        door=settings.door,
        certificate=settings.certificate,
        not_on_network="" if settings.door.on_network else NOT_ON_NETWORK,
        phone_link=phone_link,
        phone_square=Markup(square_drawn(phone_link)) if phone_link else "",
        program=program,
        token=token,
        wrong=wrong,
        address=settings.door.address(),
    )


@pages.get("/let-in")
def look(request: Request, settings: GivenSettings) -> Response:
    """Show who is let in."""
    return shown(request, settings)


@pages.post("/let-in/link")
def make_link(request: Request, pen: GivenPen, settings: GivenSettings) -> Response:
    """Make a link for a phone and show it, this once.

    It stands in the answer itself: a page to go to would have to hold the code in its address,
    which the browser keeps, or the program would have to hand it out twice.
    """
    if not settings.door.on_network:
        raise CannotDo(NOT_ON_NETWORK)
    token = settings.links.make(now=settings.now())
    address = link(settings.door, token=token, name=settings.door.names[0])
    return shown(request, settings, phone_link=address)


@pages.post("/let-in/program")
def let_program_in(
    request: Request, pen: GivenPen, settings: GivenSettings, given: GivenForm
) -> Response:
    """Let a program in and show its token, this once: only its hash is kept."""
    name = shown_name(text_in(given, "name"), otherwise="")
    if not name:
        return shown(
            request, settings, wrong="A name is wanted, so that it can be struck off later."
        )
    token = let_in(settings.paired, name=name, kind="program", now=settings.now())
    return shown(request, settings, program=name, token=token)


@pages.post("/let-in/strike-off")
def strike_off(pen: GivenPen, settings: GivenSettings, number: Annotated[int, Form()]) -> Response:
    """Take one off the list; it is out at once."""
    settings.paired.strike_off(number)
    return RedirectResponse("/let-in", status_code=303)
