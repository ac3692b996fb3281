"""The date of a job: the day to promise, what was promised, what is on its way to it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from fastapi import APIRouter
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import KeptJob, kept_job
from counterhoop.bench.folders.kinds import PROMISE
from counterhoop.bench.promise.promise_of import promise_it
from counterhoop.bench.promise.promises import take_promise_back, write_arrivals, write_weight
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.save import Conflict, Saved
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.date_desk import DateTyped, date_desk
from counterhoop.web.folder_index import folder_index, job_address
from counterhoop.web.given_form import GivenForm, number_in, pairs_in, text_in
from counterhoop.web.go_back import go_back
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
DATE: Final = "/jobs/{job}/date"
PROMISE_FIELDS, WEIGHT_FIELDS, COMES_FIELDS = ("day", "to"), ("weight",), ("day", "sure", "what")
WORDS: Final = {"promised": "what was promised", "weight": "how much it matters",
                "arrivals": "what is on its way"}  # fmt: skip
Write = Callable[[KeptJob], Saved | Conflict]


@pages.get(DATE)
def look(request: Request, shop: GivenWorkshop, job: str) -> Response:
    """Show the date of a job."""
    return shown(request, shop, job)


@pages.post(DATE + "/promise")
def promise(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Write down that a day was promised, with the share that it has just now."""

    def write(kept: KeptJob) -> Saved | Conflict:
        return promise_it(
            shop, kept, day=text_in(given, "day"), to=text_in(given, "to"),
            based_on=number_in(given, "based_on"), by=bench_of(request),
        )  # fmt: skip

    return written(request, shop, job, given, write, form="promise", fields=PROMISE_FIELDS)


@pages.post(DATE + "/back")
def take_back(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Write down that the day is promised no longer."""

    def write(kept: KeptJob) -> Saved | Conflict:
        return take_promise_back(
            shop, kept, based_on=number_in(given, "based_on"), by=bench_of(request)
        )

    return written(request, shop, job, given, write, form="promise", fields=PROMISE_FIELDS)


@pages.post(DATE + "/weight")
def weigh(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Write down how much the job matters."""

    def write(kept: KeptJob) -> Saved | Conflict:
        return write_weight(
            shop, kept, weight=text_in(given, "weight"), based_on=number_in(given, "based_on"),
            by=bench_of(request),
        )  # fmt: skip

    return written(request, shop, job, given, write, form="weight", fields=WEIGHT_FIELDS)


@pages.post(DATE + "/comes")
def comes(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Write down when things come that the job waits for."""

    def write(kept: KeptJob) -> Saved | Conflict:
        return write_arrivals(
            shop, kept, what=_ticked(given), day=text_in(given, "day"),
            sure=text_in(given, "sure") == "yes", based_on=number_in(given, "based_on"),
            by=bench_of(request),
        )  # fmt: skip

    return written(
        request, shop, job, given, write, form="comes", fields=COMES_FIELDS, at="waits-for"
    )


@pages.post(DATE + "/undo")
def undo(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Go one step back."""
    kept = kept_job(shop, job)
    go_back(request, shop, kept.kept(PROMISE).document_id, given)
    return RedirectResponse(back_to(kept, at="promised"), status_code=303)


def written(
    request: Request, shop: Workshop, job: str, given: FormData, write: Write, *, form: str,
    fields: tuple[str, ...], at: str = "promised",
) -> Response:  # fmt: skip
    """Keep what a form sent and go back; what cannot be read is said at its field."""
    kept = kept_job(shop, job)
    if theirs_kept(given):
        return RedirectResponse(back_to(kept, at=at), status_code=303)
    try:
        done = write(kept)
    except BadInput as fault:
        values = {name: text_in(given, name) for name in fields}
        typed = DateTyped(form=form, values=values, fault=fault, ticked=_ticked(given))
        return shown(request, shop, job, typed=typed)
    if isinstance(done, Conflict):
        return both_versions(
            request, done, kind=PROMISE, action=request.url.path, values=pairs_in(given),
            words_of=_place_says,
        )  # fmt: skip
    return RedirectResponse(back_to(kept, at=at), status_code=303)


def shown(
    request: Request, shop: Workshop, job: str, *, typed: DateTyped | None = None
) -> Response:
    """Return the page; ``typed`` is what could not be kept."""
    desk = date_desk(request, shop, kept_job(shop, job), typed=typed)
    return page(
        request, "date.html", status=422 if typed else 200, date=desk,
        index=folder_index(desk.job, here=f"{job_address(desk.job)}/price"),
    )  # fmt: skip


def back_to(job: KeptJob, *, at: str) -> str:
    """Return where one goes on after a save: the page of price and date."""
    return f"{job_address(job)}/price#{at}"


def _ticked(given: FormData) -> tuple[str, ...]:
    return tuple(text for one in given.getlist("what") if isinstance(one, str) and (text := one))


def _place_says(pointer: str) -> str:
    first, *rest = pointer.split("/")[1:] or [""]
    number = f", line {int(rest[0]) + 1}" if rest and rest[0].isdigit() else ""
    return WORDS.get(first, "the date") + number
