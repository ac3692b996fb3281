"""A new drum: eight numbers, drawn while they are typed; then what it is called, and whose it is.

The folder is opened with the first number that is kept: who only looks leaves none behind.
"""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import KeptJob, kept_job
from counterhoop.bench.folders.kinds import JOB, SURVEY
from counterhoop.bench.folders.next_number import next_number
from counterhoop.bench.folders.open_folder import add_drum, call_drum, open_folder
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.save import Conflict
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.folder_index import drum_address, job_address
from counterhoop.web.forms import faults_in, item_at, read_form, with_item
from counterhoop.web.given_form import GivenForm, number_in, pairs_in, text_in
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.look.mine import mine_of
from counterhoop.web.new_drum_shown import LABEL, NO_JOB, NOT_IN_BOOK, THING, Typed, call_it, shown
from counterhoop.web.new_lug import LUG_FIELDS, choose_lug
from counterhoop.web.render import is_part
from counterhoop.web.shell_desk import desk_of
from counterhoop.web.shell_write import change_of
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
FIRST_DRUM = "/drums/new"
NEW_DRUM = "/jobs/{job}/drums/new"


@pages.get(FIRST_DRUM)
def begin_alone(request: Request, shop: GivenWorkshop) -> Response:
    """Show the empty form; nothing is opened yet."""
    label = {"number": next_number(shop)}
    return shown(request, shop, NO_JOB, Typed(name=call_it(NO_JOB), label=label))


@pages.get(NEW_DRUM)
def begin(request: Request, shop: GivenWorkshop, job: str, drum: str = "") -> Response:
    """Show the form: empty, or with what a drum that was begun has so far."""
    kept = kept_job(shop, job)
    if not drum:
        return shown(request, shop, kept, Typed(name=call_it(kept)))
    begun = kept.drum(drum)
    item = item_at(THING, begun.kept(SURVEY).table)
    return shown(
        request, shop, kept, Typed(drum=drum, name=begun.name, item=item, label=dict(kept.job))
    )


@pages.post(FIRST_DRUM)
def write_alone(request: Request, pen: GivenPen, shop: GivenWorkshop, given: GivenForm) -> Response:
    """Draw what is typed; its first number opens a folder for it."""
    job = text_in(given, "job")
    return written(request, shop, kept_job(shop, job) if job else NO_JOB, given)


@pages.post(NEW_DRUM)
def write(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Draw what is typed, and keep it."""
    return written(request, shop, kept_job(shop, job), given)


def written(request: Request, shop: Workshop, job: KeptJob, given: FormData) -> Response:
    """Keep what was typed, and answer with the drawing or, when it is done, with its sheet."""
    typed = Typed(
        drum=text_in(given, "drum"),
        name=text_in(given, "name") or ("" if "name" in given else call_it(job)),
        item=_with_the_usual(read_form(THING, given)),
        label={name: text_in(given, name) for name in LABEL if name in given},
    )
    done = bool(text_in(given, "done"))
    if theirs_kept(given):
        return RedirectResponse(_sheet(job, typed.drum), status_code=303)
    if not done and not typed.drum and not _has_number(typed.item):
        # Nothing is measured yet: no folder is opened for that.
        return shown(request, shop, job, typed)
    try:
        if done and any(text_in(given, f"_lug_{field}") for field in LUG_FIELDS[:1]):
            typed = typed.with_item(
                with_lug(shop, typed.item, given, drum=typed.name, by=bench_of(request))
            )
        kept = keep(request, shop, job, typed, given)
    except BadInput as fault:
        if fault.where not in ("name", *LABEL) and not fault.where.startswith("_lug"):
            raise
        told = BadInput(fault.what, given=fault.given, wanted=fault.wanted)
        wrong_at = fault.where if fault.where in LABEL else "name"
        return shown(request, shop, job, typed, wrong=str(told), wrong_at=wrong_at)
    if isinstance(kept, Conflict):
        return both_versions(
            request, kept, kind=SURVEY, action=request.url.path, values=pairs_in(given)
        )
    job_id, drum = kept
    job = kept_job(shop, job_id)
    if done:
        return RedirectResponse(_sheet(job, drum), status_code=303)
    if not is_part(request):
        address = f"{job_address(job)}/drums/new?drum={drum}#recognised"
        return RedirectResponse(address, status_code=303)
    return shown(request, shop, job, typed.kept_as(drum))


def keep(
    request: Request, shop: Workshop, job: KeptJob, typed: Typed, given: FormData
) -> tuple[str, str] | Conflict:
    """Keep the drum, and the label where it is asked; return the names of folder and drum."""
    by = bench_of(request)
    label = {name: value for name, value in typed.label.items() if value}
    if not job.id:
        label = {"number": next_number(shop), **label} if "number" not in typed.label else label
    if typed.label and (faults := faults_in("job", label)):
        raise faults[0]
    if not job.id:
        label["units"] = mine_of(request).units
        job = kept_job(shop, open_folder(shop, job=label, by=by))
    elif typed.label:
        _write_label(shop, job, label, based_on=number_in(given, "label_based_on"), by=by)
    if not typed.drum:
        return job.id, add_drum(shop, job.id, name=typed.name, survey=typed.item, by=by)
    desk = desk_of(request, shop, job.id, typed.drum)
    if desk.drum.name != typed.name:
        called = call_drum(
            shop, job.id, typed.drum, name=typed.name, based_on=desk.job.kept(JOB).number, by=by
        )
        if isinstance(called, Conflict):
            raise CannotDo("Somebody wrote in this job just now: press once more.")
    change = change_of(desk, THING, None, typed.item, based_on=number_in(given, "based_on"))
    done = write_thing(shop, job.id, change, by=by)
    return done if isinstance(done, Conflict) else (job.id, typed.drum)


def with_lug(
    shop: Workshop, item: dict[str, Any], given: FormData, *, drum: str, by: str
) -> dict[str, Any]:
    """Write the lug that no book has, and return the eight numbers with it chosen."""
    rows = item.get("rows") or [{}]
    name = choose_lug(shop, rows[0], given, drum=drum, by=by)
    return {**item, "rows": [{**rows[0], "fitting": name}, *rows[1:]]}


def _write_label(
    shop: Workshop, job: KeptJob, label: dict[str, Any], *, based_on: int, by: str
) -> None:
    def table(body: Any) -> dict[str, Any]:
        held = item_at("job", body, None)
        return held if isinstance(held, dict) else {}

    def asked(body: Any) -> dict[str, Any]:
        return {name: table(body)[name] for name in LABEL if name in table(body)}

    if asked(job.kept(JOB).body) == label:
        return
    change = ThingChange(
        kind=JOB, drum="", based_on=based_on,
        same=lambda seen, newest: asked(seen) == asked(newest),
        put=lambda _seen, base: with_item(
            "job", base, {**{k: v for k, v in table(base).items() if k not in LABEL}, **label}, None
        ),
    )  # fmt: skip
    if isinstance(write_thing(shop, job.id, change, by=by), Conflict):
        raise CannotDo("Somebody wrote another label on this folder just now: look at it first.")


def _sheet(job: KeptJob, drum: str) -> str:
    # Straight to the empty hole: the odd holes come next.
    return f"{drum_address(job, job.drum(drum))}/shell?open=hole-new"


def _with_the_usual(item: dict[str, Any]) -> dict[str, Any]:
    """Return the numbers with the head that a row stands on, and no lug that nobody named."""
    rows = item.get("rows") or []
    if not rows:
        return item
    row = {"head": "batter", **rows[0]}
    if row.get("fitting") == NOT_IN_BOOK:
        del row["fitting"]
    return {**item, "rows": [row, *rows[1:]]}


def _has_number(item: dict[str, Any]) -> bool:
    row = (item.get("rows") or [{}])[0]
    measured = any(item.get(name) for name in ("circumference", "depth", "wall"))
    return measured or any(row.get(name) for name in ("lugs", "first", "near", "hole"))
