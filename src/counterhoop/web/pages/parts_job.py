"""The parts of a job: what it lacks, what the shelf has of it, what is set aside."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.parts.count_words import how_far
from counterhoop.bench.parts.wants_of_job import has_new, lacking, put_by
from counterhoop.bench.shelf.cards import move_piece
from counterhoop.bench.shelf.whose import parted
from counterhoop.errors import BadInput
from counterhoop.parts.movement import MovementKind
from counterhoop.web.folder_index import folder_index
from counterhoop.web.given_form import GivenForm, number_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.parts_desk import PartsDesk, parts_desk
from counterhoop.web.parts_offers import donors_for, offers_of
from counterhoop.web.parts_wanted import key_for, not_moved, wanted_face, wanted_lines
from counterhoop.web.plain_write import undo_sheet, write_sheet, written
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
JOB_PARTS = "/jobs/{job}/parts"
MOVES: Final[Mapping[str, MovementKind]] = {
    "set aside": "set aside", "put back": "put back", "used": "used",
}  # fmt: skip


@pages.get(JOB_PARTS)
def look(request: Request, shop: GivenWorkshop, job: str) -> Response:
    """Show what a job lacks, and what there is for it."""
    return _shown(request, parts_desk(shop, job))


def _shown(request: Request, desk: PartsDesk, *, refused: str = "") -> Response:
    drums = desk.lacks()
    found = lacking(desk.shop, desk.job, drums, stock=desk.stock)
    lines = wanted_lines(found)
    return page(
        request, "parts_job.html", status=409 if refused else 200, refused=refused,
        job=desk.job, address=desk.address,
        index=folder_index(desk.job, here=desk.address),
        face=wanted_face(found, drums), lines=lines, news=has_new(drums),
        drums=[
            (drum, desk.drum_address(drum), how_far(desk.stripped(drum).counted))
            for drum in desk.job.drums
        ],
        aside=put_by(desk.shop, desk.job), working=desk.planned.working,
        failed=desk.planned.failed,
        offers=written(desk.shop, offers_of(desk.shop, desk.job.id)),
        donors=donors_for(desk, found),
        opened=None, key_for=key_for,
    )  # fmt: skip


@pages.post(JOB_PARTS + "/move")
def move(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Set a piece aside for a drum of the job, put it back, or note that it was fitted."""
    kind, key, at = text_in(given, "kind"), text_in(given, "key"), text_in(given, "at")
    if kind not in MOVES or parted(key)[0] != job:
        raise BadInput("nothing that a job does with a piece", where="parts", given=kind or key)
    try:
        move_piece(
            shop, text_in(given, "piece"), MOVES[kind], count=number_in(given, "count"), job=key,
            mark=text_in(given, "mark"), by=bench_of(request),
        )  # fmt: skip
    except BadInput as fault:
        refused = not_moved(shop, text_in(given, "piece"), kind=MOVES[kind], key=key, fault=fault)
        return _shown(request, parts_desk(shop, job), refused=refused)
    return RedirectResponse(f"/jobs/{job}/parts#{at or 'wanted'}", status_code=303)


@pages.post(JOB_PARTS + "/offers")
def write_offers(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Write down what donors are on offer."""
    return write_sheet(request, shop, offers_of(shop, job), given)


@pages.post(JOB_PARTS + "/offers/undo")
def undo_offers(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Go one step back."""
    return undo_sheet(request, shop, offers_of(shop, job), given)
