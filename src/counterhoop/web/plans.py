"""The plan of a job as a page asks for it: there at once, still being worked out, or refused."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.folders.source import to_plan
from counterhoop.bench.long_work.answers import Answer, Done, Working
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput

PATIENCE_S = 0.08
"""How long a page is held back for a plan; after that it says how far the plan is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """What is known of a job's plan.

    Attributes
    ----------
    source : JobSource or None
        None while no drum can be read whole.
    faults : mapping of str to tuple of BadInput
        What keeps a drum out of the plan, by the drum's name for programs.
    answer : Answer or None
        How far the plan is; None without a source.
    """

    source: JobSource | None
    faults: Mapping[str, tuple[BadInput, ...]]
    answer: Answer[JobPlan] | None

    @property
    def plan(self) -> JobPlan | None:
        """The plan, once it is there."""
        return self.answer.value if isinstance(self.answer, Done) else None


def plan_for(shop: Workshop, job: KeptJob, *, patience_s: float = PATIENCE_S) -> Planned:
    """Return the plan of a job as far as it is by now."""
    found = to_plan(shop, job)
    if found.source is None:
        return Planned(source=None, faults=found.faults, answer=None)
    answer = shop.works.plan(found.source)
    if isinstance(answer, Working):
        answer = shop.works.wait(answer.id, patience_s)
    return Planned(source=found.source, faults=found.faults, answer=answer)
