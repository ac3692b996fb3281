"""What the papers of a price say: the quote as it stands, an offer again."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import replace

from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.folders.history import versions
from counterhoop.bench.folders.kinds import SURVEY
from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.price.job_quote import JobQuote
from counterhoop.bench.price.kept_quote import Offer
from counterhoop.bench.price.terms import Terms
from counterhoop.bench.price.words import for_good_said, story_said, title_said
from counterhoop.bench.price.work_words import works_said
from counterhoop.bench.workshop import Workshop
from counterhoop.job.price.in_one import work_in_one
from counterhoop.job.price.quote import Quote
from counterhoop.job.price.sides import Sides
from counterhoop.papers.client_picture import (
    after_picture,
    before_picture,
    client_legend,
    common_frame,
)
from counterhoop.papers.facts import Lengths, sheet_for
from counterhoop.papers.letter_head import LetterHead
from counterhoop.papers.quote_sheet import QuoteSheet, quote_sheet_pdf
from counterhoop.papers.sheets import MARGIN_MM
from counterhoop.scheme.layout import Layout
from counterhoop.shell.job import Job

NO_NAME = "the workshop"


def letter_head(
    job: Job, terms: Terms, *, drums: tuple[str, ...], date: dt.date | None = None
) -> LetterHead:
    """Return the head of a letter to the client of a job."""
    return LetterHead(
        shop=terms.shop or NO_NAME,
        shop_lines=terms.shop_lines,
        client=job.client,
        job=job.number,
        drums=drums,
        date=date,
    )


def quote_of_sheet(
    plan: JobPlan, now: JobQuote, *, day: dt.date, sides: Sides | None = None, ready: str = ""
) -> QuoteSheet:
    """Return what the quote's paper says, before it is set and without pictures (``pictured``).

    The work of each drum stands in one row, as its invoice will have it; parts have their own.

    Parameters
    ----------
    plan : JobPlan
        Of the job.
    now : JobQuote
    day : datetime.date
        From which the price holds.
    sides : Sides, optional
        Other ways, to stand beside it.
    ready : str
        When the drums would be ready, in a sentence.

    Raises
    ------
    BadInput
        Where the quote cannot be made yet.
    """
    job, drums = plan.opened.job, now.drums
    names = {one.kept.id: one.kept.name for one in drums}
    quote = now.need()
    return QuoteSheet(
        head=letter_head(job, now.terms, drums=tuple(names.values()), date=day),
        quote=_in_one(quote, names),
        title=title_said(drums),
        story=story_said(drums, say=Lengths(job.units)),
        permanent=for_good_said(drums, say=Lengths(job.units)),
        ready=ready,
        sides=sides,
    )


def quote_paper(
    plan: JobPlan, now: JobQuote, *, day: dt.date, sides: Sides | None = None, ready: str = "",
    paper: str = "A4",
) -> bytes:  # fmt: skip
    """Set the quote as it stands, a lone drum drawn now and afterwards; as ``quote_of_sheet``."""
    sheet = quote_of_sheet(plan, now, day=day, sides=sides, ready=ready)
    if len(now.drums) == 1:
        (drum,) = now.drums
        sheet = pictured(sheet, found=drum.plan.found, layout=drum.scheme.layout, paper=paper)
    return quote_sheet_pdf(sheet, paper=paper)


def offer_sheet(made: Offer, *, head: LetterHead) -> QuoteSheet:
    """Return what the paper of an offer says, before it is set again."""
    return QuoteSheet(
        head=head,
        quote=_in_one(made.quote, {one.id: one.name for one in made.drums}),
        title=made.title,
        story=made.story,
        permanent=made.permanent,
        ready=made.ready,
        offer=made.number,
    )


def shop_lines(terms: Terms) -> tuple[str, ...]:
    """Return the workshop as it stands at the head of a paper: its name, then where it is."""
    return (terms.shop or NO_NAME, *terms.shop_lines)


def surveyed_on(shop: Workshop, drum: KeptDrum) -> dt.date | None:
    """Return the day on which the survey was last written, where it was called done."""
    kept = drum.kept(SURVEY)
    if kept.as_found is None:
        return None
    as_found = [one for one in versions(shop, kept.document_id) if one.number == kept.as_found]
    return as_found[0].made_at.astimezone().date() if as_found else None


def _in_one(quote: Quote, names: Mapping[str, str]) -> Quote:
    return replace(quote, sums=work_in_one(quote.sums, works_said(quote.lines, names)))


def pictured(sheet: QuoteSheet, *, found: Layout, layout: Layout, paper: str) -> QuoteSheet:
    """Return the quote's paper with its drum drawn now and afterwards."""
    wide = sheet_for(paper).short_mm - 2 * MARGIN_MM
    frame = common_frame([found, layout], wide_mm=wide)
    return replace(
        sheet,
        before=before_picture(found, frame=frame),
        after=after_picture(layout, frame=frame),
        legend=client_legend([layout], wide_mm=wide),
    )
