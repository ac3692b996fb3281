"""The plan of a folder as a page finds it: there, under way, refused, or nothing to plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob
from counterhoop.bench.folders.source_once import to_plan_once
from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo

if TYPE_CHECKING:  # the planner takes a second to load, and the works have it already
    from counterhoop.bench.plan_job import DrumPlan, JobPlan

WAIT_S = 0.08
"""What a page waits for a plan before it shows how far it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """How far the plan of a folder is.

    Attributes
    ----------
    source : JobSource or None
        What is planned; None while no drum can be read whole.
    faults : mapping of str to tuple of BadInput
        What keeps a drum out of the plan, by the drum's name for programs; ``where`` is a path in
        the drum's own table.
    answer : Answer or None
        What the works say; None where there is nothing to plan.
    """

    source: JobSource | None
    faults: Mapping[str, tuple[BadInput, ...]]
    answer: Answer[JobPlan] | None

    @property
    def plan(self) -> JobPlan | None:
        """The plan, when it is there."""
        return self.answer.value if isinstance(self.answer, Done) else None

    def drum(self, drum: KeptDrum) -> DrumPlan | None:
        """Return a drum's part of the plan; nothing while it is worked out, or cannot be."""
        if self.plan is None or drum.id in self.faults:
            return None
        return next((one for one in self.plan.drums if one.key == drum.name), None)

    @property
    def working(self) -> Working | None:
        """How far it is, while it is under way: for ``work.under_way`` in a template."""
        return self.answer if isinstance(self.answer, Working) else None

    @property
    def failed(self) -> Failed | None:
        """Why nothing came of it: for ``work.came_to_nothing`` in a template."""
        return self.answer if isinstance(self.answer, Failed) else None


def plan_for(
    shop: Workshop, job: KeptJob, *, held: Mapping[str, Kept] | None = None, wait_s: float = WAIT_S
) -> Planned:
    """Return the plan of a folder, or how far it is.

    Parameters
    ----------
    held : mapping of str to Kept, optional
        What the workshop's drawer holds, where a page has it at hand already.
    wait_s : float
        How long a page may be kept waiting for it.
    """
    found = to_plan_once(shop, job, held=held)
    if found.source is None:
        return Planned(source=None, faults=found.faults, answer=None)
    answer = shop.works.plan(found.source)
    if isinstance(answer, Working):
        answer = shop.works.wait(answer.id, wait_s)
    return Planned(source=found.source, faults=found.faults, answer=answer)


def need_plan(
    shop: Workshop, job: KeptJob, *, held: Mapping[str, Kept] | None = None, wait_s: float = 2.0
) -> JobPlan:
    """Return the plan of a folder for a form that was sent from a page that showed it.

    Raises
    ------
    CannotDo
        While it is worked out anew, and where it cannot be.
    """
    planned = plan_for(shop, job, held=held, wait_s=wait_s)
    if planned.plan is not None:
        return planned.plan
    if planned.failed is not None:
        raise CannotDo(f"Nothing was written: {planned.failed.says}")
    raise CannotDo(
        "The schemes are being worked out anew, so nothing was written. Open the page again."
    )
