"""What is heard, worked out beside the pages: a scheme before and after."""

from __future__ import annotations

from counterhoop.bench.hear_it import HearIt, hear_it
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.long_work.tasks import part_of, plan
from counterhoop.bench.plan_job import DrumPlan, JobPlan, Progress
from counterhoop.errors import BadInput


def hear(source: JobSource, drum: str, *, planned: bytes | None, progress: Progress) -> HearIt:
    """Play a drum as it is and as its scheme leaves it."""
    found = plan(source, planned=planned, progress=part_of(progress, 0.0, 0.3))
    progress("the drum is struck, before and after", 0.3)
    return hear_it(drum_in(found, drum))


def drum_in(found: JobPlan, name: str) -> DrumPlan:
    """Return a drum of a plan.

    Raises
    ------
    BadInput
        When it could not be planned.
    """
    for one in found.drums:
        if one.key == name:
            return one
    raise BadInput("this drum could not be planned", where=name, step="Look at its shell first")
