"""The papers of a drum and of its job as a page lists them, each with where it is had."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.known import Known
from counterhoop.bench.paper_list import PaperListed, listed_papers
from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.printing import Printing
from counterhoop.web.folder_index import job_address
from counterhoop.web.paper_asked import paper_address

SHOWN = ("application/pdf", "image/svg+xml")
KINDS = {".pdf": "PDF", ".svg": "SVG", ".dxf": "DXF", ".txt": "text", ".zip": "ZIP"}
SMALL_PX = 360
"""The picture in a list is as wide as this on a screen of two dots to a pixel."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperOnShelf:
    """One paper that can be had.

    Attributes
    ----------
    title, says : str
        What it is called, and what it is for.
    kind : str
        Of its file: "PDF", "SVG", "DXF", "text".
    file : str
        The address of the file.
    picture, look : str
        Addresses of a small picture of its first page, and of all pages; empty where there is
        nothing to be seen.
    """

    title: str
    says: str
    kind: str
    file: str
    picture: str
    look: str


def papers_on_shelf(
    job: KeptJob, plan: JobPlan, *, drum_id: str, scheme: int = 0, paper: str = "",
    printing: Printing, known: Known | None = None,
) -> tuple[PaperOnShelf, ...]:  # fmt: skip
    """Return the papers of one drum, or those of the job as a whole when no drum is named."""
    drum = job.drum(drum_id).name if drum_id else ""
    listed = listed_papers(plan, drum=drum, scheme=scheme, printing=printing, known=known)
    return tuple(
        _shelved(one, job_address(job), drum=drum_id, scheme=scheme, paper=paper)
        for one in _of(listed, drum=drum)
    )


def _of(listed: Iterable[PaperListed], *, drum: str) -> Iterable[PaperListed]:
    """Those of the job as a whole are asked for over all drums, as they lie in its folder."""
    return (one for one in listed if one.drum == drum)


def _shelved(one: PaperListed, folder: str, *, drum: str, scheme: int, paper: str) -> PaperOnShelf:
    asked = {"name": one.name, "drum": drum, "scheme": scheme, "paper": paper}
    name = one.name.rpartition("/")[2]
    title, dot, ending = name.rpartition(".")
    seen = one.media_type in SHOWN
    return PaperOnShelf(
        title=title.lstrip("0123456789 ") or title,
        says=one.says,
        kind=KINDS.get(dot + ending, ending),
        file=paper_address(folder, "file", **asked),
        picture=paper_address(folder, "preview", **asked, wide=SMALL_PX) if seen else "",
        look=paper_address(folder, "look", **asked) if seen else "",
    )
