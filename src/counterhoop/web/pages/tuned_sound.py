"""Recordings of taps: put in, listened to stroke by stroke, kept as a reading."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Annotated

from fastapi import APIRouter, File, Form, Header, Query, UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.recordings import file_of, put_recording_in, recording
from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.long_work.results import TapsHeard
from counterhoop.bench.long_work.source import JobSource
from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.enclosures.enclose import Enclosure
from counterhoop.web.folder_index import folder_index, job_address
from counterhoop.web.given_form import GivenForm, number_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.ranged import ranged
from counterhoop.web.guard.served_upload import upload_headers
from counterhoop.web.guard.shown_name import shown_name
from counterhoop.web.keep_reading import keep_reading
from counterhoop.web.kept_readings import heard_says
from counterhoop.web.pages.tuned import TUNED, shown
from counterhoop.web.plans import WAIT_S
from counterhoop.web.render import page
from counterhoop.web.rim_shown import plots_of, strips
from counterhoop.web.stroke_lines import stroke_lines, title_of
from counterhoop.web.taps_form import (
    HEAD_CHOICES,
    MOST_STROKES,
    MUTED_CHOICES,
    STAGE_CHOICES,
    TapsForm,
    followed,
    taps_form,
)
from counterhoop.web.tuned_desk import TunedDesk, settled, tuned_desk
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
RECORDINGS = TUNED + "/recordings"
ONE = RECORDINGS + "/{recording_id}"
PIECE = 1 << 20
Short = Annotated[str, Form(max_length=40)]
Rods = Annotated[list[str] | None, Query(max_length=MOST_STROKES)]
Asked = Annotated[str, Header(alias="range", max_length=200)]

NO_SOUND = (
    "this is no recording that can be read, whatever its name says: WAV, FLAC, Ogg, Opus, MP3, M4A"
    " and the sound of a film can"
)
KEEP_WAIT_S = 20.0
"""Whoever keeps a reading has seen it: it is worked out anew only after the program began anew."""
NOT_READ_YET = "Not kept yet: it is being listened to once more. Press again when it is there."
NOTHING_CHOSEN = "no recording was chosen: record here, or choose a file"
CHOOSE_AGAIN = "not kept yet: choose the recording once more with the answer below"


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
    ).checked(two_heads=desk.two_heads)
    refused, made = "", ""
    if file is None or not file.filename:
        refused = NOTHING_CHOSEN
    elif taps.muted_wrong:
        refused = CHOOSE_AGAIN
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


@pages.get(ONE)
def look(
    request: Request, shop: GivenWorkshop, job: str, drum: str, recording_id: str,
    rod: Rods = None, was_rod: Rods = None, follow: Annotated[str, Query(max_length=3)] = "",
    count: Annotated[str, Query(max_length=2)] = "",
) -> Response:  # fmt: skip
    """Show what is heard in a recording: stroke by stroke, round the rim, and what to turn."""
    desk = tuned_desk(request, shop, job, drum)
    one = recording(shop, job, drum=desk.drum.id, recording_id=recording_id)
    asked = request.query_params
    # Another first rod puts all strokes in order again, whatever stood beside them.
    anew = "was_first" in asked and asked["was_first"].strip() != asked.get("first", "").strip()
    rods = () if anew else tuple(rod or ())
    if follow == "yes" and count.isdecimal():
        rods = followed(rods, was_rod or (), count=int(count))
    taps = taps_form(asked, rods=rods).checked(two_heads=desk.two_heads)
    return heard_page(request, desk, one, taps=taps)


def heard_page(
    request: Request, desk: TunedDesk, one: Enclosure, *, taps: TapsForm, status: int = 200,
    unkept: str = "",
) -> Response:  # fmt: skip
    """Return the page of a recording; ``unkept`` says why it was not kept as a reading."""
    answer = heard_in(desk, one, taps=taps, wait_s=WAIT_S)
    heard = answer.value.heard if isinstance(answer, Done) else None
    sound = answer.value.sound if isinstance(answer, Done) else None
    address = f"{desk.address}/recordings/{one.id}"
    return page(
        request,
        "tuned_sound.html",
        status=status,
        job=desk.job,
        job_address=job_address(desk.job),
        drum=desk.drum,
        desk=desk,
        address=desk.address,
        one=one,
        here_address=address,
        index=folder_index(desk.job, here=desk.address, drum=desk.drum),
        taps=taps,
        head_choices=HEAD_CHOICES,
        muted_choices=MUTED_CHOICES,
        stage_choices=STAGE_CHOICES,
        working=answer if isinstance(answer, Working) else None,
        failed=answer if isinstance(answer, Failed) else None,
        heard=heard,
        strokes=stroke_lines(heard) if heard else (),
        strips=strips([(title_of(taps), heard)], ident="rim", turns=True) if heard else (),
        says=heard_says(heard) if heard else "",
        plots=plots_of(sound) if sound else (),
        unkept=unkept,
        in_order=replace(taps, rods=()).query,
        again=f"{desk.address}{replace(taps, rods=()).query}#listen",
        based_on=desk.kept.number,
    )


@pages.post(ONE + "/keep")
def keep(
    request: Request, shop: GivenWorkshop, pen: GivenPen, job: str, drum: str, recording_id: str,
    given: GivenForm,
) -> Response:  # fmt: skip
    """Keep what was heard as a reading of the drum."""
    desk = tuned_desk(request, shop, job, drum)
    one = recording(shop, job, drum=desk.drum.id, recording_id=recording_id)
    taps = taps_form(
        {name: text_in(given, name) for name in ("head", "stage", "muted", "first", "phone")},
        rods=[str(value) for value in given.getlist("rod")],
    ).checked(two_heads=desk.two_heads)
    if taps.muted_wrong:
        return heard_page(request, desk, one, taps=taps, status=422, unkept=taps.muted_wrong)
    answer = heard_in(desk, one, taps=taps, wait_s=KEEP_WAIT_S)
    if not isinstance(answer, Done):
        return heard_page(request, desk, one, taps=taps, status=409, unkept=NOT_READ_YET)
    heard = answer.value.heard
    if heard.refusal:
        return heard_page(request, desk, one, taps=taps, status=422, unkept=heard.refusal)
    keep_reading(
        shop, desk, heard, one=one, says=text_in(given, "says"), by=bench_of(request),
        based_on=number_in(given, "based_on"),
    )  # fmt: skip
    # The sheet that comes next shows it with the plan: it is there in a moment.
    settled(request, shop, job, drum)
    return RedirectResponse(f"{desk.address}#readings", status_code=303)


def heard_in(
    desk: TunedDesk, one: Enclosure, *, taps: TapsForm, wait_s: float
) -> Answer[TapsHeard]:
    """Return what is heard in a recording, or how far that is."""
    source = desk.planned.source
    known = source is not None and desk.drum.id not in desk.planned.faults
    answer = desk.shop.works.listen(
        source if source is not None and known else JobSource(tables_json=b""),
        drum=desk.drum.name if known else "",
        file=str(file_of(desk.shop, one)),
        name=one.name_given,
        told=taps.told,
    )
    return desk.shop.works.wait(answer.id, wait_s) if isinstance(answer, Working) else answer


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
