"""Addresses for programs."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Annotated, Any

from fastapi import APIRouter, Path, Query
from fastapi.openapi.utils import get_openapi
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from counterhoop.bench.folders.decide import tick
from counterhoop.bench.folders.first_page import on_the_bench
from counterhoop.bench.folders.folder import Kept, KeptJob, kept_job
from counterhoop.bench.folders.kinds import JOB, OF_A_DRUM
from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.folders.source import workshop_printing
from counterhoop.bench.folders.source_once import to_plan_once
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.listing import JobListed, listing
from counterhoop.bench.long_work.answers import Answer, Done, Failed
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.save import Conflict, Saved
from counterhoop.web.api.shapes import (
    AtWork,
    BothVersions,
    DocumentShown,
    DrumNamed,
    Fault,
    Jobs,
    JobShort,
    JobWhole,
    Kind,
    Made,
    NewDrum,
    NewJob,
    Papers,
    PaperShown,
    Tick,
    Writing,
    Written,
)
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.guard.served_upload import upload_headers
from counterhoop.web.plans import plan_for
from counterhoop.web.who import bench_of
from counterhoop.web.workshop_of import GivenWorkshop

if TYPE_CHECKING:
    from counterhoop.bench.plan_job import JobPlan

A_SHEET = 50
WAIT_S = 20.0
"""How long a program may be kept waiting for what is worked out."""

NOT_HERE: dict[int | str, dict[str, Any]] = {404: {"model": Fault}}
NOT_READ: dict[int | str, dict[str, Any]] = {422: {"model": Fault}}
NOT_NOW: dict[int | str, dict[str, Any]] = {409: {"model": Fault}}
AT_WORK: dict[int | str, dict[str, Any]] = {202: {"model": AtWork}}
BOTH: dict[int | str, dict[str, Any]] = {409: {"model": BothVersions | Fault}}

pages = APIRouter(route_class=PageRoute, prefix="/api", tags=["jobs"])
JobId = Annotated[str, Path(max_length=40)]
DrumId = Annotated[str, Path(max_length=40)]


@pages.get("/jobs", responses=NOT_READ)
def jobs(shop: GivenWorkshop, sheet: Annotated[int, Query(ge=1, le=10_000)] = 1) -> Jobs:
    """List the jobs in sight, the last changed first, fifty a sheet."""
    every = on_the_bench(shop)
    here = every[(sheet - 1) * A_SHEET : sheet * A_SHEET]
    return Jobs(
        jobs=[
            JobShort(
                id=job.id, title=job.title, drums=list(job.drums), state=job.state, says=job.says,
                changed_at=job.changed_at,
            )
            for job in here
        ],
        count=len(every), sheet=sheet, sheets=max(1, math.ceil(len(every) / A_SHEET)),
    )  # fmt: skip


@pages.post("/jobs", status_code=201, responses=NOT_READ)
def open_one(request: Request, shop: GivenWorkshop, pen: GivenPen, new: NewJob) -> Made:
    """Open a folder."""
    return Made(id=open_folder(shop, job=new.job, by=bench_of(request)))


@pages.get("/jobs/{job_id}", responses=NOT_HERE | NOT_READ)
def job(shop: GivenWorkshop, job_id: JobId) -> JobWhole:
    """Return a folder with everything that is written in it."""
    found = kept_job(shop, job_id)
    every = (*found.drums, *found.hidden_drums)
    documents = [shown(kind, "", kept) for kind, kept in found.documents.items()]
    documents += [
        shown(kind, drum.id, kept) for drum in every for kind, kept in drum.documents.items()
    ]
    return JobWhole(
        id=found.id, title=found.title, documents=documents,
        drums=[DrumNamed(id=drum.id, name=drum.name) for drum in found.drums],
    )  # fmt: skip


@pages.post("/jobs/{job_id}/drums", status_code=201, responses=NOT_READ)
def put_drum_in(
    request: Request, shop: GivenWorkshop, pen: GivenPen, job_id: JobId, new: NewDrum
) -> Made:
    """Put a drum into a folder."""
    made = add_drum(shop, job_id, name=new.name, survey=new.survey, by=bench_of(request))
    return Made(id=made)


@pages.put("/jobs/{job_id}/documents/{kind}", response_model=Written, responses=BOTH | NOT_READ)
def write(
    request: Request, shop: GivenWorkshop, pen: GivenPen, job_id: JobId, kind: Kind,
    writing: Writing, drum: Annotated[str, Query(max_length=40)] = "",
) -> Response:  # fmt: skip
    """Write a document anew, on top of the revision that the writer saw."""
    found = kept_job(shop, job_id)
    if (kind in OF_A_DRUM) != bool(drum):
        raise BadInput(
            "a drum is named for what is kept for each drum, and only for that", where="drum",
            given=drum or None, wanted=f"a drum of the job for {', '.join(OF_A_DRUM)}",
        )  # fmt: skip
    if drum:
        found.drum(drum)
    value = {**writing.body, "drums": _drums(found)} if kind == JOB else writing.body
    change = Change(kind=kind, name=drum, value=value, based_on=writing.based_on, why=writing.why)
    return kept_or_both(write_down(shop, job_id, change, by=bench_of(request)))


@pages.post(
    "/jobs/{job_id}/drums/{drum_id}/ticks", response_model=Written,
    responses=BOTH | AT_WORK | NOT_READ,
)  # fmt: skip
def tick_one(
    request: Request, shop: GivenWorkshop, pen: GivenPen, job_id: JobId, drum_id: DrumId,
    given: Tick,
) -> Response:  # fmt: skip
    """Tick a hole of the scheme that is taken, or take the tick back."""
    found = kept_job(shop, job_id)
    drum = found.drum(drum_id)
    answer = worked_out(shop, found)
    if not isinstance(answer, Done):
        return not_yet(answer)
    scheme = answer.value.drum(drum.name).chosen
    if scheme is None or scheme.code != given.code:
        raise CannotDo("Another scheme is taken for this drum now: read its hole list again.")
    done = tick(
        shop, job_id, drum, scheme=scheme, hole=given.hole, done=given.done, by=bench_of(request)
    )
    return kept_or_both(done)


@pages.get(
    "/jobs/{job_id}/schemes", response_model=JobListed,
    responses=NOT_HERE | AT_WORK | NOT_NOW | NOT_READ,
)  # fmt: skip
def schemes(shop: GivenWorkshop, job_id: JobId) -> Response:
    """Return every scheme of every drum that can be planned."""
    answer = worked_out(shop, kept_job(shop, job_id))
    if not isinstance(answer, Done):
        return not_yet(answer)
    return Response(listing(answer.value).model_dump_json(), media_type="application/json")


@pages.get(
    "/jobs/{job_id}/papers", response_model=Papers,
    responses=NOT_HERE | AT_WORK | NOT_NOW | NOT_READ,
)  # fmt: skip
def papers(shop: GivenWorkshop, job_id: JobId) -> Response:
    """List the papers of a job."""
    from counterhoop.bench.paper_list import listed_papers

    answer = worked_out(shop, kept_job(shop, job_id))
    if not isinstance(answer, Done):
        return not_yet(answer)
    listed = listed_papers(answer.value, printing=workshop_printing(shop))
    shown_papers = [
        PaperShown(name=one.name, drum=one.drum, says=one.says, media_type=one.media_type)
        for one in listed
    ]
    return Response(Papers(papers=shown_papers).model_dump_json(), media_type="application/json")


@pages.get(
    "/jobs/{job_id}/paper", response_class=Response,
    responses=NOT_HERE | AT_WORK | NOT_NOW | NOT_READ
    | {200: {"content": {"application/octet-stream": {}}}},
)  # fmt: skip
def paper(
    shop: GivenWorkshop, job_id: JobId, name: Annotated[str, Query(max_length=200)],
    drum: Annotated[str, Query(max_length=40)] = "",
) -> Response:  # fmt: skip
    """Return one paper, as the list names it."""
    found = kept_job(shop, job_id)
    source = to_plan_once(shop, found).source
    if source is None:
        raise CannotDo("No drum of this job can be planned yet.")
    answer = shop.works.paper(source, name, drum=drum, printing=workshop_printing(shop))
    if not isinstance(answer, Done):
        answer = shop.works.wait(answer.id, WAIT_S)
    if not isinstance(answer, Done):
        return not_yet(answer)
    made = answer.value
    headers = upload_headers(kind=made.media_type, name=made.name.rpartition("/")[2])
    return Response(made.content, headers=headers)


@pages.get("/openapi.json", include_in_schema=False)
def described(request: Request) -> JSONResponse:
    """Return the description of these addresses (OpenAPI 3.1)."""
    ours = [
        route for route in pages.routes if isinstance(route, PageRoute) and route.include_in_schema
    ]
    made = get_openapi(title="Counterhoop", version="1", routes=ours)
    made["components"]["securitySchemes"] = {"token": {"type": "http", "scheme": "bearer"}}
    made["security"] = [{"token": []}]
    return JSONResponse(made)


def worked_out(shop: Workshop, found: KeptJob) -> Answer[JobPlan]:
    """Return the plan of a job, waited for."""
    planned = plan_for(shop, found, wait_s=WAIT_S)
    if planned.answer is None:
        raise CannotDo("No drum of this job can be planned yet.")
    return planned.answer


def not_yet(answer: Answer[Any]) -> Response:
    """Return what is said while something is worked out, or when it cannot be."""
    if isinstance(answer, Failed):
        if isinstance(answer.fault, BadInput):
            raise CannotDo(str(answer.fault))
        raise answer.fault or CannotDo(answer.says)
    assert not isinstance(answer, Done)
    return JSONResponse(AtWork(says=answer.says, share=answer.share).model_dump(), status_code=202)


def kept_or_both(done: Saved | Conflict) -> Response:
    """Return the revision that was made, or both versions."""
    if isinstance(done, Saved):
        return JSONResponse(Written(revision=done.revision.number).model_dump())
    both = BothVersions(
        what="somebody else saved first: nothing was kept", revision=done.theirs.number,
        mine=done.mine, theirs=done.theirs.body, by=done.theirs.bench,
    )  # fmt: skip
    return JSONResponse(both.model_dump(), status_code=409)


def shown(kind: str, drum: str, kept: Kept) -> DocumentShown:
    """Return a document as a program reads it."""
    return DocumentShown(
        kind=kind, drum=drum, revision=kept.number, as_found=kept.as_found,
        changed_at=kept.made_at, by=kept.bench, body=kept.body,
    )  # fmt: skip


def _drums(found: KeptJob) -> list[Any]:
    """The list of drums is kept by putting drums in and away, not by writing it."""
    listed: list[Any] = found.kept(JOB).table.get("drums", [])
    return listed
