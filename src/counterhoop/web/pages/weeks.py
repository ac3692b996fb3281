"""The weeks: what is worked on when, what dries meanwhile, what would wait for one more."""

from __future__ import annotations

from typing import Annotated, Final

from fastapi import APIRouter, Query
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.days import day_written
from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.promise.diary import calendar
from counterhoop.bench.promise.papers import day_paper, shop_name, weeks_paper
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.web.bench_planned import bench_planned
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.paper_asked import printing_for
from counterhoop.web.render import page
from counterhoop.web.weeks_desk import weeks_desk
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_index import workshop_index
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
WEEKS: Final = "/workshop/weeks"
PATIENCE_S: Final = 60.0
"""How long a paper is waited for: it is set within a second or two."""
NOT_A_DAY: Final = "Not a day: write year-month-day, 2026-11-02."


@pages.get(WEEKS)
def look(request: Request, shop: GivenWorkshop) -> Response:
    """Show the weeks, or how far their plan is."""
    return shown(request, shop)


@pages.get(WEEKS + "/paper")
def weeks_on_paper(shop: GivenWorkshop) -> Response:
    """Hand out the weeks; back to their sheet while they are still planned."""
    plan = bench_planned(shop).plan
    if plan is None:
        return RedirectResponse(WEEKS, status_code=303)
    return _file(shop, weeks_paper(shop, plan, paper=printing_for(shop, paper="").paper))


@pages.get(WEEKS + "/day")
def day_on_paper(
    request: Request, shop: GivenWorkshop, day: Annotated[str, Query(max_length=40)] = ""
) -> Response:
    """Hand out the list of a day, today where none is named."""
    wanted = day_written(day.strip())
    if wanted is None and day.strip():
        return shown(request, shop, day=day)
    plan = bench_planned(shop).plan
    if plan is None:
        return RedirectResponse(WEEKS, status_code=303)
    paper = printing_for(shop, paper="").paper
    return _file(shop, day_paper(shop, plan, day=wanted or plan.start, paper=paper))


@pages.post(WEEKS + "/calendar")
def diary(request: Request, pen: GivenPen, shop: GivenWorkshop) -> Response:
    """Hand out the plan as a calendar; what was handed out is kept, to say later what changed."""
    if bench_planned(shop).plan is None:
        return RedirectResponse(WEEKS, status_code=303)
    answer = calendar(shop, whose=shop_name(shop), by=bench_of(request))
    if not isinstance(answer, Done):
        return RedirectResponse(WEEKS, status_code=303)
    return Response(
        answer.value, media_type="text/calendar; charset=utf-8",
        headers={"content-disposition": 'attachment; filename="the bench.ics"'},
    )  # fmt: skip


def shown(request: Request, shop: Workshop, *, day: str = "") -> Response:
    """Return the sheet; ``day`` is what was typed for one and is none."""
    return page(
        request, "weeks.html", status=422 if day else 200, desk=weeks_desk(shop),
        index=workshop_index(WEEKS), day=day, day_fault=NOT_A_DAY if day else "",
    )  # fmt: skip


def _file(shop: Workshop, answer: Answer[Paper]) -> Response:
    if isinstance(answer, Working):
        answer = shop.works.wait(answer.id, PATIENCE_S)
    if isinstance(answer, Failed):
        raise answer.fault or CannotDo(answer.says)
    if not isinstance(answer, Done):
        raise CannotDo("This is still being set: ask for it again in a while.")
    made = answer.value
    return Response(
        made.content, media_type=made.media_type,
        headers={"content-disposition": f'attachment; filename="{made.name}"'},
    )  # fmt: skip
