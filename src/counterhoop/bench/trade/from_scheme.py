"""What restoring and parting out a drum of a job takes, as its plan and its fittings say."""

from __future__ import annotations

from typing import Final

from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.parts.stripped import stripped_of
from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.price.works import work_lines
from counterhoop.bench.workshop import Workshop
from counterhoop.fittings.entry import Kind

SMALL: Final = frozenset(
    {Kind.SCREW, Kind.WASHER, Kind.GASKET, Kind.GROMMET, Kind.LUG_SPRING, Kind.VENT}
)
"""Pieces that nobody sells one by one. Common practice, no source."""


def ways_of_drum(shop: Workshop, job: KeptJob, drum: KeptDrum, plan: JobPlan) -> dict[str, str]:
    """Return the fields of work and parts that a planned drum fills in by itself.

    Work is that of the scheme that is taken, else of the one that comes first; parts are those
    that the drum comes apart into, without prices.
    """
    own = next((one for one in plan.drums if one.key == drum.name), None)
    if own is None:
        return {}
    typed = {}
    if own.chosen is not None:
        work = work_lines(own.chosen, figures=plan.opened.shop.figures)
        typed["restored_work"] = "\n".join(f"{one.count} x {one.operation}" for one in work)
    sorts = stripped_of(shop, job, drum, plan).expected.sorts()
    parts = [f"{many} x {sort.piece}" for sort, many in sorts.items() if _sold_apart(sort.kind)]
    if parts:
        typed["parts"] = "\n".join([*parts, "shell"])
    return typed


def _sold_apart(kind: str) -> bool:
    return kind not in SMALL
