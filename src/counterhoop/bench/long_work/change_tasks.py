"""Change notes, set beside the pages; see ``tasks`` for how it is called."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counterhoop.bench.long_work import tasks
from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.plan_job import Progress
from counterhoop.errors import BadInput
from counterhoop.job.yes.note_said import NoteSaid

if TYPE_CHECKING:
    from counterhoop.papers.change_note import Answered

PDF = "application/pdf"


def make_change_note(
    source: JobSource, said: NoteSaid, drum: str, answered: Answered | None,
    shop: tuple[str, ...], paper: str, *, planned: bytes | None,
    progress: Progress,
) -> Paper:  # fmt: skip
    """Set the note on what changed on one drum since its client's yes."""
    from counterhoop.bench.price.job_quote import scheme_priced
    from counterhoop.papers.change_note import said_note_pdf

    found = tasks.plan(source, planned=planned, progress=tasks.part_of(progress, 0.0, 0.5))
    scheme = scheme_priced(found.drum(drum))
    if scheme is None:
        raise BadInput("nothing is proposed for this drum", where="drum", given=drum)
    progress("setting the change note", 0.5)
    content = said_note_pdf(
        found.opened.job, scheme, said, answered=answered, shop=shop, paper=paper
    )
    return Paper(name="change note.pdf", media_type=PDF, content=content)
