"""All work of a shop planned: greedy starts, a search from the best of them, a solver's bound."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from counterhoop.job.schedule.better_order import Found, Progress, Stop, better_order
from counterhoop.job.schedule.least_late import least_late
from counterhoop.job.schedule.numbered import NEVER, Numbered, number_tasks
from counterhoop.job.schedule.proof import least_held, prove
from counterhoop.job.schedule.starts import order_by_chance, starting_orders
from counterhoop.job.schedule.task import HUNDREDTHS, Due, Plan, Shop, Task
from counterhoop.job.schedule.work_through import plan_of
from counterhoop.job.schedule.worked import worked

BY_CHANCE = 300
"""Orders by chance beside those by rule; a plan is never later than the best of these."""
STEPS = 360_000
"""Pieces of work placed for one unit of effort, about what a second allows."""
SMALL = 12
"""Up to so many pieces of work the solver is asked before the search, which then seldom helps."""
SHARES = ((SMALL, (0.1, 1.0)), (70, (0.55, 0.2)), (NEVER, (0.75, 0.0)))
"""Up to how many pieces of work which shares of the effort the search and the solver get; the
solver's own count is some four seconds. Of more it says nothing within any time one would wait."""


def plan_shop(
    tasks: Sequence[Task],
    dues: Sequence[Due],
    shop: Shop,
    *,
    seed: int,
    limit: float | None = None,
    progress: Progress = lambda share: None,
    stop: Stop = lambda: False,
) -> Plan:
    """Plan all work so that as little as possible is late, by weight and minutes.

    Of plans that are equally late the one whose jobs are ready sooner, all added up, is taken.

    Parameters
    ----------
    tasks : sequence of Task
    dues : sequence of Due
        Jobs without one are never late, and only their finish counts.
    shop : Shop
        With hours for long enough; too few are complained of.
    seed : int
        The same seed and limit give the same plan.
    limit : float, optional
        Effort, roughly seconds, counted in steps and not by a clock; what usually suffices
        (``usual_limit``) when not given.
    progress : callable, optional
        Told the share that is done, 0 to 1.
    stop : callable, optional
        Asked now and then; where it answers true, the best plan so far is returned.

    Raises
    ------
    BadInput
        As ``work_through``.

    Examples
    --------
    >>> work = [
    ...     Task(key=job, job=job, drum=job, says="tune", minutes=minutes)
    ...     for job, minutes in (("long", 120), ("short", 30))
    ... ]
    >>> plan = plan_shop(
    ...     work, (Due(job="short", by=570), Due(job="long", by=600)),
    ...     Shop(open=((540, 720),), clamps=0, drying=0), seed=1,
    ... )
    >>> plan.order, plan.late, plan.bound, plan.proven
    (('short', 'long'), 90.0, 90.0, True)
    """
    if not tasks:
        return Plan(placed=(), late=0.0, proven=True)
    numbered = number_tasks(tasks, shop, dues)
    effort = usual_limit(len(tasks)) if limit is None else limit
    progress(0.0)
    starts = _starts(numbered, seed=seed)
    best = starts[0]
    plan_of(numbered, best.work, held=best.held, minutes=numbered.minutes)
    bound = least_late(numbered)
    count = len(tasks)
    search, proof = next(shares for most, shares in SHARES if count <= most)
    small = count <= SMALL

    def asked(found: Found, bound: int) -> tuple[Found, int]:
        if not proof or found.work.late <= bound or stop():
            return found, bound
        found, shown = prove(numbered, found, effort=effort * proof, stop=stop)
        return found, max(bound, shown)

    if small:
        best, bound = asked(best, bound)
    if not stop():
        best = better_order(
            numbered,
            starts if best is starts[0] else [best, *starts],
            chance=np.random.Generator(np.random.PCG64(seed)),
            decodings=int(effort * search * STEPS / (count + SMALL)),
            progress=lambda share: progress(0.05 + 0.75 * share),
            stop=stop,
        )
        progress(0.8)
    if not small:
        best, bound = asked(best, bound)
    progress(1.0)
    plan = plan_of(
        numbered, best.work, held=least_held(numbered, best.work), minutes=numbered.minutes
    )
    return replace(plan, bound=bound / HUNDREDTHS, proven=bound >= best.work.late)


def usual_limit(count: int) -> float:
    """Return the effort that usually suffices for so many pieces of work.

    Examples
    --------
    >>> usual_limit(50), usual_limit(125)
    (4.0, 16.0)
    """
    return min(16.0, max(1.0, (count / 25) ** 2))


def _starts(numbered: Numbered, *, seed: int) -> list[Found]:
    """Return orders by rule and by chance, worked through, the best first."""
    chance = np.random.Generator(np.random.PCG64(seed))
    free = [False] * len(numbered.keys)
    orders = [
        *starting_orders(numbered),
        *(order_by_chance(numbered, chance) for _ in range(BY_CHANCE)),
    ]
    found = [
        Found(worked(numbered, order, held=free, minutes=numbered.minutes), free)
        for order in orders
    ]
    return sorted(found, key=lambda one: one.value)
