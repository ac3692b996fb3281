"""All papers of one drum, by name, each made when it is asked for."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from counterhoop.bench.paper_sorts import (
    APPROVAL_SHEET,
    AS_FOUND,
    BENCH_SHEET,
    FLAT_DRAWING,
    FLAT_DXF,
    HOLE_LIST,
    ROLL_TEMPLATE,
    SCHEME_SHEET,
    TEMPLATE,
    Maker,
)
from counterhoop.bench.plan_job import DrumPlan
from counterhoop.bench.survey_papers import drum_survey_papers
from counterhoop.errors import CannotDo
from counterhoop.fittings.book import Book
from counterhoop.papers.approval_sheet import approval_sheet_pdf
from counterhoop.papers.bench_sheet import bench_sheet_pdf
from counterhoop.papers.drawing.shell_flat import draw_as_found, draw_flat
from counterhoop.papers.dxf import to_dxf
from counterhoop.papers.facts import block_of, facts_of
from counterhoop.papers.hole_list import hole_list_pdf
from counterhoop.papers.order_of_work import not_checked
from counterhoop.papers.printable import printable
from counterhoop.papers.printer import PrinterCorrection
from counterhoop.papers.scheme_sheet import scheme_sheet_pdf
from counterhoop.papers.sheets import ROLL
from counterhoop.papers.svg import to_svg
from counterhoop.papers.template import template_pdf
from counterhoop.scheme.findings.all_checks import look_over
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.job import Job

PICTURE_WIDE_MM = 390.0
"""Width of the drawings for the screen: they print whole on A3."""
NOT_APPROVED = ("DRAFT", "not approved: do not drill by this drawing")


def drum_papers(
    job: Job, plan: DrumPlan, scheme: Scheme | None, *, book: Book, paper: str,
    correction: PrinterCorrection,
) -> dict[str, Maker]:  # fmt: skip
    """Return the makers of all papers of a drum, in the order in which they are used.

    Parameters
    ----------
    job : Job
        Names, units, money.
    plan : DrumPlan
        The drum as found and its other schemes.
    scheme : Scheme or None
        What the papers are for; without one there are those of the drum as found.
    book : Book
        For the bases on the drawing of the drum as found.
    paper : str
        "A4", "A3", "Letter" or "roll". A strip for a roll is made in any case; unless the roll
        is what was asked for, without the correction, which is another printer's.
    correction : PrinterCorrection
        Of the printer that the template is printed on.
    """
    makers = drum_survey_papers(job, plan.surveyed, scheme, book=book, paper=paper)
    if scheme is not None:
        makers |= _scheme_papers(job, plan, scheme, book=book, paper=paper)
        # Under a new wrap even a hole that is kept must be found again from outside.
        wrapped = scheme.layout.finish.kind == "new wrap"
        if wrapped or any(hole.verdict.cuts for hole in scheme.layout.holes):
            makers |= _templates(job, scheme, paper=paper, correction=correction)
        makers |= _drawings(job, scheme)
    return makers | {AS_FOUND.named(): partial(_as_found, job, plan, book=book)}


def _scheme_papers(
    job: Job, plan: DrumPlan, scheme: Scheme, *, book: Book, paper: str
) -> dict[str, Maker]:
    def scheme_sheet() -> bytes:
        others = tuple(s for s in plan.ranked.shown if s.number != scheme.number)
        return scheme_sheet_pdf(job, scheme, found=plan.found, others=others, paper=paper)

    def bench_sheet() -> bytes:
        seen = look_over(plan.found, rules=job.rules, figures=job.figures, book=book)
        before = seen.findings
        noticed = tuple(f for f in plan.noticed if f not in before)
        return bench_sheet_pdf(job, scheme, noticed=noticed, before=before, paper=paper)

    # What can all be undone wants no signature.
    to_sign: dict[str, Maker] = {
        APPROVAL_SHEET.named(): lambda: approval_sheet_pdf(job, scheme, paper=paper)
    }
    return {
        SCHEME_SHEET.named(): scheme_sheet,
        **(to_sign if scheme.permanent else {}),
        HOLE_LIST.named(): lambda: hole_list_pdf(job, scheme, paper=paper),
        BENCH_SHEET.named(): bench_sheet,
    }


def _templates(
    job: Job, scheme: Scheme, *, paper: str, correction: PrinterCorrection
) -> dict[str, Maker]:
    """The template in sheets, and as one strip: wanted only where a hole is cut."""
    made = partial(_template, job, scheme)
    makers: dict[str, Maker] = {
        TEMPLATE.named(paper): partial(made, paper=paper, correction=correction)
    }
    if paper != ROLL:
        roll = PrinterCorrection(paper_mm=correction.paper_mm)
        makers[ROLL_TEMPLATE.named()] = partial(made, paper=ROLL, correction=roll)
    return makers


def _template(job: Job, scheme: Scheme, *, paper: str, correction: PrinterCorrection) -> bytes:
    facts = facts_of(job, drum=scheme.drum, approved=scheme.approval)
    facts = replace(facts, not_checked=not_checked(scheme))
    draft = scheme.draft
    try:
        return template_pdf(scheme, facts, paper=paper, correction=correction, draft=draft)
    except CannotDo:
        plain, boxed = printable(scheme), printable(facts)
        if (plain, boxed) == (scheme, facts):
            raise
        return template_pdf(plain, boxed, paper=paper, correction=correction, draft=draft)


def _drawings(job: Job, scheme: Scheme) -> dict[str, Maker]:
    layout = scheme.layout

    def facts(scale: str) -> tuple[tuple[str, str], ...]:
        cells = block_of(job, scheme, what="the shell laid flat", scale=scale)
        return (*cells, NOT_APPROVED) if scheme.draft else cells

    def svg() -> bytes:
        scale = PICTURE_WIDE_MM / layout.flat.surface.circumference_mm
        return to_svg(draw_flat(layout, scale=scale, facts=facts("for the screen"))).encode()

    def dxf() -> bytes:
        return to_dxf(draw_flat(layout, facts=facts("1:1")))

    return {FLAT_DRAWING.named(): svg, FLAT_DXF.named(): dxf}


def _as_found(job: Job, plan: DrumPlan, *, book: Book) -> bytes:
    drum = plan.wanted.drum
    girth = drum.circumference
    cells = (
        ("job", f"{job.number}, {job.client}" if job.client else job.number),
        ("drum", drum.key),
        ("paper", "as found"),
        ("surface", f"{girth.skin}"),
        ("heights", "before truing"),
        ("measured by", job.measured_by or "not written down"),
    )
    scale = PICTURE_WIDE_MM / girth.mean_mm
    return to_svg(draw_as_found(drum, scale=scale, facts=cells, book=book)).encode()
