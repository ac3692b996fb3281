"""The parts of a drum: what came off it, ticked place by place; what it lacks; its spares bag."""

from __future__ import annotations

from collections.abc import Mapping

from fastapi import APIRouter
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.folders.history import before
from counterhoop.bench.folders.kinds import STRIPPED
from counterhoop.bench.parts.count_words import how_far
from counterhoop.bench.parts.goes_back import spares_of
from counterhoop.bench.parts.tick_parts import Counts, Line, chosen_lines, pressed_to, tick_parts
from counterhoop.bench.parts.wants_of_job import is_taken, put_by
from counterhoop.bench.shelf.whose import key_of
from counterhoop.errors import BadInput
from counterhoop.parts.ticked import Stage
from counterhoop.store.pointer import read_pointer
from counterhoop.store.save import Conflict
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.folder_index import drum_address, folder_index, job_address
from counterhoop.web.given_form import GivenForm, number_in, pairs_in, text_in
from counterhoop.web.go_back import go_back
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.parts_desk import PartsDesk, parts_desk
from counterhoop.web.parts_lines import FIELDS, LABELS, asked_of, by_place, by_sort
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
PARTS = "/jobs/{job}/drums/{drum}/parts"


@pages.get(PARTS)
def look(request: Request, shop: GivenWorkshop, job: str, drum: str, count: str = "") -> Response:
    """Show what came off a drum; ``count`` is the place that is counted piece by piece."""
    desk = parts_desk(shop, job)
    return _shown(request, desk, desk.job.drum(drum), count=count)


def _shown(
    request: Request, desk: PartsDesk, drum: KeptDrum, *, count: str = "",
    typed: dict[str, dict[Stage, str]] | None = None, fault: BadInput | None = None,
) -> Response:  # fmt: skip
    stripped, ticks = desk.stripped(drum), desk.ticks(drum)
    (lacks,) = desk.lacks([drum])
    address = desk.drum_address(drum)
    groups = by_place(stripped)
    opened = next((one for group in groups for one in group.places if one.name == count), None)
    return page(
        request, "parts_drum.html", status=422 if fault else 200,
        job=desk.job, drum=drum, address=address, of_job=desk.address,
        drum_address=drum_address(desk.job, drum),
        index=folder_index(desk.job, here=address, drum=drum),
        how_far=how_far(stripped.counted), stripped=stripped, sorts=by_sort(stripped),
        groups=groups, opened=opened,
        asked=[asked_of(o, (typed or {}).get(o.expected.sort.piece)) for o in opened.lines]
        if opened else [],
        fault=fault, lacks=lacks.wants,
        aside=[
            one for one in put_by(desk.shop, desk.job) if one.key == key_of(desk.job.id, drum.id)
        ],
        scheme=desk.scheme(drum), taken=is_taken(drum), working=desk.planned.working,
        spares=spares_of(stripped, desk.scheme(drum)),
        ticks=ticks, undo_to=before(ticks, desk.shop, nothing_first=True),
        history=f"{job_address(desk.job)}/history/{ticks.document_id}" if ticks.number else "",
    )  # fmt: skip


@pages.post(PARTS + "/tick")
def tick(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Tick all pieces of a place or of a sort with one press."""
    desk = parts_desk(shop, job)
    kept = desk.job.drum(drum)
    stage = _stage(text_in(given, "stage"))
    stripped = desk.stripped(kept)
    places = {str(place) for place in given.getlist("place")}
    lines = chosen_lines(stripped, places=places, piece=text_in(given, "piece"))
    ticks = {
        (one.expected.place, one.expected.sort.piece): counts
        for one in lines
        if (counts := pressed_to(one, stage))
    }
    return _ticked(request, desk, kept, given, ticks)


@pages.post(PARTS + "/count")
def count_place(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Write down what was counted at a place, piece by piece."""
    desk = parts_desk(shop, job)
    kept, place = desk.job.drum(drum), text_in(given, "place")
    pieces = [str(piece) for piece in given.getlist("piece")]
    typed = {
        piece: {
            stage: text_in(given, f"{name}-{number}")
            for stage, name in FIELDS.items()
            if f"{name}-{number}" in given
        }
        for number, piece in enumerate(pieces)
    }
    try:
        ticks = {(place, piece): _counts(place, piece, texts) for piece, texts in typed.items()}
        return _ticked(request, desk, kept, given, ticks)
    except BadInput as fault:
        return _shown(request, desk, kept, count=place, typed=typed, fault=fault)


@pages.post(PARTS + "/undo")
def undo(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Go one step back."""
    desk = parts_desk(shop, job)
    kept = desk.job.drum(drum)
    go_back(request, shop, desk.ticks(kept).document_id, given)
    return RedirectResponse(f"{desk.drum_address(kept)}#came-off", status_code=303)


def _ticked(
    request: Request, desk: PartsDesk, drum: KeptDrum, given: FormData, ticks: Mapping[Line, Counts]
) -> Response:
    at = text_in(given, "at")
    back = RedirectResponse(f"{desk.drum_address(drum)}#{at or 'came-off'}", status_code=303)
    if theirs_kept(given) or not ticks:
        return back
    done = tick_parts(
        desk.shop, desk.job.id, drum.id, stripped=desk.stripped(drum), ticks=ticks,
        based_on=number_in(given, "based_on"), by=bench_of(request),
    )  # fmt: skip
    if isinstance(done, Conflict):
        return both_versions(
            request, done, kind=STRIPPED, action=request.url.path, values=pairs_in(given),
            words_of=_words,
        )  # fmt: skip
    return back


def _words(pointer: str) -> str:
    _, *steps = read_pointer(pointer) if pointer else [""]
    labels = {stage.value: label for stage, label in LABELS.items()}
    return ", ".join(labels.get(step, step) for step in steps) or "the count"


def _stage(text: str) -> Stage:
    try:
        return Stage(text)
    except ValueError:
        raise BadInput("nothing that is ticked", where="parts", given=text) from None


def _counts(place: str, piece: str, texts: dict[Stage, str]) -> dict[Stage, int]:
    """Read the counts of one line; nothing at all takes its ticks back."""
    if not any(texts.values()):
        return {}
    counts = {}
    for stage, text in texts.items():
        if text and not (text.isdecimal() and len(text) < 5):
            raise BadInput(
                f"{LABELS[stage]}: how many?", where=f"{place}, {piece}", given=text,
                wanted="a whole number",
            )  # fmt: skip
        counts[stage] = int(text or 0)
    return counts
