"""The log of a day, and one line of it: how it stands, how it came so, put right."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.days import day_written
from counterhoop.bench.promise.bench_now import bench_now
from counterhoop.bench.promise.promises import clock_of
from counterhoop.bench.today.after import (
    LineTyped,
    as_typed,
    go_back_to,
    line_of,
    put_right,
    strike,
)
from counterhoop.bench.today.on_the_day import lines_of_day
from counterhoop.bench.today.what import what_was
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.work_log.read_log import Version
from counterhoop.web.answered_once import FIELD
from counterhoop.web.given_form import GivenForm, number_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.look.say import capfirst
from counterhoop.web.place_desk import said as said_plain
from counterhoop.web.render import page
from counterhoop.web.today_desk import drum_choices, line_shown, operation_choices, per_of
from counterhoop.web.today_words import version_says
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
LOG = "/today/log"
ONE = LOG + "/{entry}"
TYPED = ("day", "begun", "ended", "took", "count", "note")


@pages.get(LOG)
def look(
    request: Request, shop: GivenWorkshop, day: Annotated[str, Query(max_length=10)] = ""
) -> Response:
    """Show what the log has of a day, and which days before and after it has anything of."""
    bench, today = bench_now(shop), clock_of(shop).date()
    days = sorted({one.day for one in bench.log.workings if not one.is_open})
    on = day_written(day) or next(
        (one for one in reversed(days) if one < today), days[-1] if days else today
    )
    return page(
        request, "today_log.html", day=on,
        lines=[line_shown(bench, one) for one in lines_of_day(bench, on)],
        before=max((one for one in days if one < on), default=None),
        later=min((one for one in days if one > on), default=None),
    )  # fmt: skip


@pages.get(ONE)
def look_at_one(request: Request, shop: GivenWorkshop, entry: int) -> Response:
    """Show one line of the log, to be put right."""
    return _shown(request, shop, entry)


@pages.post(ONE)
def right(
    request: Request, pen: GivenPen, shop: GivenWorkshop, entry: int, given: GivenForm
) -> Response:
    """Write down how it really was."""
    job, _, drum = text_in(given, "whose").partition("/")
    typed = LineTyped(
        job=job, drum=drum, operation=text_in(given, "operation"),
        **{name: text_in(given, name) for name in TYPED},
    )  # fmt: skip
    why = text_in(given, "why")
    try:
        put_right(
            shop, entry, typed, seen=number_in(given, "seen"), why=why, by=bench_of(request),
            mark=text_in(given, FIELD),
        )  # fmt: skip
    except BadInput as fault:
        return _shown(request, shop, entry, typed=typed, why=why, fault=fault, status=422)
    except CannotDo as fault:
        # What was typed stays in the form: sent once more, it goes over what stands now.
        return _shown(request, shop, entry, typed=typed, why=why, wrong=str(fault), status=409)
    return RedirectResponse(f"/today?line={entry}#said", status_code=303)


@pages.post(ONE + "/strike")
def struck(
    request: Request, pen: GivenPen, shop: GivenWorkshop, entry: int, given: GivenForm
) -> Response:
    """Strike a line that never was."""
    try:
        strike(
            shop, entry, seen=number_in(given, "seen"), why=text_in(given, "why"),
            by=bench_of(request), mark=text_in(given, FIELD),
        )  # fmt: skip
    except CannotDo as fault:
        return _shown(request, shop, entry, wrong=str(fault), status=409)
    return RedirectResponse(f"/today?line={entry}#said", status_code=303)


@pages.post(ONE + "/back")
def back(
    request: Request, pen: GivenPen, shop: GivenWorkshop, entry: int, given: GivenForm
) -> Response:
    """Go back to how a line stood before it was put right."""
    try:
        go_back_to(
            shop, entry, version=number_in(given, "version"), seen=number_in(given, "seen"),
            by=bench_of(request), mark=text_in(given, FIELD),
        )  # fmt: skip
    except CannotDo as fault:
        return _shown(request, shop, entry, wrong=str(fault), status=409)
    return RedirectResponse(f"/today?line={entry}#said", status_code=303)


def _shown(
    request: Request, shop: Workshop, entry: int, *, typed: LineTyped | None = None,
    why: str = "", fault: BadInput | None = None, wrong: str = "", status: int = 200,
) -> Response:  # fmt: skip
    versions, bench = line_of(shop, entry), bench_now(shop)
    stands = versions[-1].working
    what = what_was(bench, stands)
    per = what.operation.per if what else per_of(stands.operation)
    return page(
        request, "today_line.html", status=status,
        line=line_shown(bench, stands), stands=stands, seen=versions[-1].entry,
        typed=typed or as_typed(stands), why=why, wrong=wrong,
        faults={fault.where: capfirst(said_plain(fault))} if fault else {},
        whose=_whose(typed, stands.job_id or "", what.drum.id if what else stands.drum),
        drums=drum_choices(bench), operations=operation_choices(),
        history=[
            (one.when, one.bench, capfirst(version_says(one, per=per)),
             _may_go_back(one, versions[-1]))
            for one in reversed(versions)
        ],
    )  # fmt: skip


def _may_go_back(one: Version, newest: Version) -> int:
    """Return the row to go back to; 0 where that would change nothing or cannot be."""
    same = one.working == newest.working
    return 0 if same or one.working.is_open or newest.kind == "struck" else one.entry


def _whose(typed: LineTyped | None, job: str, drum: str) -> str:
    return f"{typed.job}/{typed.drum}" if typed and typed.job else f"{job}/{drum}"
