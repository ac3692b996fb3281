"""Recordings of taps: put in, listened to stroke by stroke, kept as a reading."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Annotated

from fastapi import APIRouter, File, Form, Header, UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.recordings import file_of, put_recording_in, recording
from counterhoop.errors import BadInput, CannotDo
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.ranged import ranged
from counterhoop.web.guard.served_upload import upload_headers
from counterhoop.web.guard.shown_name import shown_name
from counterhoop.web.pages.tuned import TUNED, shown
from counterhoop.web.taps_form import taps_form
from counterhoop.web.tuned_desk import tuned_desk
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
RECORDINGS = TUNED + "/recordings"
ONE = RECORDINGS + "/{recording_id}"
PIECE = 1 << 20
Short = Annotated[str, Form(max_length=40)]
Asked = Annotated[str, Header(alias="range", max_length=200)]

NO_SOUND = (
    "this is no recording that can be read, whatever its name says: WAV, FLAC, Ogg, Opus, MP3, M4A"
    " and the sound of a film can"
)
NOTHING_CHOSEN = "no recording was chosen: record here, or choose a file"


@pages.post(RECORDINGS)
def put_in(
    request: Request, shop: GivenWorkshop, pen: GivenPen, job: str, drum: str,
    file: Annotated[UploadFile | None, File()] = None,
    head: Short = "", stage: Short = "", muted: Short = "", first: Short = "", phone: Short = "",
) -> Response:  # fmt: skip
    """Put a recording in, and go on to what is heard in it."""
    desk = tuned_desk(request, shop, job, drum)
    taps = taps_form(
        {"head": head, "stage": stage, "muted": muted, "first": first, "phone": phone}
    ).checked()
    refused, made = "", ""
    if file is None or not file.filename:
        refused = NOTHING_CHOSEN
    else:
        name = shown_name(file.filename, otherwise="recording")
        try:
            made = put_recording_in(
                shop, job, drum=desk.drum.id, name=name, by=bench_of(request),
                pieces=iter(partial(file.file.read, PIECE), b""),
            )  # fmt: skip
        except BadInput as fault:
            refused = f"{name}: {why_not(fault)}"
        except CannotDo as fault:
            refused = str(fault)
    if refused:
        return shown(request, desk, taps=replace(taps, refused=refused), status=422)
    # A wrong number is mended there: the recording need not be sent twice.
    return RedirectResponse(
        f"{desk.address}/recordings/{made}{taps.query}#strokes", status_code=303
    )


@pages.get(ONE + "/sound")
def sound(
    request: Request, shop: GivenWorkshop, job: str, drum: str, recording_id: str, asked: Asked = ""
) -> Response:
    """Send the recording as it came."""
    desk = tuned_desk(request, shop, job, drum, wait_s=0.0)
    one = recording(shop, job, drum=desk.drum.id, recording_id=recording_id)
    headers = upload_headers(kind=one.file.media_type, name=one.name_given)
    return ranged(file_of(shop, one).read_bytes(), asked=asked, headers=headers)


def why_not(fault: BadInput) -> str:
    """Return why a file was not kept, without the store's words for it.

    Examples
    --------
    >>> why_not(BadInput("too large to keep", where="file", wanted="at most 50 MB"))
    'too large to keep: wanted at most 50 MB'
    """
    if fault.what in OTHER_FILES:
        return NO_SOUND
    return str(BadInput(fault.what, wanted=fault.wanted))


OTHER_FILES = ("neither a photograph nor a sound that can be kept", "this is no recording")
