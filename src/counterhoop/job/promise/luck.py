"""What all work takes, drawn many times, given what it has taken so far."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import log

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import BadInput
from counterhoop.job.hours.belief import WILD_FACTOR
from counterhoop.job.promise.so_far import Begun
from counterhoop.job.schedule.task import Task

Draws = NDArray[np.float64]
LONGEST_MIN = 1e7
"""Twenty years: longer than any working hours that a plan is given."""


@dataclass(slots=True, kw_only=True)
class _Job:
    """The logarithm of the factor that all work of a job shares: its mean and variance."""

    mean: float = 0.0
    variance: float
    begun: dict[str, Begun] = field(default_factory=dict)


def minutes_drawn(
    tasks: Sequence[Task],
    *,
    rng: np.random.Generator,
    count: int,
    shared_spread: float,
    so_far: Sequence[Begun] = (),
) -> NDArray[np.int64]:
    """Draw how long hands are at each piece of work.

    Parameters
    ----------
    tasks : sequence of Task
        Drawn for in their order, so that what comes after them changes no draw of theirs.
    rng : numpy.random.Generator
        Where the luck comes from.
    count : int
        How often.
    shared_spread : float
        Sigma of the logarithm of the factor that all work of one job shares.
    so_far : sequence of Begun
        Finished work, which tells of the factor of its job, and work in hand, which takes
        longer than it has so far.

    Returns
    -------
    array of int, shape (count, tasks)
        Whole minutes still to come, at least 1.

    Raises
    ------
    BadInput
        Two pieces of work of one job in hand.

    Notes
    -----
    ln minutes = ln usual + s + spread z, with s of the job and z of the piece of work normal.
    After finished work s is normal still (conjugate, variances known); a time wilder than the
    hours take it for is clipped. Work in hand makes s + spread z a normal cut off below, and s
    given that sum is normal again. Luck is dealt (a Latin hypercube, McKay, Beckman and Conover
    1979, Technometrics 21, from memory): shares of workings scatter no more than by plain draws,
    and less where minutes mostly add up.
    """
    jobs = _jobs(tasks, shared_spread=shared_spread, so_far=so_far)
    shared: dict[str, Draws] = {}
    luck: list[Draws] = []
    for task in tasks:
        if task.job not in shared:
            shared[task.job] = _dealt(rng, count)
        luck.append(_dealt(rng, count))
    drawn = np.empty((count, len(tasks)))
    for place, task in enumerate(tasks):
        if task.key in jobs[task.job].begun:
            drawn[:, place], shared[task.job] = _in_hand(
                jobs[task.job], jobs[task.job].begun[task.key], luck[place], shared[task.job]
            )
    for place, task in enumerate(tasks):
        its = jobs[task.job]
        if task.key not in its.begun:
            factor = shared[task.job] if its.begun else _of_job(its, shared[task.job])
            drawn[:, place] = _minutes(task, factor + task.spread * luck[place])
    whole: NDArray[np.int64] = np.rint(np.clip(drawn, 1.0, LONGEST_MIN)).astype(np.int64)
    return whole


def _dealt(rng: np.random.Generator, count: int) -> Draws:
    """Return normal draws, one from each of so many equally likely slices, shuffled."""
    from scipy.special import ndtri

    dealt: Draws = ndtri((rng.permutation(count) + rng.uniform(1e-9, 1.0 - 1e-9, count)) / count)
    return dealt


def _jobs(
    tasks: Sequence[Task], *, shared_spread: float, so_far: Sequence[Begun]
) -> dict[str, _Job]:
    """Return what is known of each job's factor, and what of it is in hand."""
    if not shared_spread >= 0:
        raise BadInput("a spread is below nothing", given=shared_spread, wanted="0 or more")
    jobs = {task.job: _Job(variance=shared_spread**2) for task in tasks}
    in_plan = {task.key: task.job for task in tasks}
    for one in so_far:
        its = jobs.get(one.task.job)
        if in_plan.get(one.task.key) != (None if one.finished else one.task.job):
            raise BadInput(
                "finished work stands in the plan no more, and work in hand does for its job",
                where=one.task.key,
            )
        if its is None:
            continue
        if not one.finished:
            if its.begun:
                raise BadInput("two pieces of work of one job are in hand", where=one.task.key)
            its.begun[one.task.key] = one
        elif its.variance and one.task.spread:
            took = log(min(max(one.worked_min / one.task.minutes, 1 / WILD_FACTOR), WILD_FACTOR))
            told = its.variance / (its.variance + one.task.spread**2)
            its.mean += told * (took - its.mean)
            its.variance *= 1.0 - told
    return jobs


def _of_job(its: _Job, normal: Draws) -> Draws:
    factor: Draws = its.mean + its.variance**0.5 * normal
    return factor


def _minutes(task: Task, factor: Draws) -> Draws:
    with np.errstate(over="ignore"):
        minutes: Draws = task.minutes * np.exp(factor)
    return minutes


def _in_hand(its: _Job, one: Begun, luck: Draws, shared: Draws) -> tuple[Draws, Draws]:
    """Return the minutes left of work in hand, and its job's factor, drawn together."""
    from scipy.special import log_ndtr, ndtri_exp

    task, both = one.task, its.variance + one.task.spread**2
    if both == 0.0:
        return np.full_like(luck, task.minutes - one.worked_min), np.full_like(luck, its.mean)
    with np.errstate(divide="ignore"):
        above = (np.log(one.worked_min / task.minutes) - its.mean) / both**0.5
    off = -ndtri_exp(log_ndtr(-above) + log_ndtr(-luck)) * both**0.5
    factor = its.mean + its.variance / both * off
    factor += (its.variance / both) ** 0.5 * task.spread * shared
    return _minutes(task, its.mean + off) - one.worked_min, factor
