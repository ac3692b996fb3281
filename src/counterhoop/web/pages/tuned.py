"""A drum being tuned: what it is to sound like, taps recorded and heard, heads, hoop, turns."""

from __future__ import annotations

from typing import Annotated, Any, Final

from fastapi import APIRouter, Query
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.history import before
from counterhoop.bench.folders.kinds import TUNING
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.long_work.answers import Done, Failed, Working
from counterhoop.errors import BadInput
from counterhoop.store.save import Conflict
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.folder_index import folder_index, job_address
from counterhoop.web.forms import (
    THINGS,
    Form,
    faults_in,
    item_at,
    make_form,
    read_form,
    with_item,
    without_item,
)
from counterhoop.web.given_form import GivenForm, number_in, pairs_in, text_in
from counterhoop.web.go_back import go_back
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.item_words import item_words
from counterhoop.web.keep_reading import readings_in, take_reading_out
from counterhoop.web.kept_readings import side_by_side
from counterhoop.web.render import page
from counterhoop.web.rim_shown import strips
from counterhoop.web.taps_form import (
    HEAD_CHOICES,
    MUTED_CHOICES,
    STAGE_CHOICES,
    WAY_CHOICES,
    TapsForm,
    taps_form,
)
from counterhoop.web.tuned_desk import TunedDesk, settled, tuned_desk
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
TUNED = "/jobs/{job}/drums/{drum}/tuned"
FORM = "tuned-form"
NEW = "new"
LISTS: Final = ("turns", "heights")
Write = Annotated[str, Query(max_length=30)]
"""What is written just now: "heads", or a place of a list ("turns-0", "heights-new")."""


@pages.get(TUNED)
def look(request: Request, shop: GivenWorkshop, job: str, drum: str, write: Write = "") -> Response:
    """Show how a drum sounds, what it is to sound like, and what to do at its rods."""
    desk = tuned_desk(request, shop, job, drum)
    asked = dict(request.query_params)
    if "stage" not in asked and readings_in(desk.kept.table):
        # What was kept already was heard before: the next one comes after something was turned.
        asked["stage"] = "between"
    return shown(request, desk, taps=taps_form(asked), write=write)


def shown(
    request: Request, desk: TunedDesk, *, taps: TapsForm, write: str = "", status: int = 200
) -> Response:
    """Return the sheet, one of its forms open, the form for a recording filled in as given."""
    thing, at = written_place(write)
    readings = desk.readings
    kit = desk.kit
    told = kit.value if isinstance(kit, Done) else None
    return page(
        request,
        "tuned.html",
        status=status,
        job=desk.job,
        job_address=job_address(desk.job),
        drum=desk.drum,
        desk=desk,
        address=desk.address,
        index=folder_index(desk.job, here=desk.address, drum=desk.drum),
        taps=taps,
        head_choices=HEAD_CHOICES,
        muted_choices=MUTED_CHOICES,
        stage_choices=STAGE_CHOICES,
        way_choices=WAY_CHOICES,
        heads=item_words("heads", item_at("heads", desk.kept.table)),
        lists={name: [item_words(name, one) for one in desk.written(name)] for name in LISTS},
        readings=readings,
        strips=strips(side_by_side(readings), ident="kept"),
        pitches=told.pitches.drum(desk.drum.name) if told else None,
        second_head=told.second_head.get(desk.drum.name, ()) if told else (),
        kit_working=kit if isinstance(kit, Working) else None,
        kit_failed=kit if isinstance(kit, Failed) else None,
        thing=thing,
        at=NEW if at is None else at,
        form=form_of(desk, thing, at) if thing else None,
        based_on=desk.kept.number,
        undo_to=before(desk.kept, desk.shop),
        history=f"{job_address(desk.job)}/history/{desk.kept.document_id}",
    )


@pages.post(TUNED + "/written/{thing}/{at}")
def write_it(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, thing: str, at: str,
    given: GivenForm,
) -> Response:  # fmt: skip
    """Write down heads, turns or heights of the hoop, or take one of them out."""
    desk = tuned_desk(request, shop, job, drum, wait_s=0.0)
    named, place = written_place(f"{thing}-{at}")
    if not named:
        raise BadInput("no such thing is written of a drum's tuning", where="thing", given=thing)
    if theirs_kept(given):
        return RedirectResponse(f"{desk.address}#{named}", status_code=303)
    taken = bool(text_in(given, "take_out"))
    item = read_form(named, given)
    change = change_of(
        desk, named, place, item, based_on=number_in(given, "based_on"), taken=taken
    )  # fmt: skip
    saved = write_thing(shop, job, change, by=bench_of(request))
    if isinstance(saved, Conflict):
        return both_versions(
            request, saved, kind=TUNING, action=request.url.path, values=pairs_in(given)
        )
    settled(request, shop, job, drum)
    wrong = not taken and bool(item) and faults_in(named, item)
    if not wrong:
        return RedirectResponse(f"{desk.address}#{named}", status_code=303)
    if named in LISTS and place is None:
        held = item_list(saved.revision.body, named)
        place = len(held) - 1 - held[::-1].index(item)
    where = named if named not in LISTS else f"{named}-{place}"
    return RedirectResponse(f"{desk.address}?write={where}#{FORM}", status_code=303)


@pages.post(TUNED + "/readings/{number}/out")
def take_out(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, number: str,
    given: GivenForm,
) -> Response:  # fmt: skip
    """Take a reading out; the earlier versions keep it."""
    desk = tuned_desk(request, shop, job, drum, wait_s=0.0)
    based_on = number_in(given, "based_on")
    take_reading_out(shop, desk, number, by=bench_of(request), based_on=based_on)
    settled(request, shop, job, drum)
    return RedirectResponse(f"{desk.address}#readings", status_code=303)


@pages.post(TUNED + "/undo")
def undo(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Go one step back in what is written of heads and tuning."""
    desk = tuned_desk(request, shop, job, drum, wait_s=0.0)
    go_back(request, shop, desk.kept.document_id, given)
    return RedirectResponse(desk.address, status_code=303)


def written_place(write: str) -> tuple[str, int | None]:
    """Return what is written, and its place in its list; None for a new one or where there is one.

    Examples
    --------
    >>> written_place("turns-2"), written_place("heights-new"), written_place("heads")
    (('turns', 2), ('heights', None), ('heads', None))
    >>> written_place("ring-1")
    ('', None)
    """
    thing, _, at = write.partition("-")
    if thing not in ("heads", *LISTS):
        return "", None
    number = at.isdecimal() and len(at) < 4 and thing in LISTS
    return thing, int(at) if number else None


def form_of(desk: TunedDesk, thing: str, at: int | None) -> Form:
    """Return the form of what is written, an empty one for a new one of a list."""
    table = desk.kept.table
    item = item_at(thing, table, at) if at is not None or thing not in LISTS else {}
    faults = faults_in(thing, item) if item else ()
    return make_form(thing, item, ident=FORM, units=desk.mine.units, faults=faults)


def change_of(
    desk: TunedDesk, thing: str, at: int | None, item: Any, *, based_on: int, taken: bool
) -> ThingChange:
    """Return the change of one thing; a new one of a list goes behind the others."""

    def same(seen: Any, newest: Any) -> bool:
        if thing not in LISTS:
            return bool(item_at(thing, seen) == item_at(thing, newest))
        if at is None:
            return True
        # One that was put in or taken out before it moves it: then both are shown.
        return item_list(seen, thing)[: at + 1] == item_list(newest, thing)[: at + 1]

    def put(seen: Any, base: Any) -> Any:
        body = base if isinstance(base, dict) else {}
        if taken:
            return without_item(thing, body, at)
        if thing not in LISTS or at is not None:
            return with_item(thing, body, item, at)
        held = item_list(body, thing)
        # Sent twice, because the answer to the first was lost on its way.
        return body if item in held[len(item_list(seen, thing)) :] else with_item(
            thing, body, item, len(held)
        )  # fmt: skip

    return ThingChange(kind=TUNING, drum=desk.drum.id, based_on=based_on, same=same, put=put)


def item_list(body: Any, thing: str) -> list[Any]:
    """Return what is written of a list."""
    held = body.get(THINGS[thing].place) if isinstance(body, dict) else None
    return held if isinstance(held, list) else []
