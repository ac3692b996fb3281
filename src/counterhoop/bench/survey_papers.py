"""The papers that rest on readings: of one drum, and of the whole job."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from counterhoop.bench.paper_names import plain_name
from counterhoop.bench.survey_job import DrumSurveyed
from counterhoop.fittings.book import Book
from counterhoop.papers.fit_sheet import fit_rows, fit_sheet_pdf
from counterhoop.papers.survey_sheet import survey_sheet_pdf
from counterhoop.papers.thread_list import drum_threads, thread_list_pdf
from counterhoop.papers.truing_sheet import truing_sheet_pdf
from counterhoop.papers.wrap_list import wrap_list_pdf
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.wrapping import WrapPlan
from counterhoop.shell.job import Job

SURVEY_SHEET = "survey sheet.pdf"
TRUING_SHEET = "truing sheet.pdf"
FIT_SHEET = "head fit sheet.pdf"
THREAD_LIST = "thread and rod list.pdf"


def drum_survey_papers(
    job: Job, one: DrumSurveyed, scheme: Scheme | None, *, book: Book, paper: str
) -> dict[str, bytes]:
    """Make the survey sheet of a drum, and its truing sheet where its edges go by readings."""
    made = {
        SURVEY_SHEET: survey_sheet_pdf(
            job,
            one.drum,
            one.survey,
            book=book,
            findings=(*one.suspects, *one.findings),
            says=one.weather,
            paper=paper,
        )
    }
    if one.plan is not None and scheme is not None:
        made[TRUING_SHEET] = truing_sheet_pdf(
            job, scheme, one.plan, budgets=one.budgets, paper=paper
        )
    return made


def job_survey_papers(
    job: Job,
    drums: Sequence[DrumSurveyed],
    chosen: Mapping[str, Scheme],
    *,
    book: Book,
    paper: str,
) -> dict[str, bytes]:
    """Make the head-fit sheet and the thread and rod list of a job.

    Parameters
    ----------
    drums : sequence of DrumSurveyed
        The drums that the papers are for.
    chosen : mapping of str to Scheme
        The scheme of each drum that has one, by the drum's name.
    """
    weather = {one.drum.key: one.weather for one in drums}
    rows = [
        replace(row, weather=weather[row.drum.key] if row.fit is not None else ())
        for row in fit_rows(job)
        if row.drum.key in weather
    ]
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
    return {
        FIT_SHEET: fit_sheet_pdf(job, rows, paper=paper),
        THREAD_LIST: thread_list_pdf(job, threads, paper=paper),
    }


def wrap_papers(job: Job, wraps: Sequence[WrapPlan], *, paper: str) -> dict[str, bytes]:
    """Make a wrap list for each sort of wrap that is cut."""
    return {
        f"wrap list {plain_name(plan.stock.name)}.pdf": wrap_list_pdf(job, plan, paper=paper)
        for plan in wraps
    }
