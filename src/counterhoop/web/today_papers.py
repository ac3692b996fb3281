"""The paper that a piece of work is done by, and where it is had."""

from __future__ import annotations

from dataclasses import dataclass, field

from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.paper_sorts import BENCH_SHEET
from counterhoop.bench.promise.todays_list import BY_STEP, NUMBERED
from counterhoop.bench.workshop import Workshop
from counterhoop.web.paper_asked import known_to_list, printing_for
from counterhoop.web.paper_shelf import PaperOnShelf, papers_on_shelf
from counterhoop.web.plans import plan_for


@dataclass(slots=True)
class Papers:
    """The papers of the jobs on a page, each job's looked up once."""

    shop: Workshop
    known: dict[tuple[str, str], tuple[PaperOnShelf, ...]] = field(default_factory=dict)

    def of(self, job: KeptJob, drum: KeptDrum, *, step: str) -> PaperOnShelf | None:
        """Return the paper of a step; the bench sheet where it has none, nothing without a plan."""
        key = (job.id, drum.id)
        if key not in self.known:
            self.known[key] = self._listed(job, drum)
        for sort in (BY_STEP.get(step, BENCH_SHEET), BENCH_SHEET):
            start = sort.start.lstrip(NUMBERED)
            for one in self.known[key]:
                if one.title.startswith(start):
                    return one
        return None

    def _listed(self, job: KeptJob, drum: KeptDrum) -> tuple[PaperOnShelf, ...]:
        plan = plan_for(self.shop, job, wait_s=0.0).plan
        if plan is None or all(one.key != drum.name for one in plan.drums):
            return ()
        printing, known = printing_for(self.shop, paper=""), known_to_list(job)
        return tuple(
            one
            for drum_id in (drum.id, "")
            for one in papers_on_shelf(job, plan, drum_id=drum_id, printing=printing, known=known)
        )
