"""What fits here: holes of a drum are chosen, and book and shelf held against them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import KeptDrum, KeptJob, drawer, kept_job
from counterhoop.bench.folders.read_so_far import read_so_far
from counterhoop.bench.folders.source_once import to_plan_once
from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.parts.fits_shelf import Offered, measured_pieces, offered
from counterhoop.bench.shelf.cards import move_piece
from counterhoop.bench.shelf.whose import client_of, key_of
from counterhoop.errors import BadInput
from counterhoop.papers.screen.play import to_screen
from counterhoop.scheme.phrases import listed
from counterhoop.web.folder_index import drum_address, folder_index
from counterhoop.web.given_form import GivenForm, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.place_desk import (
    ANYTHING,
    KINDS,
    TURNS,
    PlaceTyped,
    hole_groups,
    said,
    typed_in,
)
from counterhoop.web.plans import WAIT_S
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

if TYPE_CHECKING:
    from counterhoop.bench.long_work.parts_tasks import PlaceTold
    from counterhoop.bench.workshop import Workshop

pages = APIRouter(route_class=PageRoute)
PLACE: Final = "/jobs/{job}/drums/{drum}/parts/place"
FEW_NOT: Final = 5
"""So many of those that do not fit are said at once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FitLine:
    """One fitting on the page.

    Attributes
    ----------
    name, says : str
        What it is called, and what it hides.
    changes : tuple of str
        What has to be done first.
    why : str
        What to look at before it is promised.
    shelf : tuple of (str, str, str)
        Of each piece that is free: its key, its number, and where and how many.
    query : str
        The end of the address at which it is drawn.
    shown : bool
    """

    name: str
    says: str
    changes: tuple[str, ...]
    why: str
    shelf: tuple[tuple[str, str, str], ...]
    query: str
    shown: bool


@pages.get(PLACE)
def look(request: Request, shop: GivenWorkshop, job: str, drum: str) -> Response:
    """Show the holes to choose from, and what fits those that are chosen."""
    kept = kept_job(shop, job)
    return _shown(request, shop, kept, kept.drum(drum), typed_in(request.query_params))


@pages.post(PLACE + "/aside")
def put_aside(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Set a piece aside for the drum."""
    kept = kept_job(shop, job)
    of, typed = kept.drum(drum), typed_in(request.query_params)
    holes = listed([str(number) for number in typed.holes] or ["?"])
    try:
        move_piece(
            shop, text_in(given, "piece"), "set aside", count=1, job=key_of(kept.id, of.id),
            why=f"for holes {holes}", mark=text_in(given, "mark"), by=bench_of(request),
        )  # fmt: skip
    except BadInput as fault:
        return _shown(request, shop, kept, of, typed, missed=said(fault), status=409)
    return RedirectResponse(f"{drum_address(kept, of)}/parts#lacks", status_code=303)


def _shown(
    request: Request, shop: Workshop, job: KeptJob, drum: KeptDrum, typed: PlaceTyped, *,
    missed: str = "", status: int = 200,
) -> Response:  # fmt: skip
    held = drawer(shop)
    address = f"{drum_address(job, drum)}/parts/place"
    found = to_plan_once(shop, job, held=held)
    so_far = read_so_far(job, drum, shop=held)
    data: dict[str, Any] = {
        "job": job, "drum": drum, "address": address, "typed": typed, "missed": missed,
        "parts_address": f"{drum_address(job, drum)}/parts",
        "shell_address": f"{drum_address(job, drum)}/shell",
        "index": folder_index(job, here=f"{drum_address(job, drum)}/parts", drum=drum),
        "turns": TURNS, "kinds": [("", "what stood there"), (ANYTHING, "anything"),
                                  *((one.value, one.value) for one in KINDS)],
        "unread": False, "groups": (), "rows_open": False, "faults": {}, "working": None,
        "failed": None, "told": None,
    }  # fmt: skip
    if found.source is None or drum.id in found.faults or so_far.opened is None:
        return page(request, "parts_place.html", **{**data, "unread": True})
    groups = hole_groups(so_far.opened.job.drums[0].drum, typed)
    data["groups"] = groups
    data["rows_open"] = any(hole.on for one in groups if one.row for hole in one.holes)
    if not typed.holes:
        return page(request, "parts_place.html", status=status, **data)
    try:
        asked = typed.asked()
    except BadInput as fault:
        data["faults"] = {fault.where: said(fault)}
        return page(request, "parts_place.html", status=422, **data)
    measured = measured_pieces(shop, client=client_of(job))
    answer: Answer[PlaceTold] = shop.works.fits(
        found.source, drum=drum.name, asked=asked, pieces=measured
    )
    if isinstance(answer, Working):
        answer = shop.works.wait(answer.id, WAIT_S)
    if isinstance(answer, Working):
        data["working"] = answer
    elif isinstance(answer, Failed):
        data["failed"] = answer
        if isinstance(answer.fault, BadInput):
            data["faults"] = {"holes": said(answer.fault)}
            return page(request, "parts_place.html", status=422, **data)
    elif isinstance(answer, Done):
        data |= _told(shop, job, answer.value, typed, measured)
    return page(request, "parts_place.html", status=status, **data)


def _told(
    shop: Workshop, job: KeptJob, told: PlaceTold, typed: PlaceTyped, measured: Sequence[Any]
) -> dict[str, Any]:
    from counterhoop.parts.places.serves import How

    both = {
        how: offered(
            shop,
            [one for one in told.serves if one.how is how],
            client=client_of(job),
            measured=measured,
        )
        for how in (How.AS_IT_IS, How.AFTER_A_CHANGE)
    }
    every = [*both[How.AS_IT_IS], *both[How.AFTER_A_CHANGE]]
    drawn = next((one for one in every if one.serves.fitting.name == typed.show), None)
    drawn = drawn or (every[0] if every else None)
    lines = {how: [_line(one, told, typed, drawn) for one in found] for how, found in both.items()}
    wanted = told.on.place.kinds
    nots = [
        (one.fitting.name, one.why)
        for one in told.serves
        if one.how is How.NO and (not wanted or one.fitting.kind in wanted)
    ]
    return {
        "told": told,
        "as_it_is": lines[How.AS_IT_IS],
        "after": lines[How.AFTER_A_CHANGE],
        "nots": nots,
        "few": FEW_NOT,
        "off": listed([f"the {one}" for one in told.on.also_off] or [""]),
        "wanted": listed([one.value for one in wanted] or [""]) if len(wanted) < len(KINDS) else "",
        "drawn": next((one for found in lines.values() for one in found if one.shown), None),
        "picture": _picture(told, drawn) if drawn else "",
    }


def _line(one: Offered, told: PlaceTold, typed: PlaceTyped, drawn: Offered | None) -> FitLine:
    from counterhoop.parts.places.cover_words import hides_said

    serves = one.serves
    hides = ""
    if serves.pose is not None and serves.fitting.base is not None:
        hides = hides_said(serves.pose.laid(serves.fitting.base), told.on.place.marks)
    name = serves.fitting.name
    if name.startswith("number ") and serves.fitting.says:
        name = f"{name}, {serves.fitting.says}"
    return FitLine(
        name=name,
        says=hides,
        changes=serves.changes,
        why=serves.why,
        shelf=tuple(
            (
                lies.piece.id,
                lies.piece.number,
                f"{lies.free} free"
                + (f" in bin {lies.piece.bin}" if lies.piece.bin else "")
                + (f", {lies.piece.owner}'s own" if lies.piece.owner else ""),
            )
            for lies in one.lies
        ),
        query=typed.query(show=serves.fitting.name),
        shown=one is drawn,
    )


def _picture(told: PlaceTold, drawn: Offered) -> str:
    from counterhoop.papers.drawing.place_picture import place_drawing

    title = f"{drawn.serves.fitting.name} over the place"
    return to_screen(place_drawing(told.on.place, drawn.serves, title=title), ident="place")
