"""A drum being tuned, as one request finds it: what is written of it, its plan, its readings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from starlette.requests import Request

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob, kept_job
from counterhoop.bench.folders.kinds import TUNING
from counterhoop.bench.folders.recordings import recordings_of
from counterhoop.bench.long_work.answers import Answer, Working
from counterhoop.bench.long_work.results import KitTold
from counterhoop.bench.remembered import Remembered
from counterhoop.bench.workshop import Workshop
from counterhoop.store.enclosures.enclose import Enclosure
from counterhoop.web.folder_index import drum_address
from counterhoop.web.kept_readings import ReadAgain, kept_readings
from counterhoop.web.look.mine import Mine, mine_of
from counterhoop.web.plans import WAIT_S, Planned, plan_for

if TYPE_CHECKING:  # heads and the planner take a second to load, and the works have them
    from counterhoop.bench.plan_job import DrumPlan
    from counterhoop.bench.tune.drum_to_tune import DrumToTune

_TO_TUNE = Remembered(most=64)
SETTLED_S = 0.6
"""After something was written nobody minds half a second more, if the page is whole then."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TunedDesk:
    """A drum being tuned."""

    shop: Workshop
    job: KeptJob
    drum: KeptDrum
    mine: Mine
    planned: Planned
    wait_s: float = WAIT_S

    @property
    def address(self) -> str:
        """Of its sheet."""
        return f"{drum_address(self.job, self.drum)}/tuned"

    @property
    def kept(self) -> Kept:
        """Its heads and tuning, as they are written."""
        return self.drum.kept(TUNING)

    @property
    def plan(self) -> DrumPlan | None:
        """The drum's part of the plan; nothing while it is worked out, or cannot be."""
        return self.planned.drum(self.drum)

    @property
    def tune(self) -> DrumToTune | None:
        """The drum as tuning asks for it."""
        from counterhoop.bench.tune.drum_to_tune import drum_to_tune

        plan = self.plan
        if plan is None:
            return None
        source = self.planned.source
        key = (source.key if source else "", self.drum.name)
        made: DrumToTune = _TO_TUNE.get(key, lambda: drum_to_tune(plan))
        return made

    @property
    def two_heads(self) -> bool:
        """Whether it wears two heads now or will; two while nobody knows."""
        tune = self.tune
        return tune is None or max(tune.heads_now, tune.heads_then) > 1

    @property
    def recordings(self) -> tuple[Enclosure, ...]:
        """What was put in of it, the last first."""
        return recordings_of(self.shop, self.job.id, drum=self.drum.id)[::-1]

    @property
    def readings(self) -> tuple[ReadAgain, ...]:
        """What was kept of it, in the order in which it was; nothing while there is no plan."""
        tune = self.tune
        return kept_readings(tune.tuning.readings) if tune else ()

    @property
    def kit(self) -> Answer[KitTold] | None:
        """The pitches of the kit that it belongs to, or how far they are."""
        source = self.planned.source
        if self.plan is None or source is None:
            return None
        answer = self.shop.works.kit(source)
        return (
            self.shop.works.wait(answer.id, self.wait_s) if isinstance(answer, Working) else answer
        )

    def written(self, name: str) -> list[Any]:
        """What is written of turns or heights, as it stands."""
        held = self.kept.table.get(name)
        return held if isinstance(held, list) else []


def tuned_desk(
    request: Request, shop: Workshop, job: str, drum: str, *, wait_s: float = WAIT_S
) -> TunedDesk:
    """Return a drum being tuned."""
    kept = kept_job(shop, job)
    return TunedDesk(
        shop=shop, job=kept, drum=kept.drum(drum), mine=mine_of(request),
        planned=plan_for(shop, kept, wait_s=wait_s), wait_s=wait_s,
    )  # fmt: skip


def settled(request: Request, shop: Workshop, job: str, drum: str) -> None:
    """Wait a moment for what a page of this drum shows after something was written."""
    _ = tuned_desk(request, shop, job, drum, wait_s=SETTLED_S).kit
