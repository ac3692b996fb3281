"""The plan worked many times over, as it would be worked."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import BadInput
from counterhoop.job.hours.shared import SHARED_SPREAD
from counterhoop.job.promise.luck import minutes_drawn
from counterhoop.job.promise.so_far import Begun
from counterhoop.job.schedule.numbered import NEVER, number_tasks
from counterhoop.job.schedule.task import Shop, Task
from counterhoop.job.schedule.worked import worked

WORKINGS = 10_000
"""Enough for a share of 80 % to be within 1 %, nineteen times in twenty."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Workings:
    """When each job was ready, in each working.

    Attributes
    ----------
    jobs : tuple of str
        In the order in which the work names them.
    finish_min : array of float, shape (workings, jobs)
        The minute at which all of a job's work is finished and cured; infinite where the
        working hours given ended before that.
    """

    jobs: tuple[str, ...]
    finish_min: NDArray[np.float64]

    def of(self, job: str) -> NDArray[np.float64]:
        """Return the finishes of one job, shape (workings,)."""
        if job not in self.jobs:
            raise BadInput("has no work in the plan", where="job", given=job)
        finishes: NDArray[np.float64] = self.finish_min[:, self.jobs.index(job)]
        return finishes


def workings(
    order: Sequence[str],
    tasks: Sequence[Task],
    shop: Shop,
    *,
    rng: np.random.Generator,
    count: int = WORKINGS,
    shared_spread: float = SHARED_SPREAD,
    held: Collection[str] = (),
    so_far: Sequence[Begun] = (),
) -> Workings:
    """Work a plan many times, each time with other hours.

    The person at the bench keeps to the plan's order as ``work_through`` does: at each free
    moment the first in it that may begin is begun, however late or early it has become.

    Parameters
    ----------
    order, held : str
        Keys, as ``Plan.order`` and ``Plan.held`` have them.
    tasks : sequence of Task
    shop : Shop
        With hours for long enough that slow workings end too.
    rng : numpy.random.Generator
        Where the luck comes from; the same gives the same workings.
    count : int
        How many.
    shared_spread : float
        Sigma of the logarithm of the factor that all work of one job shares.
    so_far : sequence of Begun
        What was finished already, and what is in hand.

    Raises
    ------
    BadInput
        As ``work_through`` and ``minutes_drawn``; no workings asked for.

    Examples
    --------
    >>> tune = Task(key="tune", job="14", drum="small tom", says="tune", minutes=60, spread=0.3)
    >>> shop = Shop(open=((540, 780), (1980, 2220)), clamps=0, drying=0)
    >>> found = workings(("tune",), (tune,), shop, rng=np.random.Generator(np.random.PCG64(1)))
    >>> found.jobs, len(found.finish_min), round(float(np.median(found.finish_min)), -1)
    (('14',), 10000, 600.0)
    """
    if count < 1:
        raise BadInput(
            "a plan is worked at least once", given=count, wanted="a count such as 10000"
        )
    numbered = number_tasks(tasks, shop)
    places = {key: place for place, key in enumerate(numbered.keys)}
    if sorted(order) != sorted(places):
        odd = sorted(set(order) ^ set(places)) or sorted(order)
        raise BadInput("an order names all work once", given=odd[0])
    turn = numbered.in_turn([places[key] for key in order])
    holds = [key in held for key in numbered.keys]
    drawn = minutes_drawn(
        tasks, rng=rng, count=count, shared_spread=shared_spread, so_far=so_far
    ).tolist()
    cured = np.empty((count, len(tasks)))
    for row, minutes in enumerate(drawn):
        done = worked(numbered, turn, held=holds, minutes=minutes)
        cured[row] = done.cured
        if done.late >= NEVER:
            cured[row, sorted(set(range(len(tasks))) - set(done.order))] = np.inf
    jobs = tuple(dict.fromkeys(task.job for task in tasks))
    finish_min = np.tile(np.array(numbered.cures, dtype=float), (count, 1))
    for place, job in enumerate(numbered.job):
        np.maximum(finish_min[:, job], cured[:, place], out=finish_min[:, job])
    finish_min.flags.writeable = False
    return Workings(jobs=jobs, finish_min=finish_min)
