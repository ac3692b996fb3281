"""What is worked out beside the pages: plain functions that a process of its own calls by name.

Each takes what was asked, then by keyword what is known already (``planned``: the plan that it
rests on, pickled, or nothing) and ``progress``. A process keeps the last few plans and papers, so
that one paper after another of the same job does not begin with planning.
"""

from __future__ import annotations

import json
import pickle
from collections.abc import Callable
from typing import TypeVar

from counterhoop.bench.blank_papers import MADE
from counterhoop.bench.known import Known
from counterhoop.bench.long_work.picture import picture_of
from counterhoop.bench.long_work.results import Paper, Preview
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.long_work.tuning_apart import plan_key, with_tuning
from counterhoop.bench.long_work.zipped import zipped
from counterhoop.bench.open_job import opened_tables
from counterhoop.bench.paper_names import plain_name
from counterhoop.bench.paper_set import PaperSet, paper_set
from counterhoop.bench.paper_sorts import media_type
from counterhoop.bench.plan_job import JobPlan, Progress, plan_job
from counterhoop.bench.printing import Printing
from counterhoop.scheme.wrapping import WrapPlan, wrap_plans

T = TypeVar("T")
MOST_PLANS = 3
MOST_PAPERS = 6
_plans: dict[str, JobPlan] = {}
_schemes: dict[str, JobPlan] = {}
"""By what schemes rest on: a plan holds more, such as heads and readings."""
_papers: dict[tuple[object, ...], Paper] = {}


def plan(source: JobSource, *, planned: bytes | None, progress: Progress) -> JobPlan:
    """Plan a job."""

    def made() -> JobPlan:
        if planned is not None:
            known: JobPlan = pickle.loads(planned)
            return known
        tables = json.loads(source.tables_json)
        opened = opened_tables(tables, name=source.name, books=dict(source.books))
        key = plan_key(source, tables)
        found = kept_under(
            _schemes, key, lambda: plan_job(opened, progress=progress), most=MOST_PLANS
        )
        return with_tuning(found, opened)

    return kept_under(_plans, source.key, made, most=MOST_PLANS)


def wraps(source: JobSource, *, planned: bytes | None, progress: Progress) -> tuple[WrapPlan, ...]:
    """Lay out the new wraps of the chosen schemes."""
    found = plan(source, planned=planned, progress=part_of(progress, 0.0, 0.5))
    progress("wraps laid out on sheets", 0.5)
    chosen = [drum.chosen for drum in found.drums if drum.chosen is not None]
    return wrap_plans(found.opened.job, chosen, rules=found.opened.shop.rules)


def paper(
    source: JobSource, name: str, drum: str, scheme: int, printing: Printing,
    known: Known | None, *, planned: bytes | None, progress: Progress,
) -> Paper:  # fmt: skip
    """Make one paper."""

    def made() -> Paper:
        papers = _set(source, drum, scheme, printing, known, planned=planned, progress=progress)
        progress(name, 0.5)
        content = papers.made_one(name)
        return Paper(name=name, media_type=media_type(name), content=content)

    key = (source.key, name, drum, scheme, printing, known)
    return kept_under(_papers, key, made, most=MOST_PAPERS)


def papers_zipped(
    source: JobSource, drum: str, scheme: int, printing: Printing, known: Known | None, *,
    planned: bytes | None, progress: Progress,
) -> Paper:  # fmt: skip
    """Make all papers, into one file."""
    first = part_of(progress, 0.0, 0.2)
    papers = _set(source, drum, scheme, printing, known, planned=planned, progress=first)
    files = papers.made(progress=part_of(progress, 0.2, 1.0))
    found = plan(source, planned=planned, progress=progress)
    whose = plain_name(" ".join(part for part in (found.opened.job.number, drum) if part))
    name = f"papers {whose}".strip() + ".zip"
    return Paper(name=name, media_type=media_type(name), content=zipped(files))


def preview(
    source: JobSource, name: str, drum: str, scheme: int, printing: Printing, known: Known | None,
    page: int, wide_px: int, *, planned: bytes | None, progress: Progress,
) -> Preview:  # fmt: skip
    """Show one page of a paper."""
    shown = paper(source, name, drum, scheme, printing, known, planned=planned, progress=progress)
    return picture_of(shown, page=page, wide_px=wide_px)


def blank(
    _source: JobSource, which: str, sheet: str, *, planned: bytes | None, progress: Progress
) -> Paper:
    """Make a paper that belongs to no job."""
    name, content = MADE[which](sheet)
    return Paper(name=name, media_type=media_type(name), content=content)


def _set(
    source: JobSource, drum: str, scheme: int, printing: Printing, known: Known | None, *,
    planned: bytes | None, progress: Progress,
) -> PaperSet:  # fmt: skip
    found = plan(source, planned=planned, progress=part_of(progress, 0.0, 0.5))
    return paper_set(found, drum=drum, scheme=scheme, printing=printing, known=known)


def part_of(progress: Progress, start: float, end: float) -> Progress:
    """Return a progress whose whole is a part of the given one."""
    return lambda says, share: progress(says, start + (end - start) * share)


K = TypeVar("K")


def kept_under(kept: dict[K, T], key: K, made: Callable[[], T], *, most: int) -> T:
    """Return what is kept under a key or make it; the one asked for longest ago is let go."""
    found = kept.pop(key) if key in kept else made()
    kept[key] = found
    while len(kept) > most:
        del kept[next(iter(kept))]
    return found
