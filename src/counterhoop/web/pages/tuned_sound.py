"""Recordings of taps: listened to stroke by stroke, kept as a reading."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Annotated

from fastapi import APIRouter, Query
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.recordings import file_of, recording
from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.long_work.results import TapsHeard
from counterhoop.bench.long_work.source import JobSource
from counterhoop.store.enclosures.enclose import Enclosure
from counterhoop.web.folder_index import folder_index, job_address
from counterhoop.web.given_form import GivenForm, number_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.keep_reading import keep_reading, made_of
from counterhoop.web.kept_readings import heard_says
from counterhoop.web.pages.tuned import TUNED
from counterhoop.web.plans import WAIT_S
from counterhoop.web.render import page
from counterhoop.web.rim_shown import plots_of, strips
from counterhoop.web.stroke_lines import stroke_lines, title_of
from counterhoop.web.taps_form import (
    HEAD_CHOICES,
    MOST_STROKES,
    MUTED_CHOICES,
    SAID,
    STAGE_CHOICES,
    WAY_CHOICES,
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
Rods = Annotated[list[str] | None, Query(max_length=MOST_STROKES)]
Tick = Annotated[str, Query(max_length=3)]

KEEP_WAIT_S = 20.0
"""Whoever keeps a reading has seen it: it is worked out anew only after the program began anew."""
NOT_READ_YET = "Not kept yet: it is being listened to once more. Press again when it is there."


@pages.get(ONE)
def look(
    request: Request, shop: GivenWorkshop, job: str, drum: str, recording_id: str,
    rod: Rods = None, was_rod: Rods = None, follow: Tick = "",
    also_rod: Rods = None, was_also_rod: Rods = None, also_follow: Tick = "",
    count: Annotated[str, Query(max_length=2)] = "",
) -> Response:  # fmt: skip
    """Show what is heard in a recording: stroke by stroke, round the rim, and what to turn."""
    desk = tuned_desk(request, shop, job, drum)
    one = recording(shop, job, drum=desk.drum.id, recording_id=recording_id)
    asked = request.query_params
    number_of = int(count) if count.isdecimal() else 0

    def anew(*names: str) -> bool:
        """Another first rod or way puts all strokes in order again, whatever stood beside them."""
        was = [(asked.get(f"was_{name}"), asked.get(name, "")) for name in names]
        return any(before is not None and before.strip() != now.strip() for before, now in was)

    def tapped(rods: Sequence[str], was: Sequence[str], *, follow: str) -> tuple[str, ...]:
        back = asked.get("way") == "back"
        return followed(rods, was, count=number_of, back=back) if follow == "yes" else tuple(rods)

    taps = taps_form(
        asked,
        rods=() if anew("first", "way") else tapped(rod or (), was_rod or (), follow=follow),
        also_rods=() if anew("also_first", "way")
        else tapped(also_rod or (), was_also_rod or (), follow=also_follow),
    )  # fmt: skip
    if taps.also == one.id:
        taps = taps.alone
    return heard_page(request, desk, one, taps=taps.checked(two_heads=desk.two_heads))


def heard_page(
    request: Request, desk: TunedDesk, one: Enclosure, *, taps: TapsForm, status: int = 200,
    unkept: str = "",
) -> Response:  # fmt: skip
    """Return the page of a recording; ``unkept`` says why it was not kept as a reading."""
    also = second_of(desk, taps)
    answer = heard_in(desk, one, also=also, taps=taps, wait_s=WAIT_S)
    heard = answer.value.heard if isinstance(answer, Done) else None
    sound = answer.value.sound if isinstance(answer, Done) else None
    address = f"{desk.address}/recordings/{one.id}"
    place = heard.also[0] if heard and heard.also else None
    used = made_of(desk.kept.table, one.file.sha256)
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
        way_choices=WAY_CHOICES,
        working=answer if isinstance(answer, Working) else None,
        failed=answer if isinstance(answer, Failed) else None,
        heard=heard,
        strokes=stroke_lines(heard) if heard else (),
        also=also,
        place=place,
        also_strokes=stroke_lines(heard, place.strokes) if heard and place else (),
        others=[(lies.id, lies.name_given) for lies in desk.recordings if lies.id != one.id],
        asks_again=bool(heard and heard.wants_second_place),
        strips=strips([(title_of(taps), heard)], ident="rim", turns=True) if heard else (),
        says=heard_says(heard) if heard else "",
        plots=plots_of(sound) if sound else (),
        unkept=unkept,
        in_order=taps.in_order.query,
        again=f"{desk.address}{taps.alone.in_order.query}#listen",
        stays=stays(used) if used else "",
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
        {name: text_in(given, name) for name in SAID},
        rods=[str(value) for value in given.getlist("rod")],
        also_rods=[str(value) for value in given.getlist("also_rod")],
    ).checked(two_heads=desk.two_heads)
    if taps.muted_wrong:
        return heard_page(request, desk, one, taps=taps, status=422, unkept=taps.muted_wrong)
    also = second_of(desk, taps)
    answer = heard_in(desk, one, also=also, taps=taps, wait_s=KEEP_WAIT_S)
    if not isinstance(answer, Done):
        return heard_page(request, desk, one, taps=taps, status=409, unkept=NOT_READ_YET)
    heard = answer.value.heard
    if heard.refusal:
        return heard_page(request, desk, one, taps=taps, status=422, unkept=heard.refusal)
    keep_reading(
        shop, desk, heard, one=one, also=also, says=text_in(given, "says"), by=bench_of(request),
        based_on=number_in(given, "based_on"),
    )  # fmt: skip
    # The sheet that comes next shows it with the plan: it is there in a moment.
    settled(request, shop, job, drum)
    return RedirectResponse(f"{desk.address}#readings", status_code=303)


def second_of(desk: TunedDesk, taps: TapsForm) -> Enclosure | None:
    """Return the recording of the same taps from a second place of the phone; None without one."""
    if not taps.also:
        return None
    return recording(desk.shop, desk.job.id, drum=desk.drum.id, recording_id=taps.also)


def stays(used: Sequence[str]) -> str:
    """Return why a recording cannot be put away.

    Examples
    --------
    >>> stays(("2",))
    'Reading 2 was made of this recording, so it stays: take that reading out first.'
    """
    which = f"Reading {used[0]} was" if len(used) == 1 else f"Readings {', '.join(used)} were"
    those = "that reading" if len(used) == 1 else "those readings"
    return f"{which} made of this recording, so it stays: take {those} out first."


def heard_in(
    desk: TunedDesk, one: Enclosure, *, also: Enclosure | None, taps: TapsForm, wait_s: float
) -> Answer[TapsHeard]:
    """Return what is heard in a recording and a second one of the same taps, or how far that is."""
    told = taps.told
    if also is not None:
        file = str(file_of(desk.shop, also))
        told = replace(told, also=taps.also_told(file=file, name=also.name_given))
    source = desk.planned.source
    known = source is not None and desk.drum.id not in desk.planned.faults
    answer = desk.shop.works.listen(
        source if source is not None and known else JobSource(tables_json=b""),
        drum=desk.drum.name if known else "",
        file=str(file_of(desk.shop, one)),
        name=one.name_given,
        told=told,
    )
    return desk.shop.works.wait(answer.id, wait_s) if isinstance(answer, Working) else answer
