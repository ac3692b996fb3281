"""Recordings of taps: put in, the same taps from a second place of the phone, put away."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Annotated

from fastapi import APIRouter, File, Form, Header, UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.out_of_sight import put_away
from counterhoop.bench.folders.recordings import file_of, put_recording_in, recording
from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.hide import Thing
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.ranged import ranged
from counterhoop.web.guard.served_upload import upload_headers
from counterhoop.web.guard.shown_name import shown_name
from counterhoop.web.keep_reading import made_of
from counterhoop.web.not_kept import why_not_kept
from counterhoop.web.pages.tuned import shown
from counterhoop.web.pages.tuned_sound import ONE, RECORDINGS, Rods, heard_page, stays
from counterhoop.web.taps_form import taps_form
from counterhoop.web.tuned_desk import TunedDesk, tuned_desk
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
PIECE = 1 << 20
Short = Annotated[str, Form(max_length=40)]
Asked = Annotated[str, Header(alias="range", max_length=200)]

NO_SOUND = "this is no recording: choose a sound file or a film"
NOTHING_CHOSEN = "no recording was chosen: record here, or choose a file"
NO_SECOND_CHOSEN = "no second recording was chosen: record here, or choose a file"
THE_SAME = "this is the first recording once more: tap round again from the second place"
CHOOSE_AGAIN = "not kept yet: choose the recording once more with the answer below"


@pages.post(RECORDINGS)
def put_in(
    request: Request, shop: GivenWorkshop, pen: GivenPen, job: str, drum: str,
    file: Annotated[UploadFile | None, File()] = None,
    head: Short = "", stage: Short = "", muted: Short = "", first: Short = "", way: Short = "",
    phone: Short = "",
) -> Response:  # fmt: skip
    """Put a recording in, and go on to what is heard in it."""
    desk = tuned_desk(request, shop, job, drum)
    taps = taps_form(
        {"head": head, "stage": stage, "muted": muted, "first": first, "way": way, "phone": phone}
    ).checked(two_heads=desk.two_heads)
    refused, made = "", ""
    if file is None or not file.filename:
        refused = NOTHING_CHOSEN
    elif taps.muted_wrong:
        refused = CHOOSE_AGAIN
    else:
        made, refused = kept_or_refused(desk, file, by=bench_of(request))
    if refused:
        return shown(request, desk, taps=replace(taps, refused=refused), status=422)
    # A wrong number is mended there: the recording need not be sent twice.
    return RedirectResponse(
        f"{desk.address}/recordings/{made}{taps.query}#strokes", status_code=303
    )


@pages.post(ONE + "/second")
def put_second_in(
    request: Request, shop: GivenWorkshop, pen: GivenPen, job: str, drum: str, recording_id: str,
    rod: Rods = None,
    file: Annotated[UploadFile | None, File()] = None,
    also: Short = "", also_first: Short = "", also_phone: Short = "",
) -> Response:  # fmt: skip
    """Take the same taps from a second place of the phone to a recording; the address has all else.

    They come as a file, or lie there already.
    """
    desk = tuned_desk(request, shop, job, drum)
    one = recording(shop, job, drum=desk.drum.id, recording_id=recording_id)
    told = {"also": "", "also_first": also_first, "also_phone": also_phone}
    taps = taps_form({**request.query_params, **told}, rods=rod or ())
    refused = ""
    if file is not None and file.filename:
        also, refused = kept_or_refused(desk, file, by=bench_of(request))
    elif not also:
        refused = NO_SECOND_CHOSEN
    if also == one.id:
        also, refused = "", THE_SAME
    taps = replace(taps, also=also, also_refused=refused).checked(two_heads=desk.two_heads)
    if refused:
        return heard_page(request, desk, one, taps=taps, status=422)
    return RedirectResponse(
        f"{desk.address}/recordings/{one.id}{taps.query}#strokes", status_code=303
    )


@pages.post(ONE + "/away")
def away(
    request: Request, shop: GivenWorkshop, pen: GivenPen, job: str, drum: str, recording_id: str
) -> Response:
    """Put a recording out of sight, unless a kept reading was made of it."""
    desk = tuned_desk(request, shop, job, drum, wait_s=0.0)
    one = recording(shop, job, drum=desk.drum.id, recording_id=recording_id)
    if used := made_of(desk.kept.table, one.file.sha256):
        raise CannotDo(stays(used))
    put_away(shop, thing=Thing.ENCLOSURE, thing_id=one.id, by=bench_of(request))
    return RedirectResponse(f"{desk.address}#listen", status_code=303)


@pages.get(ONE + "/sound")
def sound(
    request: Request, shop: GivenWorkshop, job: str, drum: str, recording_id: str, asked: Asked = ""
) -> Response:
    """Send the recording as it came."""
    desk = tuned_desk(request, shop, job, drum, wait_s=0.0)
    one = recording(shop, job, drum=desk.drum.id, recording_id=recording_id)
    headers = upload_headers(kind=one.file.media_type, name=one.name_given)
    return ranged(file_of(shop, one).read_bytes(), asked=asked, headers=headers)


def kept_or_refused(desk: TunedDesk, file: UploadFile, *, by: str) -> tuple[str, str]:
    """Return the name for programs under which a recording is kept, or why it is not."""
    name = shown_name(file.filename or "", otherwise="recording")
    try:
        made = put_recording_in(
            desk.shop, desk.job.id, drum=desk.drum.id, name=name, by=by,
            pieces=iter(partial(file.file.read, PIECE), b""),
        )  # fmt: skip
    except BadInput as fault:
        return "", f"not kept, {name}: {why_not_kept(fault, other=NO_SOUND)}"
    except CannotDo as fault:
        return "", str(fault)
    return made, ""
