"""The papers that rest on readings: of one drum, and of the whole job."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial

from counterhoop.bench.paper_sorts import (
    FIT_SHEET,
    SURVEY_SHEET,
    THREAD_LIST,
    TRUING_SHEET,
    Maker,
    wrap_list_name,
)
from counterhoop.bench.survey_job import DrumSurveyed
from counterhoop.fittings.book import Book
from counterhoop.papers.fit_sheet import fit_rows, fit_sheet_pdf
from counterhoop.papers.survey_sheet import survey_sheet_pdf
from counterhoop.papers.thread_list import drum_threads, thread_list_pdf
from counterhoop.papers.truing_sheet import truing_sheet_pdf
from counterhoop.papers.wrap_list import wrap_list_pdf
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.wrapping import WrapPlan, wraps_wanted
from counterhoop.shell.job import Job


def drum_survey_papers(
    job: Job, one: DrumSurveyed, scheme: Scheme | None, *, book: Book, paper: str
) -> dict[str, Maker]:
    """Return the survey sheet of a drum, and its truing sheet where its edges go by readings."""

    def survey_sheet() -> bytes:
        return survey_sheet_pdf(
            job,
            one.drum,
            one.survey,
            book=book,
            findings=(*one.suspects, *one.findings),
            says=one.weather,
            paper=paper,
        )

    makers = {SURVEY_SHEET.named(): survey_sheet}
    if (truing := one.plan) is not None and scheme is not None:
        makers[TRUING_SHEET.named()] = lambda: truing_sheet_pdf(
            job, scheme, truing, budgets=one.budgets, paper=paper
        )
    return makers


def job_survey_papers(
    job: Job,
    drums: Sequence[DrumSurveyed],
    chosen: Mapping[str, Scheme],
    *,
    book: Book,
    paper: str,
) -> dict[str, Maker]:
    """Return the head-fit sheet and the thread and rod list of a job.

    Parameters
    ----------
    drums : sequence of DrumSurveyed
        The drums that the papers are for.
    chosen : mapping of str to Scheme
        The scheme of each drum that has one, by the drum's name.
    """

    def fit_sheet() -> bytes:
        weather = {one.drum.key: one.weather for one in drums}
        rows = [
            replace(row, weather=weather[row.drum.key] if row.fit is not None else ())
            for row in fit_rows(job)
            if row.drum.key in weather
        ]
        return fit_sheet_pdf(job, rows, paper=paper)

    def thread_list() -> bytes:
        threads = [
            drum_threads(
                one.found,
                chosen[one.drum.key].layout if one.drum.key in chosen else one.found,
                book=book,
                rules=job.rules,
                stock=dict(job.stock),
            )
            for one in drums
        ]
        return thread_list_pdf(job, threads, paper=paper)

    return {FIT_SHEET.named(): fit_sheet, THREAD_LIST.named(): thread_list}


def wrap_papers(
    job: Job, schemes: Sequence[Scheme], *, wraps: Callable[[], Sequence[WrapPlan]], paper: str
) -> dict[str, Maker]:
    """Return a wrap list for each sort of wrap that is cut.

    Parameters
    ----------
    wraps : callable
        Lays the pieces out; called only when a list is made.
    """

    def wrap_list(name: str) -> bytes:
        plan = next(plan for plan in wraps() if plan.stock.name == name)
        return wrap_list_pdf(job, plan, paper=paper)

    return {wrap_list_name(name): partial(wrap_list, name) for name in wraps_wanted(job, schemes)}
