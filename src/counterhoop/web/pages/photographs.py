"""Photographs of a folder: put in, shown small and large, told what they show, put away."""

from __future__ import annotations

from functools import partial
from typing import Annotated

from fastapi import APIRouter, File, Form, Query, UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.album import (
    LONGEST_CAPTION,
    missing_views,
    photograph,
    photographs_of,
    tell_photographs,
    words_of,
)
from counterhoop.bench.folders.folder import KeptJob, kept_job
from counterhoop.bench.folders.kinds import PHOTOGRAPHS
from counterhoop.bench.folders.out_of_sight import put_away
from counterhoop.bench.folders.photographs import put_photograph_in
from counterhoop.bench.folders.views import VIEWS
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.body import Json
from counterhoop.store.hide import Thing
from counterhoop.store.save import Conflict
from counterhoop.web.album_words import IN_TURN, album_sheets, drum_choices, of_drum, view_choices
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.folder_index import folder_index, job_address
from counterhoop.web.given_form import GivenForm, number_in, pairs_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.shown_name import shown_name
from counterhoop.web.not_kept import why_not_kept
from counterhoop.web.photograph_sent import Size, sent_small, sent_whole
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
ALBUM = "/jobs/{job}/photographs"
ONE = ALBUM + "/{photograph_id}"

PIECE = 1 << 20
NO_PICTURE = (
    "this is no photograph that can be read, whatever its name says: JPEG, PNG, WebP, HEIC and "
    "AVIF can"
)


# --- looking --------------------------------------------------------------------------------------


@pages.get(ALBUM)
def look(
    request: Request, shop: GivenWorkshop, job: str,
    drum: Annotated[str, Query(max_length=40)] = "",
    after: Annotated[str, Query(max_length=3)] = "",
) -> Response:  # fmt: skip
    """Show all photographs, and which views are still missing."""
    return album(request, shop, kept_job(shop, job), drum=drum, after=after == "yes")


def album(
    request: Request, shop: Workshop, job: KeptJob, *, drum: str, view: str = IN_TURN,
    after: bool = False, kept: int = 0, refused: list[tuple[str, str]] | None = None,
    nothing: bool = False,
) -> Response:  # fmt: skip
    """Return the page, with what was refused of an upload."""
    found = photographs_of(shop, job)
    return page(
        request,
        "photographs.html",
        status=422 if refused or nothing else 200,
        job=job,
        job_address=job_address(job),
        index=folder_index(job, here=request.url.path),
        sheets=album_sheets(found, job),
        drum=drum,
        view=view,
        after=after,
        drum_choices=drum_choices(job),
        view_choices=view_choices(in_turn=True),
        kept=kept,
        refused=refused or [],
        nothing=nothing,
        bare=[one for one in job.drums if not of_drum(found, one)],
    )


@pages.get(ONE)
def look_at_one(request: Request, shop: GivenWorkshop, job: str, photograph_id: str) -> Response:
    """Show one photograph large."""
    kept = kept_job(shop, job)
    one = photograph(shop, kept, photograph_id)
    names = [each.id for each in photographs_of(shop, kept)]
    place = names.index(one.id) if one.id in names else -1
    return page(
        request,
        "photograph.html",
        job=kept,
        job_address=job_address(kept),
        index=folder_index(kept, here=request.url.path, drum=one.drum),
        one=one,
        address=request.url.path,
        earlier=names[place - 1] if place > 0 else "",
        later=names[place + 1] if 0 <= place < len(names) - 1 else "",
        based_on=kept.kept(PHOTOGRAPHS).number,
        drum_choices=drum_choices(kept),
        view_choices=view_choices(),
    )


@pages.get(ONE + "/{size}.jpg")
def picture(
    request: Request, shop: GivenWorkshop, job: str, photograph_id: str,
    size: Size,
) -> Response:  # fmt: skip
    """Send a photograph as a small JPEG."""
    return sent_small(
        request, shop, photograph(shop, kept_job(shop, job), photograph_id).lies, size=size
    )


@pages.get(ONE + "/original")
def original(shop: GivenWorkshop, job: str, photograph_id: str) -> Response:
    """Send the file as it came, but for the place where it was taken."""
    return sent_whole(shop, photograph(shop, kept_job(shop, job), photograph_id).lies)


# --- writing --------------------------------------------------------------------------------------


@pages.post(ALBUM)
def put_in(
    request: Request, shop: GivenWorkshop, pen: GivenPen, job: str,
    files: Annotated[list[UploadFile] | None, File()] = None,
    drum: Annotated[str, Form(max_length=40)] = "",
    view: Annotated[str, Form(max_length=40)] = "",
    after: Annotated[str, Form(max_length=3)] = "",
    says: Annotated[str, Form(max_length=LONGEST_CAPTION)] = "",
) -> Response:  # fmt: skip
    """Put photographs in; what is none is said, and the others of the same upload are kept."""
    kept = kept_job(shop, job)
    own = kept.drum(drum) if drum else None
    is_after = after == "yes"
    by = bench_of(request)
    missing = missing_views(photographs_of(shop, kept), own, after=is_after) if own else ()
    turn = iter([each.name for each in missing])
    told: dict[str, Json] = {}
    refused: list[tuple[str, str]] = []
    # A field in which nothing was chosen sends a file without a name.
    chosen = [one for one in files or [] if one.filename]
    for one in chosen:
        name = shown_name(one.filename or "", otherwise="photograph")
        try:
            made = put_photograph_in(
                shop, job, drum=drum, name=name, by=by,
                pieces=iter(partial(one.file.read, PIECE), b""),
            )  # fmt: skip
        except BadInput as fault:
            refused.append((name, why_not_kept(fault, other=NO_PICTURE)))
            continue
        except CannotDo as fault:
            # A disk that is full may have room for a smaller one.
            refused.append((name, str(fault)))
            continue
        seen = next(turn, "") if view == IN_TURN else known_view(view)
        told[made] = words_of(view=seen, drum=drum, after=is_after, says=says.strip())
    if told:
        try:
            tell_photographs(shop, job, told, based_on=kept.kept(PHOTOGRAPHS).number, by=by)
        except CannotDo as fault:
            refused.append(("What they show", str(fault)))
    if refused or not chosen:
        return album(
            request, shop, kept_job(shop, job), drum=drum, view=view, after=is_after,
            kept=len(told), refused=refused, nothing=not chosen,
        )  # fmt: skip
    place = f"drum-{drum}" if drum else "whole"
    return RedirectResponse(f"/jobs/{job}/photographs?drum={drum}#{place}", status_code=303)


@pages.post(ONE)
def tell(
    request: Request, shop: GivenWorkshop, pen: GivenPen, job: str, photograph_id: str,
    given: GivenForm,
) -> Response:  # fmt: skip
    """Write down what a photograph shows."""
    kept = kept_job(shop, job)
    one = photograph(shop, kept, photograph_id)
    if not theirs_kept(given):
        drum = text_in(given, "drum")
        words = words_of(
            view=known_view(text_in(given, "view")),
            drum=kept.drum(drum).id if drum else "",
            after=text_in(given, "after") == "yes",
            says=text_in(given, "says"),
        )
        done = tell_photographs(
            shop, job, {one.id: words}, based_on=number_in(given, "based_on"),
            by=bench_of(request),
        )  # fmt: skip
        if isinstance(done, Conflict):
            return both_versions(
                request, done, kind=PHOTOGRAPHS, action=request.url.path, values=pairs_in(given),
                words_of=lambda pointer: pointer.rpartition("/")[2],
            )  # fmt: skip
    return RedirectResponse(f"/jobs/{job}/photographs#photograph-{one.id}", status_code=303)


@pages.post(ONE + "/away")
def away(
    request: Request, shop: GivenWorkshop, pen: GivenPen, job: str, photograph_id: str
) -> Response:
    """Put a photograph out of sight."""
    one = photograph(shop, kept_job(shop, job), photograph_id)
    put_away(shop, thing=Thing.ENCLOSURE, thing_id=one.id, by=bench_of(request))
    return RedirectResponse(f"/jobs/{job}/photographs", status_code=303)


def known_view(name: str) -> str:
    """Return a view that there is, or none."""
    return name if any(view.name == name for view in VIEWS) else ""
