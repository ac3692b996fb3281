"""On the bench: the drawing, the hole list with its ticks, the order of work, the papers."""

from __future__ import annotations

import datetime as dt
from typing import Any

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.kinds import TICKS
from counterhoop.bench.folders.tick_off import TickedOtherwise, seen_of, tick_off
from counterhoop.bench.folders.ticks import ticked_otherwise
from counterhoop.errors import BadInput, CannotDo, Grade
from counterhoop.quantities.day import say_day
from counterhoop.scheme.findings.gathered import gathered
from counterhoop.scheme.plan import Scheme
from counterhoop.web.bench_desk import BenchDesk, bench_desk
from counterhoop.web.bench_holes import left_of
from counterhoop.web.bench_mark import done_strokes, marks
from counterhoop.web.folder_index import drum_address, folder_index, job_address
from counterhoop.web.given_form import GivenForm, number_in, pairs_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.look.say import clock
from counterhoop.web.paper_asked import (
    PAPER_CHOICES,
    PaperName,
    known_to_list,
    paper_address,
    printer_measured,
    printer_wrong,
    printing_for,
)
from counterhoop.web.paper_shelf import papers_on_shelf
from counterhoop.web.render import is_part, page
from counterhoop.web.today_hands import hands_on_drum
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
BENCH = "/jobs/{job}/drums/{drum}/bench"
TICK_S = 20.0
"""How long a tick may wait for the plan that it belongs to."""


@pages.get(BENCH)
def look(
    request: Request, shop: GivenWorkshop, job: str, drum: str, paper: PaperName = ""
) -> Response:
    """Show a drum on the bench."""
    desk = bench_desk(request, shop, job, drum)
    scheme = desk.scheme
    return page(
        request,
        "bench.html",
        job=desk.job,
        drum=desk.drum,
        planned=desk.planned,
        plan=desk.plan,
        scheme=scheme,
        drum_address=drum_address(desk.job, desk.drum),
        index=folder_index(desk.job, here=desk.address, drum=desk.drum),
        **(_by(desk, scheme) | {"hands": hands_on_drum(desk, scheme)} if scheme else {}),
        **_papers(desk, paper=paper),
    )


@pages.post(BENCH + "/tick")
def tick_hole(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, drum: str, given: GivenForm
) -> Response:
    """Tick a hole, or take its tick back."""
    desk = bench_desk(request, shop, job, drum, wait_s=TICK_S)
    hole, done = number_in(given, "hole"), text_in(given, "done") == "yes"
    back = RedirectResponse(f"{desk.address}#flat-line-{hole}", status_code=303)
    if text_in(given, "keep") == "theirs":
        return back
    scheme = _need_scheme(desk, code=text_in(given, "code"))
    if done and scheme.draft:
        raise CannotDo(f"{desk.draft_says(scheme)} No hole is ticked before that.")
    if all(one.number != hole or not one.work for s in desk.stages(scheme) for one in s.holes):
        raise BadInput("nothing is to be done to a hole of that number", where="hole", given=hole)
    answer = tick_off(
        shop, job, drum, scheme=scheme, hole=hole, done=done, seen=text_in(given, "seen"),
        by=bench_of(request),
    )  # fmt: skip
    if isinstance(answer, TickedOtherwise):
        return _both(request, desk, hole, answer, values=dict(pairs_in(given)))
    if not is_part(request):
        return back
    desk = bench_desk(request, shop, job, drum, wait_s=TICK_S)
    return page(request, "bench_ticked.html", hole_number=hole, **_by(desk, scheme))


def _both(
    request: Request, desk: BenchDesk, hole: int, theirs: TickedOtherwise, *, values: dict[str, str]
) -> Response:
    """Show both, where two benches disagree about one hole."""
    return page(
        request, "bench_both_part.html" if is_part(request) else "bench_both.html", status=409,
        when_said=_when, job=desk.job, drum=desk.drum, hole_number=hole, theirs=theirs,
        done=values.get("done") == "yes", action=request.url.path,
        values={**values, "seen": theirs.seen},
    )  # fmt: skip


def _need_scheme(desk: BenchDesk, *, code: str) -> Scheme:
    scheme = desk.scheme
    if scheme is None:
        raise CannotDo("This drum has no scheme just now, so no hole was ticked: open it again.")
    if scheme.code != code:
        raise CannotDo(
            f"The scheme has changed since this page was opened; it has the code {scheme.code}"
            " now. Open the page again before you drill: no hole was ticked."
        )
    return scheme


def _by(desk: BenchDesk, scheme: Scheme) -> dict[str, Any]:
    """Return what the sheets of a drum with a scheme show."""
    view, found = desk.view(scheme), desk.stages(scheme)
    done = {one.number for stage in found for one in stage.holes if one.ticked}
    left, work = left_of(found)
    sheet = desk.sheet(scheme)
    flat = scheme.layout.flat
    kept = desk.drum.kept(TICKS)
    return {
        "address": desk.address,
        "code": scheme.code,
        "draft_says": desk.draft_says(scheme),
        "ticked_otherwise": ticked_otherwise(desk.drum, scheme=scheme),
        "approval": scheme.approval,
        "view": view,
        "done_strokes": done_strokes(view, scheme.layout, done=done),
        "stages": found,
        "marks": dict(_marks(scheme)),
        "left": left,
        "work": work,
        "when_said": _when,
        "seen_of": lambda ticked: seen_of({"when": ticked.when, "by": ticked.by}) if ticked else "",
        "surface": flat.surface.skin.value,
        "heights": "after truing" if flat.after_truing else "before truing",
        "findings": sorted(
            (f for f in gathered(scheme.findings) if f.grade is not Grade.NOTE),
            key=lambda f: -f.grade,
        ),
        "stops": [f for f in gathered(scheme.findings) if f.grade is Grade.STOP],
        "notes": [f for f in gathered(scheme.findings) if f.grade is Grade.NOTE],
        "sheet": sheet,
        "drying": _drying(sheet),
        "truing": desk.truing(scheme),
        "ticks": kept,
        "history": f"{job_address(desk.job)}/history/{kept.document_id}" if kept.number else "",
    }


def _marks(scheme: Scheme) -> list[tuple[str, str]]:
    verdicts = list(dict.fromkeys(plan.verdict for plan in scheme.layout.holes))
    return list(zip([v.value for v in verdicts], marks(verdicts), strict=True))


def _when(written: str) -> str:
    """Return the time of a tick as this machine's clock shows it: "28 Nov, 14:03"."""
    try:
        when = dt.datetime.fromisoformat(written).astimezone()
    except ValueError:
        return written
    number, month, _ = say_day(when).split()
    return f"{number} {month[:3]}, {clock(when)}"


def _drying(sheet: dict[str, Any]) -> list[str]:
    return [f"{step['heading'].lower()} {step['cure']}" for step in sheet["steps"] if step["cure"]]


def _papers(desk: BenchDesk, *, paper: str) -> dict[str, Any]:
    printing = printing_for(desk.shop, paper=paper)
    folder, plan = job_address(desk.job), desk.planned.plan
    shelves = []
    if plan is not None and desk.plan is not None:
        shelves = [
            (
                drum_id,
                says,
                papers_on_shelf(
                    desk.job,
                    plan,
                    drum_id=drum_id,
                    paper=paper,
                    printing=printing,
                    known=known_to_list(desk.job),
                ),
            )
            for drum_id, says in ((desk.drum.id, desk.drum.name), ("", "The job as a whole"))
        ]
    return {
        "shelves": shelves,
        "folder": folder,
        "paper": printing.paper,
        "papers": PAPER_CHOICES,
        "all_of": paper_address(folder, "all", drum=desk.drum.id, paper=paper),
        "measured": printer_measured(desk.shop),
        "printer_wrong": printer_wrong(desk.shop),
    }
