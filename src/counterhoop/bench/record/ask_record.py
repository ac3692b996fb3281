"""Ask for the papers of a record: each is set beside the pages."""

from __future__ import annotations

from typing import TypeVar

from counterhoop.bench.folders.album import Photograph
from counterhoop.bench.long_work.answers import Answer
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.record_tasks import (
    RecordAsked,
    Shown,
    SidesAsked,
    care_paper,
    record_paper,
    record_papers,
)
from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.long_work.tasks import plan
from counterhoop.bench.paper_names import plain_name
from counterhoop.bench.record.record_of import DrumRecord
from counterhoop.bench.workshop import Workshop
from counterhoop.store.enclosures.keep import place_of

T = TypeVar("T")
LINE = "papers"
NOTHING = JobSource(tables_json=b"")


def ask_record(
    shop: Workshop, source: JobSource | None, one: DrumRecord, *, paper: str
) -> Answer[Paper]:
    """Ask for the handover record of a drum.

    Parameters
    ----------
    source : JobSource or None
        What its job is planned from; None where nothing can be.
    paper : str
        Size of the sheet.
    """
    name = f"handover record - {plain_name(one.drum.name)}.pdf"
    arguments = (name, record_asked(shop, one), paper)
    return shop.works.ask(
        Asked(
            line=LINE, task=record_paper, source=source or NOTHING, arguments=arguments,
            rests_on=_plan(source),
        )
    )  # fmt: skip


def ask_care(shop: Workshop, one: DrumRecord, *, paper: str) -> Answer[Paper]:
    """Ask for the care sheet of a drum."""
    name = f"care sheet - {plain_name(one.drum.name)}.pdf"
    arguments = (name, record_asked(shop, one), paper)
    return shop.works.ask(
        Asked(line=LINE, task=care_paper, source=NOTHING, arguments=arguments)
    )  # fmt: skip


def ask_records(
    shop: Workshop, source: JobSource | None, named: tuple[tuple[str, DrumRecord], ...], *,
    paper: str,
) -> Answer[tuple[Paper, ...]]:  # fmt: skip
    """Ask for record and care sheet of every drum, each with its folder's name."""
    asked = tuple((folder, record_asked(shop, one)) for folder, one in named)
    return shop.works.ask(
        Asked(
            line="sets", task=record_papers, source=source or NOTHING, arguments=(asked, paper),
            rests_on=_plan(source),
        )
    )  # fmt: skip


def record_asked(shop: Workshop, one: DrumRecord) -> RecordAsked:
    """Return a record with its photographs by where their files lie."""

    def shown(photograph: Photograph | None) -> Shown | None:
        if photograph is None:
            return None
        file = place_of(shop.store.address.files, photograph.lies.file.sha256)
        words = photograph.shows
        return Shown(
            file=str(file), shows=f"{words}: {photograph.says}" if photograph.says else words
        )

    return RecordAsked(
        record=one.record,
        sides=tuple(
            SidesAsked(place=side.place, before=shown(side.before), after=shown(side.after))
            for side in one.sides
        ),
        done=tuple(sorted(one.done)) if one.left is not None else None,
        holds=tuple(sorted(one.holds)),
    )


def _plan(source: JobSource | None) -> Asked[object] | None:
    if source is None:
        return None
    return Asked(line="plans", task=plan, source=source, bears=True)
