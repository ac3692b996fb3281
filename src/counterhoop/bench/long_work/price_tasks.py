"""The papers of a price as long work: the quote with its pictures, the sheet that is signed."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

from counterhoop.bench.long_work import tasks
from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.plan_job import Progress
from counterhoop.errors import BadInput
from counterhoop.papers.drawing.manner import Units

if TYPE_CHECKING:
    from counterhoop.papers.quote_sheet import QuoteSheet

PDF = "application/pdf"


def make_quote(
    source: JobSource, sheet: QuoteSheet, drum: str, paper: str, *, planned: bytes | None,
    progress: Progress,
) -> Paper:  # fmt: skip
    """Set a quote.

    Parameters
    ----------
    sheet : QuoteSheet
        Without pictures.
    drum : str
        The drum that is drawn now and afterwards; empty for none.
    """
    from counterhoop.bench.price.job_quote import scheme_priced
    from counterhoop.bench.price.papers import pictured
    from counterhoop.papers.quote_sheet import quote_sheet_pdf

    if drum:
        found = tasks.plan(source, planned=planned, progress=tasks.part_of(progress, 0.0, 0.5))
        one = found.drum(drum)
        if scheme := scheme_priced(one):
            sheet = pictured(sheet, found=one.found, layout=scheme.layout, paper=paper)
    progress("setting the quote", 0.5)
    return Paper(name="quote.pdf", media_type=PDF, content=quote_sheet_pdf(sheet, paper=paper))


def make_approval(
    source: JobSource, drum: str, units: Units, surveyed: dt.date | None, shop: tuple[str, ...],
    paper: str, *, planned: bytes | None, progress: Progress,
) -> Paper:  # fmt: skip
    """Set the sheet on which the client says yes to what cannot be undone on one drum."""
    from counterhoop.bench.price.job_quote import scheme_priced
    from counterhoop.papers.approval_sheet import approval_sheet_pdf

    found = tasks.plan(source, planned=planned, progress=tasks.part_of(progress, 0.0, 0.5))
    scheme = scheme_priced(found.drum(drum))
    if scheme is None:
        raise BadInput("nothing is proposed for this drum yet", where="drum", given=drum)
    progress("setting the approval sheet", 0.5)
    job = replace(found.opened.job, units=units, date=surveyed)
    content = approval_sheet_pdf(job, scheme, shop=shop, paper=paper)
    return Paper(name="approval sheet.pdf", media_type=PDF, content=content)
