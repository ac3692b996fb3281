"""The first page: what is on the bench, what waits, and how a job gets there."""

from __future__ import annotations

import math
from typing import Annotated

from fastapi import APIRouter, File, Query, UploadFile
from starlette.background import BackgroundTask
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.chores import Chore, Outcome, Share, Stopped
from counterhoop.bench.demonstration.invented import titles_in_sight
from counterhoop.bench.folders.first_page import OnTheBench, on_the_bench
from counterhoop.bench.folders.next_number import next_number
from counterhoop.bench.folders.open_folder import open_folder
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.body import Json
from counterhoop.web.given_form import GivenForm, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.shown_name import shown_name
from counterhoop.web.look.mine import mine_of
from counterhoop.web.look.say import capfirst
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)

A_PAGE = 40
MOST_SURVEY_BYTES = 2_000_000
MOST_FILES = 20
CALLED = ("reached", "wanted")
"""What a first call tells besides number and name, as the sheet of what was booked in has it."""
PUTTING = "The invented jobs are put on the bench, one after the other"
PUTTING_WAIT_S = 1.0
GROUPS = (
    ("on the bench", "On my bench"),
    ("waits for a yes", "Waits on a client"),
    ("to choose", "Waits for a scheme"),
    ("to survey", "To be surveyed"),
    ("handed over", "Handed over"),
)
"""States of jobs in the order of the page, each with its heading."""


@pages.get("/")
def first(
    request: Request, shop: GivenWorkshop,
    find: Annotated[str, Query(max_length=120)] = "",
    sheet: Annotated[int, Query(ge=1, le=10_000)] = 1,
) -> Response:  # fmt: skip
    """Show what is on the bench; once it is sent, all that comes after it is loaded."""
    answer = bench(request, shop, find=find, sheet=sheet)
    if request.app.state.grow is not None:
        answer.background = BackgroundTask(request.app.state.grow)
    return answer


def bench(
    request: Request, shop: Workshop, *, find: str = "", sheet: int = 1, wrong: str = ""
) -> Response:
    """Return the page; ``wrong`` is what a survey file was refused for."""
    every = on_the_bench(shop)
    found = [job for job in every if _has(job, find)]
    order = {state: place for place, (state, _) in enumerate(GROUPS)}
    found.sort(key=lambda job: order[job.state])
    sheets = max(1, math.ceil(len(found) / A_PAGE))
    sheet = min(sheet, sheets)
    here = found[(sheet - 1) * A_PAGE : sheet * A_PAGE]
    in_all = {state: sum(job.state == state for job in found) for state, _ in GROUPS}
    groups = [
        (heading, state, in_all[state], [job for job in here if job.state == state])
        for state, heading in GROUPS
    ]
    return page(
        request,
        "first.html",
        status=422 if wrong else 200,
        groups=[group for group in groups if group[3]],
        find=find.strip(),
        count=len(found),
        all_count=len(every),
        open_count=sum(job.state != "handed over" for job in every),
        sheet=sheet,
        sheets=sheets,
        wrong=wrong,
        invented=titles_in_sight(job.title for job in every),
        chore=_putting(shop),
    )


@pages.get("/jobs/new")
def new(request: Request, shop: GivenWorkshop) -> Response:
    """Ask what a first call tells, on the telephone too: nothing is measured yet."""
    return page(request, "new_job.html", typed={"number": next_number(shop)}, faults={})


@pages.post("/jobs")
def open_one(request: Request, shop: GivenWorkshop, pen: GivenPen, given: GivenForm) -> Response:
    """Open a folder with what the call told."""
    from counterhoop.web.forms import faults_in, read_form

    label = {"units": mine_of(request).units, **read_form("job", given)}
    told = {name: text_in(given, name) for name in CALLED}
    if faults := faults_in("job", label):
        typed = {name: text_in(given, name) for name in given}
        beside = {one.where: capfirst(_plainly(one)) for one in reversed(faults)}
        return page(request, "new_job.html", status=422, typed=typed, faults=beside)
    arrival: dict[str, Json] = {name: said for name, said in told.items() if said}
    job_id = open_folder(shop, job=label, arrival=arrival, by=bench_of(request))
    return RedirectResponse(f"/jobs/{job_id}", status_code=303)


def _plainly(fault: BadInput) -> str:
    return str(BadInput(fault.what, given=fault.given, wanted=fault.wanted, step=fault.step))


@pages.post("/jobs/taken-in")
def take_in_file(
    request: Request, shop: GivenWorkshop, pen: GivenPen,
    files: Annotated[list[UploadFile] | None, File()] = None,
) -> Response:  # fmt: skip
    """Open a folder with what a survey file says; its books may come with it."""
    chosen = [one for one in files or [] if one.filename][:MOST_FILES]
    read = {
        shown_name(one.filename or "", otherwise="survey.toml"): one.file.read(
            MOST_SURVEY_BYTES + 1
        )
        for one in chosen
    }
    try:
        job_id = _taken_in(shop, read, by=bench_of(request))
    except BadInput as fault:
        return bench(request, shop, wrong=str(fault))
    return RedirectResponse(f"/jobs/{job_id}", status_code=303)


def _taken_in(shop: Workshop, read: dict[str, bytes], *, by: str) -> str:
    from counterhoop.bench.folders.survey_file import take_in

    surveys = [name for name, content in read.items() if b"[drums" in content]
    if len(read) == 1:
        # Whatever it is, what is wrong with it is said of the file itself.
        surveys = [*read]
    if len(surveys) != 1:
        raise BadInput(
            "one survey file is wanted, and beside it the fittings books that it names",
            where="files", given=", ".join(read) or None,
        )  # fmt: skip

    def book(name: str) -> bytes:
        if name not in read:
            raise BadInput(
                "the survey names a fittings book that did not come with it", where="job.book",
                given=name, step="Choose both files together",
            )  # fmt: skip
        return read[name]

    return take_in(shop, read[surveys[0]], name=surveys[0], book_of=book, by=by)


@pages.post("/demonstration")
def demonstration(request: Request, shop: GivenWorkshop, pen: GivenPen) -> Response:
    """Put the invented jobs on the bench: this workshop's running numbers are not theirs."""
    by = bench_of(request)
    shop.chores.start(PUTTING, lambda share: _put(shop, share, by=by), now=shop.now, by=by)
    shop.chores.wait(PUTTING_WAIT_S)
    return RedirectResponse("/", status_code=303)


def _put(shop: Workshop, share: Share, *, by: str) -> Outcome:
    from counterhoop.bench.demonstration.whole_shop import put_demonstration

    try:
        put_demonstration(shop, by=by, bills=False, progress=lambda _says, done: share(done))
    except Stopped:
        # Between two jobs: each that is there is whole.
        return Outcome(says=("Stopped. The invented jobs that came before that are there.",))
    return Outcome(says=("The invented jobs are on the bench.",))


def _putting(shop: Workshop) -> Chore | None:
    """Return how far the invented jobs are, or what kept them from coming."""
    chore = shop.chores.state()
    if chore is None or chore.says != PUTTING or (chore.outcome and chore.outcome.sound):
        return None
    return chore


@pages.post("/demonstration/away")
def demonstration_away(request: Request, shop: GivenWorkshop, pen: GivenPen) -> Response:
    """Put them away, with their shelf and what the log says of them."""
    from counterhoop.bench.demonstration.whole_shop import put_demonstration_away

    put_demonstration_away(shop, by=bench_of(request))
    return RedirectResponse("/", status_code=303)


@pages.post("/shelf/worked/away")
def worked_away(request: Request, shop: GivenWorkshop, pen: GivenPen) -> Response:
    """Put the shelf of the worked job away."""
    from counterhoop.bench.demonstration.worked_shelf import put_demo_away

    put_demo_away(shop, by=bench_of(request))
    return RedirectResponse("/shelf", status_code=303)


def _has(job: OnTheBench, find: str) -> bool:
    words = find.casefold().split()
    text = " ".join((job.title, *job.drums)).casefold()
    return all(word in text for word in words)
