"""Wrap and finish: what is cut from which sheet, where seams go, what each drum gets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Annotated, Any
from urllib.parse import quote

from fastapi import APIRouter, Query
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import KeptJob, kept_job
from counterhoop.bench.folders.history import before
from counterhoop.bench.folders.kinds import JOB, WISH
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.long_work.answers import Answer, Failed, Working
from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.papers.screen.play import to_screen
from counterhoop.papers.wrap_list import sheet_drawings, wrap_data
from counterhoop.scheme.wrapping import WrapPlan
from counterhoop.store.save import Conflict
from counterhoop.survey.head_fit import Fit
from counterhoop.survey.head_words import VERBS
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.folder_index import drum_address, folder_index, job_address
from counterhoop.web.forms import (
    NAME,
    THINGS,
    Form,
    faults_in,
    item_at,
    make_form,
    read_form,
    read_name,
    with_item,
    without_item,
)
from counterhoop.web.given_form import GivenForm, number_in, pairs_in, text_in
from counterhoop.web.go_back import go_back
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.item_words import item_words
from counterhoop.web.look.mine import Units, mine_of
from counterhoop.web.plans import Planned, plan_for
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
WRAP = "/jobs/{job}/wrap"
WIDE_MM, HIGH_MM = 150.0, 96.0
"""A sheet is drawn so wide and shown larger: its words are lettered for paper."""
SHOWN_S = 0.08
FORM = "wrap-form"
Write = Annotated[str | None, Query(max_length=80)]
"""The wrap that is written; an empty name is a new one's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetShown:
    """One sort of wrap as the page shows it.

    Attributes
    ----------
    data : dict
        What its list says.
    pictures : tuple of (str, str)
        Each sheet by its name.
    heads : mapping of str to tuple of (str, bool)
        For each drum, whether its heads go on, and whether that is well.
    """

    name: str
    data: dict[str, Any]
    pictures: tuple[tuple[str, str], ...]
    heads: dict[str, tuple[tuple[str, bool], ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishOf:
    """What is planned for the outside of one drum, where it is written, what weather does."""

    drum: str
    says: str
    href: str
    weather: tuple[str, ...]


@pages.get(WRAP)
def look(request: Request, shop: GivenWorkshop, job: str, write: Write = None) -> Response:
    """Show the wraps of a job and what becomes of each drum's outside."""
    kept = kept_job(shop, job)
    form = _form(kept, write, units=mine_of(request).units)
    return shown(request, shop, kept, form=form, was=write or "", based_on=kept.kept(JOB).number)


def shown(
    request: Request, shop: Workshop, kept: KeptJob, *, form: Form | None, was: str,
    based_on: int, status: int = 200,
) -> Response:  # fmt: skip
    """Return the page; ``form`` is open on the wrap that was called ``was``."""
    planned = plan_for(shop, kept)
    answer = _laid_out(shop, planned)
    units = mine_of(request).units
    address = f"{job_address(kept)}/wrap"
    plans: Sequence[WrapPlan] = answer.value if answer and hasattr(answer, "value") else ()
    return page(
        request,
        "wrap.html",
        status=status,
        job=kept,
        planned=planned,
        working=planned.working or (answer if isinstance(answer, Working) else None),
        failed=planned.failed or (answer if isinstance(answer, Failed) else None),
        wraps=tuple(_shown(planned.plan, plan, units=units) for plan in plans if planned.plan),
        laid_out=bool(planned.plan) and not isinstance(answer, Working | Failed),
        nameless=_nameless(kept),
        finishes=_finishes(kept, planned.plan),
        stock=_stock(kept),
        form=form,
        was=was,
        based_on=based_on,
        address=address,
        papers=f"{job_address(kept)}/papers#papers-job",
        written=kept.kept(JOB),
        undo_to=before(kept.kept(JOB), shop),
        history=f"{job_address(kept)}/history/{kept.kept(JOB).document_id}",
        index=folder_index(kept, here=address),
    )


@pages.post(WRAP + "/stock")
def write_stock(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Write one of the job's wraps down, or take it out."""
    address = f"/jobs/{job}/wrap"
    if theirs_kept(given):
        return RedirectResponse(f"{address}#stock", status_code=303)
    was, name = text_in(given, "was"), read_name(given)
    taken = bool(text_in(given, "take_out"))
    item, based_on = read_form("wrap", given), number_in(given, "based_on")
    kept = kept_job(shop, job)
    fault = None if taken else _name_fault(kept, name, was=was, item=item)
    if fault:
        form = make_form(
            "wrap", item, ident=FORM, units=mine_of(request).units, name=name, faults=[fault]
        )
        return shown(request, shop, kept, form=form, was=was, based_on=based_on, status=422)

    def same(seen: Any, newest: Any) -> bool:
        return all(
            item_at("wrap", seen, at) == item_at("wrap", newest, at) for at in {was, name} if at
        )

    def put(_seen: Any, base: Any) -> Any:
        body = base if isinstance(base, dict) else {}
        if was and (taken or was != name):
            body = without_item("wrap", body, was)
        return body if taken else with_item("wrap", body, item, name)

    change = ThingChange(kind=JOB, drum="", based_on=based_on, same=same, put=put)
    saved = write_thing(shop, job, change, by=bench_of(request))
    if isinstance(saved, Conflict):
        return both_versions(
            request, saved, kind=JOB, action=request.url.path, values=pairs_in(given)
        )
    wrong = not taken and faults_in("wrap", item)
    back = f"{address}?write={quote(name, safe='')}#{FORM}" if wrong else f"{address}#stock"
    return RedirectResponse(back, status_code=303)


@pages.post(WRAP + "/undo")
def undo(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Go one step back in what is written of the job."""
    kept = kept_job(shop, job).kept(JOB)
    go_back(request, shop, kept.document_id, given)
    return RedirectResponse(f"/jobs/{job}/wrap#stock", status_code=303)


def _laid_out(shop: Workshop, planned: Planned) -> Answer[tuple[WrapPlan, ...]] | None:
    if planned.plan is None or planned.source is None:
        return None
    answer = shop.works.wraps(planned.source)
    return shop.works.wait(answer.id, SHOWN_S) if isinstance(answer, Working) else answer


def _shown(whole: JobPlan | None, plan: WrapPlan, *, units: Units) -> SheetShown:
    assert whole is not None
    name = plan.stock.name
    data = wrap_data(replace(whole.opened.job, units=units), plan)
    drawings = sheet_drawings(plan, wide_mm=WIDE_MM, high_mm=HIGH_MM)
    front = f"wrap-{whole.opened.job.wraps.index(plan.stock)}"
    pictures = tuple(
        (drawing.title, to_screen(drawing, ident=f"{front}-{number}"))
        for number, drawing in enumerate(drawings)
    )
    heads = {
        drum.drum: tuple((says, VERBS[Fit.DOES_NOT_GO] not in says) for says in drum.fits)
        for drum in plan.drums
    }
    return SheetShown(name=name, data=data, pictures=pictures, heads=heads)


def _finishes(job: KeptJob, whole: JobPlan | None) -> list[FinishOf]:
    weather = {one.key: one.surveyed.weather for one in whole.drums} if whole else {}
    return [
        FinishOf(
            drum=drum.name,
            says=_finish_says(drum.kept(WISH).table.get("finish_plan")),
            href=f"{drum_address(job, drum)}/shell?open=finish-plan#finish-plan",
            weather=weather.get(drum.name, ()),
        )
        for drum in job.drums
    ]


def _finish_says(item: Any) -> str:
    return item_words("finish plan", item) if item else "nothing is written: it stays as it is"


def _nameless(job: KeptJob) -> list[str]:
    """Drums that get a new wrap of which the plan does not say which."""
    plans = {drum.name: drum.kept(WISH).table.get("finish_plan") for drum in job.drums}
    return [
        name
        for name, plan in plans.items()
        if isinstance(plan, dict) and plan.get("kind") == "new wrap" and not plan.get("wrap")
    ]


def _stock(job: KeptJob) -> list[tuple[str, str]]:
    wraps = job.kept(JOB).table.get(THINGS["wrap"].place)
    listed = wraps.items() if isinstance(wraps, dict) else ()
    return [
        (
            name,
            item_words("wrap", item) + (f"; offcuts: {kept}" if (kept := _offcuts(item)) else ""),
        )
        for name, item in listed
    ]


def _offcuts(item: Any) -> str:
    kept = item.get("offcuts") if isinstance(item, dict) else None
    listed = [one for one in kept if isinstance(one, dict)] if isinstance(kept, list) else []
    return "; ".join(
        f"{one.get('name', 'an offcut')}, {one.get('length', '?')} x {one.get('width', '?')}"
        for one in listed
    )


def _form(job: KeptJob, write: str | None, *, units: Units) -> Form | None:
    """The form of one wrap, an empty one for a new wrap; none while none is written."""
    if write is None:
        return None
    item = item_at("wrap", job.kept(JOB).table, write) if write else {}
    return make_form(
        "wrap", item, ident=FORM, units=units, name=write,
        faults=faults_in("wrap", item) if write else (),
    )  # fmt: skip


def _name_fault(job: KeptJob, name: str, *, was: str, item: Any) -> BadInput | None:
    """What is wrong with a wrap's name: two of one name would be one, and the other lost."""
    if not name:
        return BadInput("a wrap needs a name", where=NAME, wanted='for example "green ripple"')
    there = item_at("wrap", job.kept(JOB).table, name)
    # The same under its name already: sent twice, because an answer was lost.
    if name == was or not there or there == item:
        return None
    return BadInput(
        "another wrap of this job is called so", where=NAME, given=name,
        wanted="a name that tells the two apart",
    )  # fmt: skip
