"""How a kit is tuned: what the player wishes, and the pitch of each drum that answers it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Any

from fastapi import APIRouter, Query
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.folders.folder import KeptJob, kept_job
from counterhoop.bench.folders.history import before
from counterhoop.bench.folders.kinds import KIT
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.long_work.results import KitTold
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.quantities.print_pitch import print_semitones
from counterhoop.store.save import Conflict
from counterhoop.web.both_versions import both_versions, theirs_kept
from counterhoop.web.folder_index import drum_address, folder_index, job_address
from counterhoop.web.forms import Form, faults_in, item_at, make_form, read_form, with_item
from counterhoop.web.given_form import GivenForm, number_in, pairs_in
from counterhoop.web.go_back import go_back
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.item_words import item_words
from counterhoop.web.look.mine import Units, mine_of
from counterhoop.web.plans import WAIT_S, Planned, plan_for
from counterhoop.web.render import page
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

if TYPE_CHECKING:  # heads take a second to load, and the works have them
    from counterhoop.bench.tune.kit_pitches import DrumPitches

pages = APIRouter(route_class=PageRoute)
TUNED = "/jobs/{job}/tuned"
FORM = "kit-form"
Write = Annotated[str, Query(max_length=10)]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumLine:
    """One drum of the kit.

    Attributes
    ----------
    name, href : str
        Of the drum and its own sheet.
    pitches : DrumPitches or None
        What it is to sound like, or why nothing can be said; None while it cannot be planned.
    step : str
        How far above the drum before.
    second_head : tuple of str
        What another number of heads does to it.
    """

    name: str
    href: str
    pitches: DrumPitches | None
    step: str = ""
    second_head: tuple[str, ...] = ()


@pages.get(TUNED)
def look(request: Request, shop: GivenWorkshop, job: str, write: Write = "") -> Response:
    """Show the kit's pitches, drum by drum, and what is wished."""
    kept = kept_job(shop, job)
    planned = plan_for(shop, kept)
    answer = kit_of(shop, planned)
    told = answer.value if isinstance(answer, Done) else None
    written = kept.kept(KIT)
    address = f"{job_address(kept)}/tuned"
    faults = wish_faults(kept, written.table)
    return page(
        request,
        "tuned_kit.html",
        job=kept,
        job_address=job_address(kept),
        address=address,
        index=folder_index(kept, here=address),
        planned=planned,
        working=planned.working or (answer if isinstance(answer, Working) else None),
        failed=planned.failed or (answer if isinstance(answer, Failed) else None),
        told=told,
        drums=drum_lines(kept, told) if told else (),
        wish=item_words("kit", item_at("kit", written.table)),
        wrong=bool(faults),
        form=form_of(kept, units=mine_of(request).units) if write or faults else None,
        written=written,
        undo_to=before(written, shop),
        history=f"{job_address(kept)}/history/{written.document_id}",
        papers=f"{job_address(kept)}/papers#papers-job",
    )


@pages.post(TUNED + "/wish")
def write_wish(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Write down what the player wishes."""
    back = f"/jobs/{job}/tuned"
    if theirs_kept(given):
        return RedirectResponse(f"{back}#wish", status_code=303)
    item = read_form("kit", given)

    def same(seen: Any, newest: Any) -> bool:
        return bool(item_at("kit", seen) == item_at("kit", newest))

    def put(_seen: Any, base: Any) -> Any:
        return with_item("kit", base if isinstance(base, dict) else {}, item)

    based_on = number_in(given, "based_on")
    change = ThingChange(kind=KIT, drum="", based_on=based_on, same=same, put=put)
    saved = write_thing(shop, job, change, by=bench_of(request))
    if isinstance(saved, Conflict):
        return both_versions(
            request, saved, kind=KIT, action=request.url.path, values=pairs_in(given)
        )
    wrong = wish_faults(kept_job(shop, job), item)
    return RedirectResponse(f"{back}?write=yes#{FORM}" if wrong else f"{back}#wish", 303)


@pages.post(TUNED + "/undo")
def undo(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Go one step back in what is wished."""
    go_back(request, shop, kept_job(shop, job).kept(KIT).document_id, given)
    return RedirectResponse(f"/jobs/{job}/tuned#wish", status_code=303)


def kit_of(shop: Workshop, planned: Planned) -> Answer[KitTold] | None:
    """Return the kit's pitches, or how far they are; None before there is a plan."""
    if planned.plan is None or planned.source is None:
        return None
    answer = shop.works.kit(planned.source)
    return shop.works.wait(answer.id, WAIT_S) if isinstance(answer, Working) else answer


def drum_lines(job: KeptJob, told: KitTold) -> list[DrumLine]:
    """Return the drums from low to high, then those of which nothing can be said."""
    hrefs = {drum.name: f"{drum_address(job, drum)}/tuned" for drum in job.drums}
    steps = iter(told.pitches.steps_cents)
    lines = []
    for place, one in enumerate(told.pitches.drums):
        in_kit = one.planned is not None and one.in_steps
        step = next(steps, None) if in_kit and place else None
        lines.append(
            DrumLine(
                name=one.key,
                href=hrefs.get(one.key, ""),
                pitches=one,
                step="" if step is None else f"{print_semitones(step)} above the one before",
                second_head=tuple(told.second_head.get(one.key, ())),
            )
        )
    there = {line.name for line in lines}
    missing = [drum.name for drum in job.drums if drum.name not in there]
    return [*lines, *(DrumLine(name=name, href=hrefs[name], pitches=None) for name in missing)]


def wish_faults(job: KeptJob, item: Any) -> tuple[BadInput, ...]:
    """Return what is wrong with a wish: no drum but those of the job can be wished for."""
    if not item:
        return ()
    names = [drum.name for drum in job.drums]
    known = {name.casefold() for name in names}
    named = [(f"{end}.drum", item.get(end)) for end in ("lowest", "highest")]
    heard = item.get("as_heard")
    for number, one in enumerate(heard if isinstance(heard, list) else [], 1):
        named.append((f"as_heard[{number}].drum", one))
    strange = [
        BadInput(
            "no such drum in this job", where=where, given=drum,
            wanted=" or ".join(f'"{name}"' for name in names), step=did_you_mean(drum, names),
        )
        for where, one in named
        if isinstance(one, dict)
        and isinstance(drum := one.get("drum"), str)
        and drum.casefold() not in known
    ]  # fmt: skip
    return (*faults_in("kit", item), *strange)


def form_of(job: KeptJob, *, units: Units) -> Form:
    """Return the form of the wish, drums to choose from by their names."""
    item = item_at("kit", job.kept(KIT).table)
    names = [drum.name for drum in job.drums]
    return make_form(
        "kit", item, ident=FORM, units=units, faults=wish_faults(job, item),
        offers={"drums": names},
    )  # fmt: skip
