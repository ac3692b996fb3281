"""A drum on the bench: its scheme, its ticks, its drawing, as one request finds them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from starlette.requests import Request

from counterhoop.bench.folders.drum_state import state_of_drum
from counterhoop.bench.folders.folder import KeptDrum, KeptJob, kept_job
from counterhoop.bench.folders.ticks import ticks_of
from counterhoop.bench.plan_job import DrumPlan
from counterhoop.bench.remembered import Remembered
from counterhoop.bench.workshop import Workshop
from counterhoop.papers.bench_sheet import bench_data
from counterhoop.papers.truing_sheet import truing_data
from counterhoop.scheme.code import same_code
from counterhoop.scheme.findings.gathered import gathered
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.job import Job
from counterhoop.web.bench_holes import Stage, stages
from counterhoop.web.folder_index import drum_address
from counterhoop.web.look.mine import Mine, mine_of
from counterhoop.web.look.say import capfirst
from counterhoop.web.plans import WAIT_S, Planned, plan_for
from counterhoop.web.shell_view import ShellView, scheme_view

IDENT = "flat"
_DRAWN = Remembered(most=24)


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchDesk:
    """A drum on the bench."""

    shop: Workshop
    job: KeptJob
    drum: KeptDrum
    mine: Mine
    planned: Planned

    @property
    def address(self) -> str:
        """Of its sheet."""
        return f"{drum_address(self.job, self.drum)}/bench"

    @property
    def plan(self) -> DrumPlan | None:
        """The drum's part of the plan; nothing while it is worked out, or cannot be."""
        return self.planned.drum(self.drum)

    @property
    def scheme(self) -> Scheme | None:
        """The scheme that the bench works by."""
        plan = self.plan
        return plan.chosen if plan else None

    @property
    def lettered(self) -> Job:
        """The job with the units that this browser reads first."""
        whole = self.planned.plan
        assert whole is not None
        return replace(whole.opened.job, units=self.mine.units)

    def ticks(self, scheme: Scheme) -> Mapping[str, Any]:
        """The holes that are done."""
        return ticks_of(self.drum, scheme=scheme)

    def stages(self, scheme: Scheme) -> tuple[Stage, ...]:
        """The hole list in the order of the work."""
        return stages(scheme, units=self.mine.units, done=self.ticks(scheme))

    def view(self, scheme: Scheme) -> ShellView:
        """The drawing, made once for each plan."""
        source = self.planned.source
        key = (source.key if source else "", scheme.drum, self.mine.units)
        found = gathered(scheme.findings)
        made: ShellView = _DRAWN.get(
            key, lambda: scheme_view(scheme, ident=IDENT, units=self.mine.units, findings=found)
        )
        return made

    def sheet(self, scheme: Scheme) -> dict[str, Any]:
        """What the bench sheet says."""
        plan = self.plan
        return bench_data(self.lettered, scheme, noticed=plan.noticed if plan else ())

    def truing(self, scheme: Scheme) -> dict[str, Any]:
        """What the truing sheet says; nothing where no edge goes by its readings."""
        plan = self.plan
        if plan is None or plan.surveyed.plan is None:
            return {}
        surveyed = plan.surveyed
        data, _ = truing_data(self.lettered, scheme, plan.surveyed.plan, budgets=surveyed.budgets)
        return data

    def draft_says(self, scheme: Scheme) -> str:
        """Why the bench may not begin; empty when it may."""
        if not scheme.draft:
            return ""
        state = state_of_drum(self.drum)
        given, back = state.yes, state.taken_back
        if back and same_code(back[-1].covers, scheme.code):
            return f"{capfirst(back[-1].back_says())}. No other yes covers this scheme."
        if given:
            last = given[-1]
            return (
                f"{capfirst(last.says())}, but to another scheme ({last.covers}). This one has"
                f" the code {scheme.code}, and nobody has said yes to it."
            )
        return f"Nobody has said yes yet to what this scheme changes for good (code {scheme.code})."


def bench_desk(
    request: Request, shop: Workshop, job: str, drum: str, *, wait_s: float = WAIT_S
) -> BenchDesk:
    """Return a drum on the bench."""
    kept = kept_job(shop, job)
    return BenchDesk(
        shop=shop, job=kept, drum=kept.drum(drum), mine=mine_of(request),
        planned=plan_for(shop, kept, wait_s=wait_s),
    )  # fmt: skip
