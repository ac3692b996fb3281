"""Today's list: picked up, put down, done, photographed, typed after, put right."""

from __future__ import annotations

from functools import partial
from typing import Annotated
from urllib.parse import urlencode

from fastapi import APIRouter, File, Form, Query, UploadFile
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.album import tell_photographs, words_of
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.kinds import PHOTOGRAPHS
from counterhoop.bench.folders.photographs import put_photograph_in
from counterhoop.bench.folders.views import IN_WORK
from counterhoop.bench.today.after import LineTyped, read_count, say_it_stands, write_after
from counterhoop.bench.today.hands import Down, lay_down, never_picked_up, take_in_hand
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.papers.cautions import DEFER
from counterhoop.web.answered_once import FIELD
from counterhoop.web.given_form import GivenForm, number_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.shown_name import shown_name
from counterhoop.web.look.say import capfirst
from counterhoop.web.not_kept import why_not_kept
from counterhoop.web.pages.photographs import NO_PICTURE, PIECE
from counterhoop.web.place_desk import said as said_plain
from counterhoop.web.render import page
from counterhoop.web.today_desk import today_desk
from counterhoop.web.today_said import said_of
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
TODAY = "/today"
MOST_FILES = 20


@pages.get(TODAY)
def look(
    request: Request, shop: GivenWorkshop,
    line: Annotated[int, Query(ge=0)] = 0, down: Annotated[int, Query(ge=0)] = 0,
    kept: Annotated[int, Query(ge=0, le=MOST_FILES)] = 0,
) -> Response:  # fmt: skip
    """Show what is to be done now; ``line`` and ``down`` name lines that were just written."""
    return _shown(request, shop, said=said_of(shop, line=line, down=down, photographs=kept))


def _shown(
    request: Request, shop: Workshop, *, said: tuple[str, ...] = (), wrong: str = "",
    form: str = "", fault: BadInput | None = None, typed: dict[str, str] | None = None,
    status: int = 200,
) -> Response:  # fmt: skip
    """Return the page; ``form`` is the one that ``fault`` is about, with what was typed in it."""
    desk = today_desk(shop)
    # Beside its field where that is on the page, else, and where it lies far down, at its head.
    if fault and form not in [f"down-{one.entry}" for one in desk.held]:
        wrong = capfirst(f"{said_plain(fault)}.")
    faults = {fault.where: capfirst(said_plain(fault))} if fault else {}
    return page(
        request, "today.html", status=status, desk=desk, said=said, wrong=wrong,
        faults=faults, form=form, typed=typed or {}, defer=DEFER,
    )  # fmt: skip


@pages.post(TODAY + "/pick-up")
def pick_up(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Pick work up; what was in hand is put down, and that is said."""
    job, drum = _whose(given)
    try:
        taken = take_in_hand(
            shop, job=job, drum=drum, operation=text_in(given, "operation"),
            by=bench_of(request), mark=text_in(given, FIELD),
        )  # fmt: skip
    except BadInput as fault:
        return _refused(request, shop, given, form="other", fault=fault)
    down = taken.put_down.entry if taken.put_down else 0
    return _back(place="in-hand", line=taken.working.entry, down=down)


@pages.post(TODAY + "/put-down")
def put_down(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Put down what is in hand: done, or to go on another time."""
    entry, mark = number_in(given, "entry"), text_in(given, FIELD)
    try:
        count = text_in(given, "count")
        down = Down(
            count=read_count(count) if count else None,
            done=text_in(given, "deed") == "done",
            nothing_more=text_in(given, "nothing_more") == "yes",
            note=text_in(given, "note"),
        )
        if text_in(given, "deed") == "mistake":
            never_picked_up(shop, entry=entry, by=bench_of(request), mark=mark)
        else:
            lay_down(shop, entry=entry, down=down, by=bench_of(request), mark=mark)
    except BadInput as fault:
        return _refused(request, shop, given, form=f"down-{entry}", fault=fault)
    return _back(place="said", line=entry)


@pages.post(TODAY + "/asked")
def answered(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Let a time stand that was asked about, or correct how many were done in it."""
    entry, likely = number_in(given, "entry"), number_in(given, "likely")
    say_it_stands(
        shop, entry, seen=number_in(given, "seen"), by=bench_of(request),
        count=likely if text_in(given, "answer") == "no" and likely else None,
        mark=text_in(given, FIELD),
    )  # fmt: skip
    return _back(place="said", line=entry)


@pages.post(TODAY + "/after")
def typed_after(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Write down work that nobody picked up."""
    job, drum = _whose(given)
    names = ("operation", "day", "begun", "took", "count", "note")
    typed = LineTyped(job=job, drum=drum, **{name: text_in(given, name) for name in names})
    try:
        line = write_after(shop, typed, by=bench_of(request), mark=text_in(given, FIELD))
    except BadInput as fault:
        return _refused(request, shop, given, form="after", fault=fault)
    return _back(place="said", line=line.entry)


@pages.post(TODAY + "/photograph")
def photograph(
    request: Request, shop: GivenWorkshop, pen: GivenPen,
    files: Annotated[list[UploadFile] | None, File()] = None,
    job: Annotated[str, Form(max_length=40)] = "",
    drum: Annotated[str, Form(max_length=40)] = "",
    operation: Annotated[str, Form(max_length=80)] = "",
) -> Response:  # fmt: skip
    """Put photographs of work in hand into its job, with the drum and what was done."""
    kept = kept_job(shop, job)
    own, by = kept.drum(drum), bench_of(request)
    told, refused = {}, []
    for one in [one for one in files or [] if one.filename][:MOST_FILES]:
        name = shown_name(one.filename or "", otherwise="photograph")
        try:
            made = put_photograph_in(
                shop, job, drum=own.id, name=name, by=by,
                pieces=iter(partial(one.file.read, PIECE), b""),
            )  # fmt: skip
        except BadInput as fault:
            refused.append(f"{name}: {why_not_kept(fault, other=NO_PICTURE)}")
            continue
        except CannotDo as fault:
            refused.append(f"{name}: {fault}")
            continue
        told[made] = words_of(view=IN_WORK, drum=own.id, says=operation)
    if told:
        try:
            tell_photographs(shop, job, told, based_on=kept.kept(PHOTOGRAPHS).number, by=by)
        except CannotDo as fault:
            refused.append(f"They are kept, and what they show is not: {fault}")
    if refused or not told:
        wrong = " ".join(refused) or "No photograph was chosen."
        return _shown(
            request, shop, said=said_of(shop, photographs=len(told)), wrong=wrong, status=422
        )
    return _back(place="in-hand", kept=len(told))


def _whose(given: FormData) -> tuple[str, str]:
    """Return job and drum of a form: from a list of drums, or as the page itself put them in."""
    job, cut, drum = text_in(given, "whose").partition("/")
    return (job, drum) if cut else (text_in(given, "job"), text_in(given, "drum"))


def _refused(
    request: Request, shop: Workshop, given: FormData, *, form: str, fault: BadInput
) -> Response:
    typed = {name: value for name, value in given.items() if isinstance(value, str)}
    return _shown(request, shop, form=form, fault=fault, typed=typed, status=422)


def _back(*, place: str, **more: int) -> RedirectResponse:
    query = urlencode({name: value for name, value in more.items() if value})
    return RedirectResponse(f"{TODAY}?{query}#{place}", status_code=303)
