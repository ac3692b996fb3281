"""The record that goes out of the house: its paper, its care sheet, its files."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response, StreamingResponse

from counterhoop.bench.folders.source import workshop_printing
from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.web.folder_index import folder_index, job_address
from counterhoop.web.guard.pen import PageRoute
from counterhoop.web.record_desk import RecordDesk, record_desk
from counterhoop.web.render import page
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
HANDED_OVER = "/jobs/{job}/handed-over"
What = Annotated[str, Query(max_length=10)]
DrumId = Annotated[str, Query(max_length=40)]
TITLES = {"record": "Handover record", "care": "Care sheet", "folder": "The whole record"}
FILE_S, SHOWN_S = 4.0, 0.08
"""How long a file is waited for, and what a page waits that says how far it is."""


@pages.get(HANDED_OVER + "/{drum}/record.pdf")
def record(shop: GivenWorkshop, job: str, drum: str) -> Response:
    """Hand out the handover record of a drum."""
    return _handed_out(shop, record_desk(shop, job), what="record", drum=drum)


@pages.get(HANDED_OVER + "/{drum}/care.pdf")
def care(shop: GivenWorkshop, job: str, drum: str) -> Response:
    """Hand out the care sheet of a drum."""
    return _handed_out(shop, record_desk(shop, job), what="care", drum=drum)


@pages.get(HANDED_OVER + "/record.zip")
def folder(shop: GivenWorkshop, job: str) -> Response:
    """Hand out the record of all drums with its photographs, as a folder in one file."""
    return _handed_out(shop, record_desk(shop, job), what="folder", drum="")


@pages.get(HANDED_OVER + "/making")
def making(
    request: Request, shop: GivenWorkshop, job: str, what: What = "record", drum: DrumId = ""
) -> Response:
    """Say how far a paper is, and where it is had once it is there."""
    if what not in TITLES:
        raise BadInput("no such paper of the record", where="what", given=what)
    desk = record_desk(shop, job)
    answer = _asked(shop, desk, what=what, drum=drum, wait_s=SHOWN_S)
    title = TITLES[what]
    return page(
        request, "record_making.html", status=202 if isinstance(answer, Working) else 200,
        job=desk.job, title=f"{title}: {desk.of(drum).drum.name}" if drum else title,
        working=answer if isinstance(answer, Working) else None,
        failed=answer if isinstance(answer, Failed) else None,
        made=isinstance(answer, Done), file=_file_address(desk, what=what, drum=drum),
        here_again=_making_address(desk, what=what, drum=drum), address=desk.address,
        folder=job_address(desk.job), index=folder_index(desk.job, here=request.url.path),
    )  # fmt: skip


def _handed_out(shop: Workshop, desk: RecordDesk, *, what: str, drum: str) -> Response:
    answer = _asked(shop, desk, what=what, drum=drum, wait_s=FILE_S)
    if isinstance(answer, Working | Failed):
        # A page of its own: loaded again, this address would hand out the file and leave a page
        # behind that still says how far it is, or why nothing came of it.
        return RedirectResponse(_making_address(desk, what=what, drum=drum), status_code=303)
    if what == "folder":
        return _packed(shop, desk, answer.value)
    return Response(
        answer.value.content, media_type="application/pdf",
        headers={"content-disposition": f'attachment; filename="{answer.value.name}"'},
    )  # fmt: skip


def _asked(shop: Workshop, desk: RecordDesk, *, what: str, drum: str, wait_s: float) -> Answer[Any]:
    from counterhoop.bench.record.ask_record import ask_care, ask_record, ask_records
    from counterhoop.bench.record.folder_out import named_drums

    paper = workshop_printing(shop).paper
    planned = desk.parts.planned
    if what != "care" and planned.working is not None:
        # A record that is set before the schemes are known would leave half of it out.
        answer = shop.works.wait(planned.working.id, wait_s)
        if isinstance(answer, Working):
            return answer
        desk = record_desk(shop, desk.job.id)
        planned = desk.parts.planned
    if what != "care" and planned.failed is not None:
        return planned.failed
    source = planned.source if planned.plan is not None else None
    asked: Answer[Any]
    if what == "folder":
        asked = ask_records(shop, source, named_drums(desk.records), paper=paper)
    elif what == "care":
        asked = ask_care(shop, desk.of(drum), paper=paper)
    else:
        asked = ask_record(shop, source, desk.of(drum), paper=paper)
    return shop.works.wait(asked.id, wait_s) if isinstance(asked, Working) else asked


def _packed(shop: Workshop, desk: RecordDesk, papers: Any) -> Response:
    from counterhoop.bench.record.folder_out import folder_out, record_name
    from counterhoop.bench.record.zip_in_pieces import zip_in_pieces

    files = folder_out(shop, desk.job, desk.records, papers, plan=desk.parts.planned.plan)
    name = f"{record_name(desk.job)}.zip"
    return StreamingResponse(
        zip_in_pieces(files), media_type="application/zip",
        headers={"content-disposition": f'attachment; filename="{name}"'},
    )  # fmt: skip


def _file_address(desk: RecordDesk, *, what: str, drum: str) -> str:
    if what == "folder":
        return f"{desk.address}/record.zip"
    return f"{desk.address}/{drum}/{what}.pdf"


def _making_address(desk: RecordDesk, *, what: str, drum: str) -> str:
    return f"{desk.address}/making?what={what}" + (f"&drum={drum}" if drum else "")
