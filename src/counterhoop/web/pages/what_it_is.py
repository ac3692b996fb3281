"""What a drum is: plain facts for now, each with who says so and how sure."""

from __future__ import annotations

from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from counterhoop.bench.folders.album import photographs_of
from counterhoop.bench.folders.drum_state import state_of_drum
from counterhoop.bench.folders.folder import KeptDrum, KeptJob, kept_job
from counterhoop.bench.folders.kinds import FACTS, JOB, SURVEY
from counterhoop.bench.folders.open_folder import call_drum
from counterhoop.bench.folders.out_of_sight import put_drum_away
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.save import Conflict
from counterhoop.web.album_words import missing_says, of_drum, shown
from counterhoop.web.folder_index import drum_address, folder_index, job_address
from counterhoop.web.given_form import GivenForm, number_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.plain_sheet import Group, Part, Question
from counterhoop.web.plain_write import Sheet, undo_sheet, write_sheet, written
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
DRUM = "/jobs/{job}/drums/{drum}"

HOW_SURE: Final = (("", ""), ("seen", "seen"), ("told", "told"), ("guessed", "guessed"))


def _feature(name: str, label: str, seen: str = "What is seen") -> Group:
    return Group(
        name=name,
        label=label,
        of=(
            Question(name="says", label=seen),
            Question(name="sure", label="How sure", kind="choice", choices=HOW_SURE),
            Question(name="who", label="Who says so, or what shows it"),
        ),
    )


FEATURES: Final[tuple[Part, ...]] = (
    _feature("maker", "Maker", "Whose it is said to be"),
    _feature("badge", "Badge"),
    _feature("plies", "Plies and rings"),
    _feature("lug_casting", "Lug castings"),
    _feature("strainer", "Strainer"),
    _feature("vent", "Vent"),
    _feature("finish", "Finish"),
    _feature("stamps", "Stamps and labels"),
    _feature("serial", "Serial number"),
    _feature("history", "Its history", "What is known"),
)
"""Each was in use for a span of years; one that fits none of the others is a swapped part."""


@pages.get(DRUM)
def look(request: Request, shop: GivenWorkshop, job: str, drum: str) -> Response:
    """Show what a drum is."""
    kept = kept_job(shop, job)
    return shown_drum(request, shop, kept, kept.drum(drum))


def shown_drum(
    request: Request, shop: Workshop, job: KeptJob, drum: KeptDrum, *, name: str = "",
    name_wrong: str = "",
) -> Response:  # fmt: skip
    """Return the page, with what is wrong with a new name."""
    address = drum_address(job, drum)
    found = photographs_of(shop, job)
    return page(
        request,
        "what_it_is.html",
        status=422 if name_wrong else 200,
        job=job,
        job_address=job_address(job),
        drum=drum,
        address=address,
        index=folder_index(job, here=address, drum=drum),
        what=what_says(drum),
        state=state_of_drum(drum).says,
        facts=written(shop, facts_of(job.id, drum.id)),
        pictures=shown(of_drum(found, drum)),
        missing=missing_says(found, drum),
        called=name or drum.name,
        name_wrong=name_wrong,
        job_number=job.kept(JOB).number,
        away=drum.kept(SURVEY).document_id if drum.hidden else "",
    )


def facts_of(job: str, drum: str) -> Sheet:
    """Return the sheet of a drum's facts."""
    address = f"/jobs/{job}/drums/{drum}"
    return Sheet(
        ident="facts", job=job, drum=drum, kind=FACTS, parts=FEATURES, action=f"{address}/facts",
        back=f"{address}#facts",
    )  # fmt: skip


def what_says(drum: KeptDrum) -> str:
    """Return what the survey calls a drum: in words, or by its size and kind."""
    table = drum.kept(SURVEY).table
    said = table.get("says")
    if isinstance(said, str) and said.strip():
        return said.strip().rstrip(".")
    parts = [table.get("size"), table.get("kind")]
    return " ".join(part for part in parts if isinstance(part, str))


@pages.get(DRUM + "/small-picture")
def picture(request: Request, shop: GivenWorkshop, job: str, drum: str) -> Response:
    """Send the small drawing of a drum; nothing while it cannot be drawn."""
    from counterhoop.web.small_view import small_picture

    kept = kept_job(shop, job)
    return HTMLResponse(small_picture(shop, kept, kept.drum(drum)))


@pages.post(DRUM + "/facts")
def write(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Write facts down."""
    return write_sheet(request, shop, facts_of(job, drum), given)


@pages.post(DRUM + "/facts/undo")
def undo(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Go one step back."""
    return undo_sheet(request, shop, facts_of(job, drum), given)


@pages.post(DRUM + "/name")
def call(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Call a drum otherwise."""
    kept = kept_job(shop, job)
    own, name = kept.drum(drum), text_in(given, "name")
    try:
        done = call_drum(
            shop, job, drum, name=name, based_on=number_in(given, "based_on"),
            by=bench_of(request),
        )  # fmt: skip
    except BadInput as fault:
        wrong = str(BadInput(fault.what, given=fault.given, wanted=fault.wanted))
        return shown_drum(request, shop, kept, own, name=name, name_wrong=wrong)
    if isinstance(done, Conflict):
        raise CannotDo("Somebody wrote in this job just now: open the page again and look first.")
    return RedirectResponse(drum_address(kept, own), status_code=303)


@pages.post(DRUM + "/away")
def away(request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str) -> Response:
    """Put a drum out of sight."""
    kept = kept_job(shop, job)
    put_drum_away(shop, kept.drum(drum), by=bench_of(request))
    return RedirectResponse(f"{job_address(kept)}#drums", status_code=303)
