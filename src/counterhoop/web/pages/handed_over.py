"""The hand-over: what was found, done and kept, and the record that the folder itself gives."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from counterhoop.bench.folders.album import Photograph, photographs_of
from counterhoop.bench.folders.drum_state import DrumState, state_of_drum, what_says
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.hand_over import handed_says
from counterhoop.bench.folders.kinds import HANDOVER, SURVEY
from counterhoop.bench.folders.views import view_says
from counterhoop.bench.parts.goes_back import spares_of
from counterhoop.web.album_words import listed, of_drum
from counterhoop.web.folder_index import folder_index, job_address
from counterhoop.web.given_form import GivenForm
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.plain_sheet import Group, Part, Question
from counterhoop.web.plain_write import Sheet, undo_sheet, write_sheet, written
from counterhoop.web.record_desk import record_desk
from counterhoop.web.render import page
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
HANDED_OVER = "/jobs/{job}/handed-over"

ONE_DRUM: Final = "A line that begins with a drum's name and a colon is for that drum alone."

HANDING: Final[tuple[Part, ...]] = (
    Question(name="found", label="What was found", kind="note", help=ONE_DRUM),
    Question(name="done", label="What was done", kind="note"),
    Question(
        name="not_known", label="What could not be known", kind="note",
        help="Said in the record, so that nobody takes it for known.",
    ),
    Group(
        name="bag",
        label="In the bag that goes with it",
        help="What came off and stays the client's.",
        of=(
            Question(name="originals", label="Original parts", kind="yes"),
            Question(name="screws", label="Spare screws", kind="yes"),
            Question(name="washers", label="Washers", kind="yes"),
            Question(name="rod", label="One rod", kind="yes"),
            Question(name="small", label="Spare nuts, gaskets, springs and inserts", kind="yes"),
            Question(name="says", label="What else, piece by piece", kind="note"),
        ),
    ),
    Question(
        name="warranty", label="Warranty, in your words", kind="note",
        help="Left empty, the words of the workshop's terms stand.",
    ),
    Question(name="to", label="Who took it"),
    Question(
        name="handed_over", label="The day", kind="day",
        help="Year first, such as 2026-11-02. With it the job lies among those handed over.",
    ),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorded:
    """One drum of the record."""

    drum: KeptDrum
    found: str
    state: DrumState

    @property
    def done(self) -> list[tuple[dt.date | None, str]]:
        """Which holes were ticked, day by day."""
        return [(day, _holes(numbers)) for day, numbers in self.state.done]


@pages.get(HANDED_OVER)
def look(request: Request, shop: GivenWorkshop, job: str) -> Response:
    """Show the hand-over and the record so far."""
    desk = record_desk(shop, job)
    kept, planned = desk.job, desk.parts.planned
    found = photographs_of(shop, kept)
    record = [recorded(drum) for drum in kept.drums]
    return page(
        request,
        "handed_over.html",
        job=kept,
        job_address=job_address(kept),
        index=folder_index(kept, here=request.url.path),
        handover=written(shop, handover_of(kept.id)),
        handed_says=handed_says(kept.kept(HANDOVER).table),
        record=record,
        told={one.drum.id: one for one in desk.records},
        papers={drum.id: desk.papers(drum) for drum in kept.drums},
        address=desk.address,
        working=planned.working,
        failed=planned.failed,
        spares={
            drum.id: spares_of(desk.parts.stripped(drum), desk.parts.scheme(drum))
            for drum in kept.drums
        },
        untouched=untouched(record),
        pairs=before_and_after(found, kept),
    )


@pages.post(HANDED_OVER)
def write(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Write the hand-over down."""
    return write_sheet(request, shop, handover_of(job), given)


@pages.post(HANDED_OVER + "/undo")
def undo(
    request: Request, pen: GivenPen, shop: GivenWorkshop, job: str, given: GivenForm
) -> Response:
    """Go one step back."""
    return undo_sheet(request, shop, handover_of(job), given)


def handover_of(job: str) -> Sheet:
    """Return the sheet of a job's hand-over."""
    address = f"/jobs/{job}/handed-over"
    return Sheet(
        ident="handover", job=job, kind=HANDOVER, parts=HANDING, action=address, back=address
    )


def recorded(drum: KeptDrum) -> Recorded:
    """Return what the folder says of a drum."""
    survey = drum.kept(SURVEY)
    what, sizes = what_says(drum), sizes_said(survey.table)
    settled = "the survey is done and kept as found" if survey.as_found else ""
    found = "; ".join(part for part in (what, sizes, settled) if part) or "nothing is measured"
    return Recorded(drum=drum, found=found, state=state_of_drum(drum))


def _holes(numbers: Sequence[str]) -> str:
    """Name holes, runs of them together; what is no number of a hole is left as it stands."""
    from counterhoop.papers.facts import holes_said

    if all(number.isdecimal() and len(number) < 6 for number in numbers):
        return holes_said(int(number) for number in numbers)
    return f"holes {', '.join(numbers)}"


def sizes_said(survey: Mapping[str, Any]) -> str:
    """Return how far round and how deep a drum is, as it was written down."""
    read = ((survey.get("circumference"), "round"), (survey.get("depth"), "deep"))
    return ", ".join(f"{size} {way}" for size, way in read if isinstance(size, str) and size)


def untouched(record: Sequence[Recorded]) -> str:
    """Return the drums of which nothing but how they were found is on record."""
    named = [
        f"the {one.drum.name}"
        for one in record
        if not (one.state.code or one.state.yes or one.state.done)
    ]
    return listed(named) if named else ""


def before_and_after(
    found: Sequence[Photograph], job: KeptJob
) -> list[tuple[str, Photograph | None, Photograph]]:
    """Return each photograph of the finished work beside the one from the same place before."""
    pairs = []
    for drum in (*job.drums, None):
        own = of_drum(found, drum)
        before = {one.view: one for one in own if not one.after and one.view}
        for one in own:
            if one.after:
                place = view_says(one.view) or one.says or "a view that is not said yet"
                name = f"{drum.name}, {place}" if drum else place
                pairs.append((name, before.get(one.view), one))
    return pairs
