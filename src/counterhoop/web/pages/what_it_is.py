"""What a drum is: facts, each with who says so and how sure, and when they say it was made."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from counterhoop.bench.evidence.drum_features import asked_features, known_of
from counterhoop.bench.evidence.own_reference import reference_of
from counterhoop.bench.evidence.write_look import write_look
from counterhoop.bench.folders.album import photographs_of
from counterhoop.bench.folders.drum_state import state_of_drum, what_says
from counterhoop.bench.folders.folder import KeptDrum, KeptJob, kept_job
from counterhoop.bench.folders.kinds import FACTS, JOB, SURVEY
from counterhoop.bench.folders.open_folder import call_drum
from counterhoop.bench.folders.out_of_sight import put_drum_away
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.save import Conflict
from counterhoop.web.album_words import missing_says, of_drum, shown
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.drum_facts import HOW_SURE, facts_sheet
from counterhoop.web.folder_index import drum_address, folder_index, job_address
from counterhoop.web.given_form import GivenForm, number_in, pairs_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.plain_write import undo_sheet, write_sheet, written
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
DRUM = "/jobs/{job}/drums/{drum}"


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
        facts=written(shop, facts_sheet(shop, job, drum)),
        **dated_of(shop, job, drum),
        pictures=shown(of_drum(found, drum)),
        missing=missing_says(found, drum),
        called=name or drum.name,
        name_wrong=name_wrong,
        job_number=job.kept(JOB).number,
        away=drum.kept(SURVEY).document_id if drum.hidden else "",
    )


def dated_of(shop: Workshop, job: KeptJob, drum: KeptDrum) -> dict[str, Any]:
    """Return what a page needs to say when a drum was made."""
    from counterhoop.bench.evidence.dating import dating_of
    from counterhoop.web.dating_shown import shown_dating

    found, fault = None, ""
    try:
        found = dating_of(shop, job, drum)
    except BadInput as wrong:
        fault = str(wrong)
    return {
        "dated": shown_dating(found) if found else None,
        "dating_fault": fault,
        "families": reference_of(shop).families,
        "how_sure": HOW_SURE[1:],
    }


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
    kept = kept_job(shop, job)

    def answer() -> Response:
        now = kept_job(shop, job)
        own = now.drum(drum)
        sheet = facts_sheet(shop, now, own)
        return page(
            request, "facts_kept.html", written=written(shop, sheet),
            address=drum_address(now, own), job_address=job_address(now),
            **dated_of(shop, now, own),
        )  # fmt: skip

    sheet = facts_sheet(shop, kept, kept.drum(drum))
    return write_sheet(request, shop, sheet, given, answer=answer)


@pages.post(DRUM + "/facts/look")
def write_one(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Write down which form of one feature was seen."""
    kept = kept_job(shop, job)
    own, reference = kept.drum(drum), reference_of(shop)
    back = RedirectResponse(f"{drum_address(kept, own)}#dating", status_code=303)
    key, value = text_in(given, "feature"), text_in(given, "value")
    features = asked_features(reference, known_of(own, reference))
    asked = next((one for one in features if one.key == key), None)
    if asked is None or value not in dict(asked.choices):
        raise BadInput("the dated features have no such form", where=key, given=value or None)
    if theirs_kept(given) or not value:
        return back
    sure = text_in(given, "sure")
    done = write_look(
        shop, job, drum, key, value=value, sure=sure if sure in dict(HOW_SURE) else "",
        based_on=number_in(given, "based_on"), by=bench_of(request),
    )  # fmt: skip
    if isinstance(done, Conflict):
        return both_versions(
            request, done, kind=FACTS, action=request.url.path, values=pairs_in(given)
        )
    return back


@pages.post(DRUM + "/facts/undo")
def undo(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Go one step back."""
    kept = kept_job(shop, job)
    return undo_sheet(request, shop, facts_sheet(shop, kept, kept.drum(drum)), given)


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
