"""The sheet of a drum that is offered as long work; see ``tasks`` for how it is called."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from counterhoop.bench.long_work.record_tasks import Shown, photograph_shown
from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.plan_job import Progress

if TYPE_CHECKING:
    from counterhoop.papers.listing_sheet import ListingSheet


def make_listing(
    _source: JobSource, name: str, sheet: ListingSheet, shown: tuple[Shown, ...], paper: str, *,
    planned: bytes | None, progress: Progress,
) -> Paper:  # fmt: skip
    """Set the sheet of a drum that is offered.

    Parameters
    ----------
    name : str
        Of the file.
    sheet : ListingSheet
        Without its photographs.
    shown : tuple of Shown
        Those, by where their files lie.
    """
    from counterhoop.papers.listing_sheet import listing_sheet_pdf

    progress(name, 0.2)
    pictures = tuple(one for each in shown if (one := photograph_shown(each)) is not None)
    content = listing_sheet_pdf(replace(sheet, photographs=pictures), paper=paper)
    return Paper(name=name, media_type="application/pdf", content=content)
