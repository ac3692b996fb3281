"""The papers of a price: quote, approval sheet, change note, invoice, receipt, credit note."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.price.job_quote import DrumPriced, JobQuote
from counterhoop.bench.price.kept_quote import Offer
from counterhoop.bench.price.terms import Terms
from counterhoop.job.bill.credit import CreditNote
from counterhoop.job.bill.invoice import Invoice
from counterhoop.job.price.quote import Quote
from counterhoop.job.price.sides import Sides
from counterhoop.job.yes.note import ChangeNote
from counterhoop.papers.approval_sheet import approval_sheet_pdf
from counterhoop.papers.change_note import change_note_pdf
from counterhoop.papers.client_picture import (
    after_picture,
    before_picture,
    client_legend,
    common_frame,
)
from counterhoop.papers.client_words import cut_for_good, in_a_line
from counterhoop.papers.facts import Lengths, listed, sheet_for
from counterhoop.papers.invoice import credit_pdf, invoice_pdf, receipt_pdf
from counterhoop.papers.letter_head import LetterHead
from counterhoop.papers.quote_sheet import QuoteSheet, quote_sheet_pdf
from counterhoop.papers.sheets import MARGIN_MM
from counterhoop.shell.job import Job
from counterhoop.store.running.bills import Bill

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
    plan: JobPlan,
    now: JobQuote,
    *,
    day: dt.date,
    sides: Sides | None = None,
    ready: str = "",
    paper: str = "A4",
) -> QuoteSheet:
    """Return what the quote's paper says, before it is set.

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
    job = plan.opened.job
    sheet = _sheet(
        job, now.need(), terms=now.terms, day=day,
        drums=tuple(one.kept.name for one in now.drums),
        title=listed([one.scheme.title for one in now.drums]) or "what is written below",
    )  # fmt: skip
    say = Lengths(job.units)
    alone = len(now.drums) == 1
    story = [_story(one, say=say, alone=alone) for one in now.drums]
    permanent = [
        phrase if alone else f"{one.kept.name}: {phrase}"
        for one in now.drums
        for phrase in cut_for_good(one.scheme, say=say)
    ]
    sheet = replace(sheet, story=tuple(story), permanent=tuple(permanent), ready=ready, sides=sides)
    return _with_pictures(sheet, now.drums[0], paper=paper) if alone else sheet


def quote_paper(
    plan: JobPlan,
    now: JobQuote,
    *,
    day: dt.date,
    sides: Sides | None = None,
    ready: str = "",
    paper: str = "A4",
) -> bytes:
    """Set the quote as it stands; the rest as for ``quote_of_sheet``."""
    sheet = quote_of_sheet(plan, now, day=day, sides=sides, ready=ready, paper=paper)
    return quote_sheet_pdf(sheet, paper=paper)


def offer_paper(job: Job, made: Offer, *, terms: Terms, paper: str = "A4") -> bytes:
    """Set an offer again as it was handed out: its lines and its price, whatever changed since."""
    sheet = _sheet(
        job, made.quote, terms=terms, day=made.day,
        drums=tuple(one.name for one in made.drums),
        title=listed([f"scheme {one.scheme}" for one in made.drums]) or "what is written below",
    )  # fmt: skip
    return quote_sheet_pdf(sheet, paper=paper)


def approval_paper(job: Job, drum: DrumPriced, *, paper: str = "A4") -> bytes:
    """Set the sheet on which the client says yes to what cannot be undone on one drum."""
    return approval_sheet_pdf(job, drum.scheme, paper=paper)


def change_paper(job: Job, drum: DrumPriced, note: ChangeNote, *, paper: str = "A4") -> bytes:
    """Set the note on what changed on one drum since it was agreed."""
    return change_note_pdf(job, drum.scheme, note, paper=paper)


def bill_paper(
    bill: Bill, *, job: Job, terms: Terms, drums: tuple[str, ...] = (), paper: str = "A4"
) -> bytes:
    """Set an invoice, a credit note or a receipt as it was given out."""
    head = letter_head(job, terms, drums=drums)
    if isinstance(bill, Invoice):
        return invoice_pdf(bill, head=head, to_pay=terms.to_pay, paper=paper)
    if isinstance(bill, CreditNote):
        return credit_pdf(bill, head=head, paper=paper)
    return receipt_pdf(bill, head=head, paper=paper)


def _sheet(
    job: Job, quote: Quote, *, terms: Terms, day: dt.date, drums: tuple[str, ...], title: str
) -> QuoteSheet:
    head = letter_head(job, terms, drums=drums, date=day)
    return QuoteSheet(head=head, quote=quote, title=title)


def _story(drum: DrumPriced, *, say: Lengths, alone: bool) -> str:
    said = in_a_line(drum.scheme, say=say)
    return said if alone else f"The {drum.kept.name}: {said[:1].lower()}{said[1:]}"


def _with_pictures(sheet: QuoteSheet, drum: DrumPriced, *, paper: str) -> QuoteSheet:
    found, layout = drum.plan.found, drum.scheme.layout
    wide = sheet_for(paper).short_mm - 2 * MARGIN_MM
    frame = common_frame([found, layout], wide_mm=wide)
    return replace(
        sheet,
        before=before_picture(found, frame=frame),
        after=after_picture(layout, frame=frame),
        legend=client_legend([layout], wide_mm=wide),
    )
