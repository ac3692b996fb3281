"""Which paper a page asks for: its name, whose it is, on what it is printed; and its address."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated
from urllib.parse import urlencode

from fastapi import Depends, Path, Query
from starlette.requests import Request

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob, drawer, kept_job
from counterhoop.bench.folders.kinds import PRINTER
from counterhoop.bench.folders.source import workshop_printing
from counterhoop.bench.folders.source_once import to_plan_once
from counterhoop.bench.known import Known
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.paper_names import plain_name
from counterhoop.bench.paper_sorts import IDENTITY_SHEET
from counterhoop.bench.printing import Printing
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.papers.printer import PrinterCorrection
from counterhoop.web.folder_index import job_address
from counterhoop.web.parts_told import parts_told, ticked_told
from counterhoop.web.workshop_of import GivenWorkshop

PAPER_CHOICES = (
    *(("A4", "A4"), ("A3", "A3"), ("Letter", "Letter")),
    ("roll", "a roll: the template in one strip"),
)
LONGEST_NAME = 200

JobId = Annotated[str, Path(max_length=40)]
Name = Annotated[str, Query(max_length=LONGEST_NAME)]
DrumId = Annotated[str, Query(max_length=40)]
SchemeNumber = Annotated[int, Query(ge=0, le=10_000)]
PaperName = Annotated[str, Query(max_length=20)]


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperAsked:
    """One paper of a job, or all of them.

    Attributes
    ----------
    job : KeptJob
        The folder.
    source : JobSource
        What it is planned from.
    name : str
        As ``listed_papers`` has it; empty for all papers in one file.
    drum, drum_id : str
        Whose, by its name and by its name for programs; both empty for the whole job.
    scheme : int
        Another scheme than the chosen one; 0 for that.
    paper : str
        The size that was asked for, empty for the workshop's own.
    printing : Printing
        What it is printed on.
    known : Known
        What is known of the job beside its survey.
    """

    job: KeptJob
    source: JobSource
    name: str
    drum: str
    drum_id: str
    scheme: int
    paper: str
    printing: Printing
    known: Known

    @property
    def file_name(self) -> str:
        """A good name for the file: the job, the drum, the paper."""
        number = plain_name(str(self.job.job.get("number") or ""))
        _, dot, ending = self.name.rpartition(".")
        what = self.name.rpartition("/")[2].removesuffix(dot + ending) if self.name else "papers"
        parts = [part for part in (number, plain_name(self.drum), what) if part]
        return f"{' - '.join(parts)}.{ending or 'zip'}"

    def address(self, way: str, **more: object) -> str:
        """Return an address about this paper: "file", "look", "preview", "making"."""
        return paper_address(
            job_address(self.job), way, name=self.name, drum=self.drum_id, scheme=self.scheme,
            paper=self.paper, **more,
        )  # fmt: skip


def paper_address(folder: str, way: str, **asked: object) -> str:
    """Return an address about a paper; what is empty is left out.

    Examples
    --------
    >>> paper_address("/jobs/b1", "file", name="1 tom/2 hole list.pdf", drum="", scheme=0)
    '/jobs/b1/papers/file?name=1+tom%2F2+hole+list.pdf'
    """
    query = urlencode({name: value for name, value in asked.items() if value})
    return f"{folder}/papers/{way}" + (f"?{query}" if query else "")


def asked_of(
    request: Request, shop: GivenWorkshop, job: JobId, name: Name = "", drum: DrumId = "",
    scheme: SchemeNumber = 0, paper: PaperName = "",
) -> PaperAsked:  # fmt: skip
    """Return which paper an address asks for.

    Raises
    ------
    CannotDo
        While no drum of the job can be planned.
    """
    found = kept_job(shop, job)
    source = to_plan_once(shop, found).source
    if source is None:
        raise CannotDo("No drum of this job can be planned yet: its survey says what is missing.")
    return PaperAsked(
        job=found, source=source, name=name, drum=found.drum(drum).name if drum else "",
        drum_id=drum, scheme=scheme, paper=paper, printing=printing_for(shop, paper=paper),
        known=_known(request, shop, found, name=name, drum=drum),
    )  # fmt: skip


def known_to_list(job: KeptJob) -> Known:
    """Return which drums have an identity sheet and what is ticked, for a list of papers."""
    from counterhoop.papers.identity_sheet import Identity

    return Known(drums=tuple((one.name, Identity()) for one in job.drums), parts=ticked_told(job))


def _known(request: Request, shop: Workshop, job: KeptJob, *, name: str, drum: str) -> Known:
    """Return what the papers that are asked for say beside the plan, and nothing else."""
    from counterhoop.bench.evidence.identity import identity_of

    own: list[KeptDrum] = []
    if not name or name.rpartition("/")[2].startswith(IDENTITY_SHEET.start):
        own = [one for one in job.drums if not drum or one.id == drum]
    return Known(
        drums=tuple((one.name, identity_of(shop, job, one)) for one in own),
        parts=parts_told(request, shop, job, name=name),
    )


GivenPaper = Annotated[PaperAsked, Depends(asked_of)]


def printing_for(shop: Workshop, *, paper: str) -> Printing:
    """Return the workshop's printing, or that on another size of paper.

    A strip for a roll is printed elsewhere: the correction of the workshop's printer is not for
    it.
    """
    own = own_printing(shop)
    if not paper or paper == own.paper:
        return own
    names = [name for name, _ in PAPER_CHOICES]
    if paper not in names:
        raise BadInput("no such paper", where="paper", given=paper, wanted=", ".join(names))
    if "roll" in (paper, own.paper):
        thick = own.correction.paper_mm
        return Printing(paper=paper, correction=PrinterCorrection(paper_mm=thick))
    return replace(own, paper=paper)


def own_printing(shop: Workshop) -> Printing:
    """Return the workshop's own printing; A4 uncorrected where what is written cannot be read."""
    try:
        return workshop_printing(shop)
    except BadInput:
        return Printing()


def printer_wrong(shop: Workshop) -> str:
    """Say what cannot be read of the workshop's printer; nothing where all can."""
    try:
        workshop_printing(shop)
    except BadInput as fault:
        return str(fault)
    return ""


def printer_measured(shop: Workshop) -> bool:
    """Tell whether anybody has measured what the workshop's printer does to lengths."""
    return bool(str(drawer(shop).get(PRINTER, Kept()).table.get("measured") or "").strip())
