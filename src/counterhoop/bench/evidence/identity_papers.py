"""The identity sheet of a drum, among its papers: only the app knows what it is made from."""

from __future__ import annotations

from counterhoop.bench.known import Known
from counterhoop.bench.paper_sorts import IDENTITY_SHEET, Maker
from counterhoop.fittings.book import Book
from counterhoop.papers.identity_sheet import identity_sheet_pdf
from counterhoop.shell.drum import Drum
from counterhoop.shell.job import Job


def identity_papers(job: Job, drum: Drum, *, known: Known, book: Book, paper: str) -> dict[
    str, Maker
]:  # fmt: skip
    """Return the identity sheet of a drum, if anything is known of it beside its survey."""
    own = dict(known.drums).get(drum.key)
    if own is None:
        return {}
    return {
        IDENTITY_SHEET.named(): lambda: identity_sheet_pdf(
            job, drum, known=own, book=book, paper=paper
        )
    }
