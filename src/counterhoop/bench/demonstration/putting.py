"""A job of the demonstration on its way onto the bench, at the moment of one of its steps."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from itertools import count
from typing import TYPE_CHECKING, Final

from counterhoop.bench.folders.folder import KeptDrum, KeptJob, drawer, kept_job
from counterhoop.bench.folders.source import to_plan
from counterhoop.bench.long_work.answers import Done, Working
from counterhoop.bench.parts.shelf_stock import shelf_stock
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.store.save import Conflict, Saved

if TYPE_CHECKING:  # the planner takes a second to load, and the works have it already
    from counterhoop.bench.plan_job import DrumPlan, JobPlan
    from counterhoop.scheme.plan import Scheme

LONGEST_S: Final = 60.0
"""So long a plan of one drum is waited for; it takes a tenth of a second, once the works run."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Putting:
    """A job and the moment at which something is done to it.

    Attributes
    ----------
    shop : Workshop
        Its clock begins at that moment.
    job_id, by : str
        The job's name for programs, and the bench that writes.
    """

    shop: Workshop
    job_id: str
    by: str

    @property
    def job(self) -> KeptJob:
        """The folder as it is now."""
        return kept_job(self.shop, self.job_id)

    @property
    def drum(self) -> KeptDrum:
        """Its drum: these jobs have one each."""
        return self.job.drums[0]

    @property
    def today(self) -> str:
        """The day, as documents have it."""
        return self.shop.now().astimezone().date().isoformat()

    def plan(self) -> JobPlan:
        """Return the job planned."""
        job, held = self.job, drawer(self.shop)
        source = to_plan(job, shop=held, on_shelf=shelf_stock(self.shop, job, held=held)).source
        assert source is not None, job.title
        answer = self.shop.works.plan(source)
        if isinstance(answer, Working):
            answer = self.shop.works.wait(answer.id, LONGEST_S)
        if not isinstance(answer, Done):
            raise CannotDo(f"{job.title} could not be planned: {answer.says}")
        return answer.value

    def drum_plan(self) -> DrumPlan:
        """Return what its drum is planned as."""
        return self.plan().drums[0]

    def scheme(self) -> Scheme:
        """Return the scheme that stands for its drum."""
        chosen = self.drum_plan().chosen
        assert chosen is not None, self.job.title
        return chosen


def at(shop: Workshop, moment: dt.datetime) -> Workshop:
    """Return the same workshop with its clock at a moment, going on by a second at each look."""
    stamped, seconds = moment.astimezone(), count()
    return replace(shop, now=lambda: stamped + dt.timedelta(seconds=next(seconds)))


def kept(done: Saved | Conflict) -> Saved:
    """Return what was kept: a folder just opened has no other writer."""
    assert isinstance(done, Saved), done
    return done
