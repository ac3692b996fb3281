"""Handover records and care sheets, set beside the pages; see ``tasks`` for how it is called."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.long_work.tasks import part_of, plan
from counterhoop.bench.plan_job import JobPlan, Progress
from counterhoop.bench.record.left import as_left
from counterhoop.papers.care_sheet import care_sheet_pdf
from counterhoop.papers.handover_record import HandedOver, Pair, handover_record_pdf
from counterhoop.papers.photograph import Photograph

PDF = "application/pdf"
SHOWN_PX = 800
"""The longer side of a photograph on the paper: 32 mm high, and some to look closer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A photograph by where its file lies, and what is to be seen on it."""

    file: str
    shows: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SidesAsked:
    """One place, photographed before, after, or both times."""

    place: str
    before: Shown | None = None
    after: Shown | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordAsked:
    """The record of one drum as it is to be set.

    Attributes
    ----------
    record : HandedOver
        Without its photographs.
    sides : tuple of SidesAsked
    done : tuple of int or None
        Holes that are done under the scheme that is taken; None where nothing was done to it.
    holds : tuple of str
        By what its care is chosen.
    """

    record: HandedOver
    sides: tuple[SidesAsked, ...] = ()
    done: tuple[int, ...] | None = None
    holds: tuple[str, ...] = ()


def record_paper(
    source: JobSource, name: str, asked: RecordAsked, paper: str, *, planned: bytes | None,
    progress: Progress,
) -> Paper:  # fmt: skip
    """Set the handover record of one drum."""
    found = _plan(source, planned=planned, progress=part_of(progress, 0.0, 0.5))
    progress(name, 0.5)
    return Paper(name=name, media_type=PDF, content=_record(asked, found, paper=paper))


def care_paper(
    _source: JobSource, name: str, asked: RecordAsked, paper: str, *, planned: bytes | None,
    progress: Progress,
) -> Paper:  # fmt: skip
    """Set the care sheet of one drum."""
    progress(name, 0.5)
    return Paper(name=name, media_type=PDF, content=_care(asked, paper=paper))


def record_papers(
    source: JobSource, asked: tuple[tuple[str, RecordAsked], ...], paper: str, *,
    planned: bytes | None, progress: Progress,
) -> tuple[Paper, ...]:  # fmt: skip
    """Set record and care sheet of every drum, each below the folder that is named with it."""
    found = _plan(source, planned=planned, progress=part_of(progress, 0.0, 0.3))
    made = []
    for place, (folder, one) in enumerate(asked):
        progress(f"the record of the {one.record.drum}", 0.3 + 0.7 * place / len(asked))
        record = _record(one, found, paper=paper)
        made.append(Paper(name=f"{folder}/handover record.pdf", media_type=PDF, content=record))
        care = _care(one, paper=paper)
        made.append(Paper(name=f"{folder}/care sheet.pdf", media_type=PDF, content=care))
    return tuple(made)


def _plan(source: JobSource, *, planned: bytes | None, progress: Progress) -> JobPlan | None:
    return plan(source, planned=planned, progress=progress) if source.tables_json else None


def _record(asked: RecordAsked, found: JobPlan | None, *, paper: str) -> bytes:
    record = replace(asked.record, pairs=tuple(_pair(one) for one in asked.sides))
    own = next((one for one in found.drums if one.key == record.drum), None) if found else None
    left = None
    if own is not None and own.chosen is not None and asked.done is not None:
        left = as_left(own.chosen.layout, asked.done)
    book = found.opened.shop.book if found else None
    return handover_record_pdf(record, left=left, book=book, paper=paper)


def _care(asked: RecordAsked, *, paper: str) -> bytes:
    record = asked.record
    return care_sheet_pdf(
        record.head, drum=record.drum, holds=frozenset(asked.holds), paper=paper
    )  # fmt: skip


def _pair(one: SidesAsked) -> Pair:
    return Pair(
        place=one.place, found=photograph_shown(one.before), left=photograph_shown(one.after)
    )


def photograph_shown(shown: Shown | None) -> Photograph | None:
    """Return a photograph as a paper takes it, small and the right way up; None for none."""
    from counterhoop.store.enclosures.picture import preview

    if shown is None:
        return None
    jpeg = preview(Path(shown.file).read_bytes(), longest_px=SHOWN_PX)
    return Photograph(jpeg=jpeg, shows=shown.shows)
