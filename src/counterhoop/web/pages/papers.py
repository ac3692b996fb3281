"""Papers: what there is, how each looks, and the files."""

from __future__ import annotations

import asyncio
from dataclasses import replace
from typing import Annotated, Any, TypeVar

from fastapi import APIRouter, Query
from fastapi.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from counterhoop.bench.blank_papers import BLANK_SURVEY, CHECK_SHEET
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.long_work.results import Paper, Preview
from counterhoop.bench.long_work.works import Works
from counterhoop.errors import BadInput, CannotDo
from counterhoop.papers.sheets import ROLL, SIZES
from counterhoop.web.folder_index import folder_index, job_address
from counterhoop.web.guard.pen import PageRoute
from counterhoop.web.paper_asked import (
    PAPER_CHOICES,
    GivenPaper,
    JobId,
    PaperAsked,
    PaperName,
    known_to_list,
    paper_address,
    printer_measured,
    printer_wrong,
    printing_for,
)
from counterhoop.web.paper_shelf import papers_on_shelf
from counterhoop.web.plans import plan_for
from counterhoop.web.render import page
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
T = TypeVar("T")

FILE_S, PICTURE_S = 4.0, 60.0
"""How long a file and a picture are waited for. A picture has no page that says how far it is."""
LARGE_PX = 1200


@pages.get("/jobs/{job}/papers")
def shelf(request: Request, shop: GivenWorkshop, job: JobId, paper: PaperName = "") -> Response:
    """Show every paper of a job."""
    kept = kept_job(shop, job)
    planned = plan_for(shop, kept)
    printing = printing_for(shop, paper=paper)
    shelves = []
    if planned.plan is not None:
        known = {one.key for one in planned.plan.drums}
        whole = [
            ("", "The job as a whole"),
            *((d.id, d.name) for d in kept.drums if d.name in known),
        ]
        shelves = [
            (
                drum_id,
                says,
                papers_on_shelf(
                    kept,
                    planned.plan,
                    drum_id=drum_id,
                    paper=paper,
                    printing=printing,
                    known=known_to_list(kept),
                ),
            )
            for drum_id, says in whole
        ]
    return page(
        request, "papers.html", job=kept, planned=planned, shelves=shelves,
        folder=job_address(kept), paper=printing.paper, papers=PAPER_CHOICES,
        all_of=paper_address(job_address(kept), "all", paper=paper),
        measured=printer_measured(shop), printer_wrong=printer_wrong(shop),
        index=folder_index(kept, here=request.url.path),
    )  # fmt: skip


@pages.get("/jobs/{job}/papers/file")
async def file(request: Request, shop: GivenWorkshop, asked: GivenPaper) -> Response:
    """Hand out one paper; a page says how far it is while it is being made."""
    return await handed_out(request, shop.works, asked)


@pages.get("/jobs/{job}/papers/all")
async def all_papers(request: Request, shop: GivenWorkshop, asked: GivenPaper) -> Response:
    """Hand out all papers in one file."""
    asked = replace(asked, name="")
    return await handed_out(request, shop.works, asked)


@pages.get("/jobs/{job}/papers/making")
def making(request: Request, shop: GivenWorkshop, asked: GivenPaper) -> Response:
    """Say how far a paper is, and where it is had once it is there."""
    answer = _started(shop.works, asked)
    if isinstance(answer, Working):
        answer = shop.works.wait(answer.id, 0.08)
    return _making(request, asked, answer)


@pages.get("/jobs/{job}/papers/preview")
async def preview(
    request: Request, shop: GivenWorkshop, asked: GivenPaper,
    wide: Annotated[int, Query(ge=120, le=1600)] = 360,
    sheet: Annotated[int, Query(ge=1, le=500)] = 1,
) -> Response:  # fmt: skip
    """Show a page of a paper as a picture."""
    answer = await run_in_threadpool(_pictured, shop.works, asked, sheet=sheet, wide=wide)
    answer = await _patiently(shop.works, answer, seconds=PICTURE_S)
    shown = _need(answer)
    return Response(shown.content, media_type=shown.media_type)


@pages.get("/jobs/{job}/papers/look")
async def look(request: Request, shop: GivenWorkshop, asked: GivenPaper) -> Response:
    """Show all pages of a paper, large, one under another."""
    answer = await run_in_threadpool(_pictured, shop.works, asked, sheet=1, wide=LARGE_PX)
    answer = await _patiently(shop.works, answer, seconds=FILE_S)
    if not isinstance(answer, Done):
        return await run_in_threadpool(_making, request, asked, answer, look=True)
    first: Preview = answer.value
    sheets = range(1, first.pages + 1)
    pictures = [asked.address("preview", wide=LARGE_PX, sheet=number) for number in sheets]
    return page(
        request, "paper_look.html", job=asked.job, asked=asked, pictures=pictures,
        title=_title(asked), file=asked.address("file"), size=_size_of(first),
        index=folder_index(
            asked.job, here=request.url.path,
            drum=asked.job.drum(asked.drum_id) if asked.drum_id else None,
        ),
    )  # fmt: skip


@pages.get("/papers/blank-survey")
async def blank_survey(request: Request, shop: GivenWorkshop, paper: PaperName = "") -> Response:
    """Hand out the sheets that a survey is pencilled on."""
    return await _blank(request, shop, BLANK_SURVEY, paper=paper)


@pages.get("/papers/check-sheet")
async def check_sheet(request: Request, shop: GivenWorkshop, paper: PaperName = "") -> Response:
    """Hand out the sheet that tells what a printer does to lengths."""
    return await _blank(request, shop, CHECK_SHEET, paper=paper)


async def handed_out(request: Request, works: Works, asked: PaperAsked) -> Response:
    """Return a file, or a page that says how far it is."""
    answer = await run_in_threadpool(_started, works, asked)
    answer = await _patiently(works, answer, seconds=FILE_S)
    if isinstance(answer, Failed) and isinstance(answer.fault, BadInput):
        raise answer.fault
    if isinstance(answer, Done):
        return _file(answer.value, name=asked.file_name)
    # A page of its own: loaded again, this address would hand out the file and leave a page
    # behind that still says how far it is.
    return RedirectResponse(asked.address("making"), status_code=303)


async def _blank(request: Request, shop: GivenWorkshop, which: str, *, paper: str) -> Response:
    own = (await run_in_threadpool(printing_for, shop, paper="")).paper
    sheet = paper or (own if own != ROLL else "A4")
    if sheet not in SIZES:
        raise BadInput("no such paper", where="paper", given=sheet, wanted=", ".join(SIZES))
    answer = await run_in_threadpool(shop.works.blank, which, sheet=sheet)
    answer = await _patiently(shop.works, answer, seconds=PICTURE_S)
    made = _need(answer)
    return _file(made, name=made.name)


def _started(works: Works, asked: PaperAsked) -> Answer[Paper]:
    if not asked.name:
        return works.paper_set(
            asked.source, drum=asked.drum, scheme=asked.scheme, printing=asked.printing,
            known=asked.known,
        )  # fmt: skip
    return works.paper(
        asked.source, asked.name, drum=asked.drum, scheme=asked.scheme, printing=asked.printing,
        known=asked.known,
    )  # fmt: skip


def _pictured(works: Works, asked: PaperAsked, *, sheet: int, wide: int) -> Answer[Preview]:
    return works.preview(
        asked.source, asked.name, drum=asked.drum, scheme=asked.scheme, printing=asked.printing,
        known=asked.known, page=sheet, wide_px=wide,
    )  # fmt: skip


def _making(
    request: Request, asked: PaperAsked, answer: Answer[Any], *, look: bool = False
) -> Response:
    """Say how far a paper is; the page leads to it once it is there."""
    if isinstance(answer, Failed) and isinstance(answer.fault, BadInput):
        raise answer.fault
    drum = asked.job.drum(asked.drum_id) if asked.drum_id else None
    return page(
        request, "paper_making.html", status=202 if isinstance(answer, Working) else 200,
        job=asked.job, title=_title(asked),
        working=answer if isinstance(answer, Working) else None,
        failed=answer if isinstance(answer, Failed) else None,
        made=answer.value if isinstance(answer, Done) else None,
        file=asked.address("file" if asked.name else "all"), drum=drum,
        here_again=asked.address("look" if look else "making"),
        folder=job_address(asked.job),
        index=folder_index(asked.job, here=request.url.path, drum=drum),
    )  # fmt: skip


async def _patiently(works: Works, answer: Answer[T], *, seconds: float) -> Answer[T]:
    """Wait for work beside the loop, which goes on with other requests meanwhile."""
    if not isinstance(answer, Working):
        return answer
    try:
        async with asyncio.timeout(seconds):
            async for _ in works.events(answer.id):
                pass
    except TimeoutError:
        pass
    return works.state(answer.id)


def _need(answer: Answer[T]) -> T:
    if isinstance(answer, Done):
        return answer.value
    if isinstance(answer, Failed):
        raise answer.fault or CannotDo(answer.says)
    raise CannotDo("This is still being drawn: load the page again in a while.")


def _file(made: Paper, *, name: str) -> Response:
    return Response(
        made.content,
        media_type=made.media_type,
        headers={"content-disposition": f'attachment; filename="{name}"'},
    )


def _title(asked: PaperAsked) -> str:
    name = asked.name.rpartition("/")[2].rpartition(".")[0].lstrip("0123456789 ")
    return name or (f"All papers of the {asked.drum}" if asked.drum else "All papers of the job")


def _size_of(shown: Preview) -> tuple[int, int]:
    """Width and height of a picture, so that nothing jumps when it comes; A4 for a drawing."""
    if shown.media_type != "image/png":
        return (1200, 600)
    wide, high = (int.from_bytes(shown.content[at : at + 4], "big") for at in (16, 20))
    return wide, high
