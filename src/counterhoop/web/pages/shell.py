"""The survey of a drum, typed on the shell laid flat."""

from __future__ import annotations

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.history import settle
from counterhoop.bench.folders.kinds import SURVEY, WISH
from counterhoop.bench.folders.write_thing import write_thing
from counterhoop.errors import CannotDo
from counterhoop.store.save import Conflict
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.forms import item_at, read_form
from counterhoop.web.given_form import GivenForm, number_in, pairs_in, text_in
from counterhoop.web.go_back import go_back
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.new_lug import choose_lug
from counterhoop.web.render import is_part, page
from counterhoop.web.shell_desk import around, desk_of, everything
from counterhoop.web.shell_lines import NEW, ident_of, read_at, thing_of
from counterhoop.web.shell_page import unknown_lugs
from counterhoop.web.shell_write import answer, ask_why, change_of, place_of_new
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
SHELL = "/jobs/{job}/drums/{drum}/shell"


# --- looking ------------------------------------------------------------------------------------


@pages.get(SHELL)
def look(request: Request, shop: GivenWorkshop, job: str, drum: str, open: str = "") -> Response:
    """Show the shell laid flat with all that is written of it."""
    desk = desk_of(request, shop, job, drum)
    return page(request, "shell.html", **everything(desk, open=open))


@pages.get(SHELL + "/{slug}")
def open_form(
    request: Request, shop: GivenWorkshop, job: str, drum: str, slug: str, at: str = ""
) -> Response:
    """Open one form; without a script, on the whole sheet."""
    desk = desk_of(request, shop, job, drum)
    thing = thing_of(slug)
    ident = ident_of(thing, read_at(thing, at))
    if not is_part(request):
        return RedirectResponse(f"{desk.address}?open={ident}#{ident}", status_code=303)
    entry = desk.entry(open=ident)
    return page(
        request,
        "shell_form.html",
        line=entry.line(thing, read_at(thing, at)),
        unknown_lugs=unknown_lugs(entry),
        **around(desk),
    )


# --- writing ------------------------------------------------------------------------------------


@pages.post(SHELL + "/undo")
def undo(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Go one step back."""
    desk = desk_of(request, shop, job, drum)
    kept = desk.drum.kept(WISH if text_in(given, "kind") == WISH else SURVEY)
    go_back(request, shop, kept.document_id, given)
    return RedirectResponse(desk.address, status_code=303)


@pages.post(SHELL + "/settle")
def settle_survey(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Say that this is how the drum was found."""
    desk = desk_of(request, shop, job, drum)
    kept = desk.drum.kept(SURVEY)
    if kept.number != number_in(given, "based_on"):
        raise CannotDo("Somebody saved this drum since you looked: open the page and look again.")
    settle(shop, kept)
    return RedirectResponse(f"{desk.address}#as-found", status_code=303)


@pages.post(SHELL + "/lug")
def write_lug(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Write a lug that no book has into the workshop's own, and choose it for the row."""
    desk = desk_of(request, shop, job, drum)
    at, by = number_in(given, "row"), bench_of(request)
    row = item_at("row", desk.drum.kept(SURVEY).table, at)
    name = choose_lug(shop, row, given, drum=desk.drum.name, by=by)
    if row.get("fitting") != name:
        change = change_of(
            desk, "row", at, {**row, "fitting": name}, based_on=desk.drum.kept(SURVEY).number,
            why=f"its lug was written into the fittings book as {name}",
        )  # fmt: skip
        done = write_thing(shop, job, change, by=by)
        if isinstance(done, Conflict):
            raise CannotDo("The lug is in the book; somebody changed the row: choose it there.")
    return RedirectResponse(f"{desk.address}?open=row-{at}", status_code=303)


@pages.post(SHELL + "/{slug}")
def write(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, slug: str,
    given: GivenForm,
) -> Response:  # fmt: skip
    """Write one thing down, whole or half."""
    desk = desk_of(request, shop, job, drum)
    thing = thing_of(slug)
    at = read_at(thing, text_in(given, "at"))
    if theirs_kept(given):
        return RedirectResponse(desk.address, status_code=303)
    taken, done = bool(text_in(given, "take_out")), bool(text_in(given, "done"))
    item = {} if taken else read_form(thing, given)
    if at == NEW and not item:
        return answer(request, desk, thing, at, done=done)
    change = change_of(
        desk, thing, at, item, based_on=number_in(given, "based_on"), why=text_in(given, "why"),
        taken=taken, by=bench_of(request),
    )  # fmt: skip
    if desk.drum.kept(change.kind).as_found is not None and not change.why:
        asked = ask_why(request, desk, change, given)
        if asked is not None:
            return asked
    saved = write_thing(shop, job, change, by=bench_of(request))
    if isinstance(saved, Conflict):
        return both_versions(
            request, saved, kind=change.kind, action=request.url.path, values=pairs_in(given)
        )
    if at == NEW:
        at = place_of_new(thing, item, saved)
    desk = desk_of(request, shop, job, drum)
    # The form of a new thing keeps its name on the page while one goes on typing.
    new = text_in(given, "form_on_page") == ident_of(thing, NEW) or given.get("at") == NEW
    return answer(request, desk, thing, at, done=done or taken, was_new=new)
