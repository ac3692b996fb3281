"""The schemes of a drum: compared, one taken, its rows moved by hand, the client's yes."""

from __future__ import annotations

from contextlib import suppress

from fastapi import APIRouter
from starlette.background import BackgroundTask
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.kinds import CHOICE
from counterhoop.bench.move_row import row_moved
from counterhoop.bench.parts.set_aside import (
    OVERTAKEN,
    Overtaken,
    ToTake,
    choose_and_set_aside,
    set_aside,
)
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.choice import RowMoved
from counterhoop.store.save import Conflict
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.given_form import GivenForm, number_in, pairs_in, text_in
from counterhoop.web.go_back import go_back
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.plans import plan_for
from counterhoop.web.render import is_part, page
from counterhoop.web.scheme_desk import SchemeDesk, scheme_desk
from counterhoop.web.scheme_page import Missed, YesTyped, moved_data, sign_data, whole_data
from counterhoop.web.scheme_shelf import seen_in
from counterhoop.web.shell_moves import RowMove, read_move
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop
from counterhoop.web.yes_given import ANOTHER_YES, YES_S, hold_fast, write_yes

pages = APIRouter(route_class=PageRoute)
SCHEMES = "/jobs/{job}/drums/{drum}/schemes"
WORDS = {"": "the choice", "/scheme": "the scheme that is taken", "/title": "its heading"}


# --- looking ------------------------------------------------------------------------------------


@pages.get(SCHEMES)
def look(request: Request, shop: GivenWorkshop, job: str, drum: str, whole: int = 0) -> Response:
    """Show all schemes, or how far they are."""
    desk = scheme_desk(request, shop, job, drum)
    return _shown(request, desk, whole=whole)


@pages.get(SCHEMES + "/sign")
def to_sign(
    request: Request, shop: GivenWorkshop, job: str, drum: str, scheme: int = 0
) -> Response:
    """Show the sheet that the client reads and signs at the table."""
    desk = scheme_desk(request, shop, job, drum)
    planned = desk.planned()
    if planned.plan is None or planned.source is None:
        return RedirectResponse(desk.address, status_code=303)
    data = sign_data(desk, planned.plan, number=scheme, plan_key=planned.source.key)
    return page(request, "schemes_sign.html", **data)


def _shown(
    request: Request, desk: SchemeDesk, *, whole: int = 0, typed: YesTyped | None = None,
    missed: Missed | None = None, status: int = 200,
) -> Response:  # fmt: skip
    planned = desk.planned()
    data = whole_data(request, desk, planned, whole=whole, typed=typed, missed=missed)
    return page(request, "schemes.html", status=status, **data)


# --- taking one ---------------------------------------------------------------------------------


@pages.post(SCHEMES + "/take")
def take(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Take a scheme as it was worked out, or leave the drum to the choice over the kit."""
    desk = scheme_desk(request, shop, job, drum)
    if theirs_kept(given):
        return RedirectResponse(desk.address, status_code=303)
    code, title = text_in(given, "scheme"), text_in(given, "title")
    wanted = ToTake(
        code=code, title=title, moved=[], based_on=number_in(given, "based_on"),
        parts=desk.parts_of(code, title), seen=seen_in(text_in(given, "seen")),
    )  # fmt: skip
    done = choose_and_set_aside(shop, desk.job, desk.drum, wanted, by=bench_of(request))
    if isinstance(done, Conflict):
        return _both(request, done, pairs_in(given))
    if isinstance(done, Overtaken):
        return _shown(request, desk, status=409, missed=Missed(taking=wanted, says=done.says))
    return RedirectResponse(f"{desk.address}#what", status_code=303)


@pages.post(SCHEMES + "/aside")
def put_aside(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Set aside what lies on the shelf for the scheme that is taken; by hand from then on."""
    desk = scheme_desk(request, shop, job, drum)
    scheme = desk.need_plan(wait_s=YES_S).drum(desk.drum.name).chosen
    if scheme is None or scheme.code != text_in(given, "code"):
        raise CannotDo(OVERTAKEN)
    hold_fast(desk, scheme, by=bench_of(request))
    return RedirectResponse(f"{desk.address}#shelf", status_code=303)


@pages.post(SCHEMES + "/undo")
def undo(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Go one step back; before the first step nothing was taken."""
    desk = scheme_desk(request, shop, job, drum)
    go_back(request, shop, desk.choice.document_id, given)
    _in_step(scheme_desk(request, shop, job, drum), by=bench_of(request))
    return RedirectResponse(f"{desk.address}#what", status_code=303)


def _in_step(desk: SchemeDesk, *, by: str) -> None:
    """Set aside again what is asked for by the choice that was gone back to."""
    parts = desk.parts_of(desk.code, str(desk.choice.table.get("title") or ""))
    if parts is not None:
        # Whoever took something in between has set its pieces aside.
        with suppress(CannotDo):
            set_aside(desk.shop, desk.job, desk.drum, parts=parts, by=by)


def _both(request: Request, conflict: Conflict, values: list[tuple[str, str]]) -> Response:
    action = request.url.path + (f"?{request.url.query}" if request.url.query else "")
    return both_versions(
        request, conflict, kind=CHOICE, action=action, values=values,
        words_of=lambda pointer: WORDS.get(pointer, "rows moved by hand"),
    )  # fmt: skip


# --- moving a row -------------------------------------------------------------------------------


@pages.post(SCHEMES + "/move")
def move(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm,
    scheme: str, title: str = "",
) -> Response:  # fmt: skip
    """Put a row somewhere else: tried while it is dragged, written down when it is let go."""
    asked = read_move(given)
    desk = scheme_desk(request, shop, job, drum)
    if theirs_kept(given):
        return RedirectResponse(desk.address, status_code=303)
    stale = asked.based_on != str(desk.choice.number)
    if stale and is_part(request):
        raise CannotDo(OVERTAKEN)
    shown = _put(desk, asked, code=scheme, title=title)
    if not asked.settled:
        return page(request, "schemes_moved.html", **moved_data(request, desk, shown, asked))
    moves = [one for one in desk.moves_of(scheme) if one.row.casefold() != asked.row.casefold()]
    moves.append(RowMoved(row=asked.row, right_mm=asked.right_mm, down_mm=asked.down_mm))
    wanted = ToTake(
        code=scheme, title=title, moved=desk.moved_json(tuple(moves)),
        based_on=int(asked.based_on or 0), parts=desk.parts_of(scheme, title), seen={},
    )  # fmt: skip
    done = choose_and_set_aside(shop, desk.job, desk.drum, wanted, by=bench_of(request))
    if isinstance(done, Conflict):
        return _both(request, done, pairs_in(given))
    if not is_part(request):
        return RedirectResponse(f"{desk.address}#taken", status_code=303)
    desk = scheme_desk(request, shop, job, drum)
    answer = page(request, "schemes_moved.html", **moved_data(request, desk, shown, asked))
    # Whoever loads the page again finds the plan of it under way or there.
    answer.background = BackgroundTask(_begin_plan, shop, job)
    return answer


def _put(desk: SchemeDesk, asked: RowMove, *, code: str, title: str) -> Scheme:
    """Return the scheme with the row where it is asked for."""
    held = desk.row_in_hand(code=code, title=title, row=asked.row)
    if asked.right_mm or asked.down_mm:
        return held.at(right_mm=asked.right_mm, down_mm=asked.down_mm)
    return row_moved(
        held.plan, drum=desk.drum.name, scheme_code=code, title=title, moves=held.hand.moves
    )


def _begin_plan(shop: Workshop, job: str) -> None:
    plan_for(shop, kept_job(shop, job), wait_s=0.0)


# --- the client's yes ---------------------------------------------------------------------------


@pages.post(SCHEMES + "/yes")
def say_yes(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Write down who said yes to the permanent changes of what is taken, when and how."""
    desk = scheme_desk(request, shop, job, drum)
    typed = write_yes(desk, given, by=bench_of(request))
    if typed is None:
        return RedirectResponse(f"{desk.address}#yes", status_code=303)
    if typed.fault is ANOTHER_YES:
        now = scheme_desk(request, shop, job, drum)
        return _shown(request, now, typed=typed, status=409)
    return _shown(request, desk, typed=typed, status=422)
