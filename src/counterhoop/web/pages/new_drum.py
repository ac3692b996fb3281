"""A new drum: its name and eight numbers, drawn while they are typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from fastapi import APIRouter
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob, drawer, kept_job
from counterhoop.bench.folders.kinds import JOB, SURVEY
from counterhoop.bench.folders.look_over import LookedOver, look_over
from counterhoop.bench.folders.open_folder import add_drum, call_drum
from counterhoop.bench.folders.own_book import own_book
from counterhoop.bench.folders.write_thing import write_thing
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo, Grade
from counterhoop.store.save import Conflict
from counterhoop.web.bench_fault import bench_fault
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.folder_index import drum_address, folder_index, job_address
from counterhoop.web.forms import Form, make_form, offers_of, read_form
from counterhoop.web.given_form import GivenForm, number_in, pairs_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.look.mine import mine_of
from counterhoop.web.new_lug import LUG_FIELDS, choose_lug
from counterhoop.web.render import is_part, page
from counterhoop.web.shell_desk import desk_of
from counterhoop.web.shell_drawn import draw
from counterhoop.web.shell_write import change_of
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
NEW_DRUM = "/jobs/{job}/drums/new"
THING = "eight numbers"
IDENT = "eight"
UNNAMED = "this drum"


@pages.get(NEW_DRUM)
def begin(request: Request, shop: GivenWorkshop, job: str) -> Response:
    """Show the empty form over a shell in likely proportions."""
    return shown(request, shop, kept_job(shop, job), drum="", name="", item={})


@pages.post(NEW_DRUM)
def write(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Draw what is typed, and keep it from the moment that the drum has a name."""
    kept = kept_job(shop, job)
    name, item = text_in(given, "name"), read_form(THING, given)
    drum, done = text_in(given, "drum"), not is_part(request) or bool(text_in(given, "done"))
    if theirs_kept(given):
        return RedirectResponse(f"{drum_address(kept, kept.drum(drum))}/shell", status_code=303)
    wrong = ""
    if name or done:
        try:
            if done and any(text_in(given, f"_lug_{field}") for field in LUG_FIELDS[:1]):
                item = with_lug(shop, item, given, drum=name, by=bench_of(request))
            kept_as = keep(
                request, shop, kept, drum=drum, name=name, item=item,
                based_on=number_in(given, "based_on"),
            )  # fmt: skip
        except BadInput as fault:
            if fault.where != "name" and not fault.where.startswith("_lug"):
                raise
            wrong = str(BadInput(fault.what, given=fault.given, wanted=fault.wanted))
        else:
            if isinstance(kept_as, Conflict):
                return both_versions(
                    request, kept_as, kind=SURVEY, action=request.url.path, values=pairs_in(given)
                )
            drum = kept_as
    if done and not wrong:
        address = f"{drum_address(kept, kept_job(shop, job).drum(drum))}/shell"
        return RedirectResponse(address, status_code=303)
    status = 422 if wrong and not is_part(request) else 200
    kept = kept_job(shop, job)
    return shown(request, shop, kept, drum=drum, name=name, item=item, wrong=wrong, status=status)


def keep(
    request: Request, shop: Workshop, job: KeptJob, *, drum: str, name: str,
    item: dict[str, Any], based_on: int,
) -> str | Conflict:  # fmt: skip
    """Keep the drum, new or begun before, and return its name for programs."""
    by = bench_of(request)
    if not drum:
        return add_drum(shop, job.id, name=name, survey=item, by=by)
    desk = desk_of(request, shop, job.id, drum)
    if desk.drum.name != name:
        called = call_drum(shop, job.id, drum, name=name, based_on=desk.job.kept(JOB).number, by=by)
        if isinstance(called, Conflict):
            raise CannotDo("Somebody wrote in this job just now: press once more.")
    done = write_thing(shop, job.id, change_of(desk, THING, None, item, based_on=based_on), by=by)
    return done if isinstance(done, Conflict) else drum


def with_lug(
    shop: Workshop, item: dict[str, Any], given: FormData, *, drum: str, by: str
) -> dict[str, Any]:
    """Write the lug that no book has, and return the eight numbers with it chosen."""
    rows = item.get("rows") or [{}]
    name = choose_lug(shop, rows[0], given, drum=drum or UNNAMED, by=by)
    return {**item, "rows": [{**rows[0], "fitting": name}, *rows[1:]]}


def shown(
    request: Request, shop: Workshop, job: KeptJob, *, drum: str, name: str,
    item: dict[str, Any], wrong: str = "", status: int = 200,
) -> Response:  # fmt: skip
    """Return the page, or the parts of it that change while one types."""
    units = mine_of(request).units
    own = KeptDrum(id=drum, name=name or UNNAMED, documents={SURVEY: Kept(body=item)})
    if drum:
        own = replace(own, documents=job.drum(drum).documents)
    held = drawer(shop)
    looked = look_over(job, own, shop=held)
    saved = job.drum(drum).kept(SURVEY) if drum else Kept()
    return page(
        request,
        "new_drum_kept.html" if is_part(request) else "new_drum.html",
        status=status,
        job=job,
        drum=drum,
        goes_on=f"{drum_address(job, job.drum(drum))}/shell" if drum else "",
        called=name,
        wrong=wrong,
        form=eight(looked, item, units=units, hushed=not drum or is_part(request), shop=held),
        view=draw(looked, own, units=units),
        told_back=told_back(looked, units=units),
        # Notes can wait until the rest is entered.
        findings=[one for one in looked.findings if one.grade is not Grade.NOTE],
        saved=saved,
        job_address=job_address(job),
        index=folder_index(job, here=request.url.path),
        address=request.url.path,
    )


def told_back(looked: LookedOver, *, units: Any) -> str:
    """Return the drum in words, once there is one to tell of."""
    from counterhoop.web.recognised import recognised

    return recognised(looked.surveyed.drum, units=units) if looked.surveyed else ""


def eight(
    looked: LookedOver, item: dict[str, Any], *, units: Any, hushed: bool,
    shop: Mapping[str, Kept],
) -> Form:  # fmt: skip
    """Return the form; while it is typed, what is not there yet is not held against it."""
    faults = [
        bench_fault(fault) for fault in looked.faults if not hushed or fault.given is not None
    ]
    opened = looked.so_far.opened
    book = opened.shop.book if opened else own_book(shop).book
    return make_form(
        THING, item, ident=IDENT, units=units, faults=faults, offers=offers_of(book, survey=item)
    )
