"""What work has taken so far, and what is left of it."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, inf, log

from counterhoop.errors import BadInput
from counterhoop.job.schedule.task import Task


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """Work that has been picked up.

    Attributes
    ----------
    task : Task
        As it was planned before it was begun: its minutes and their spread.
    worked_min : float
        Hands at work so far.
    finished : bool
        It is done, and stands in the plan no more; else it still does.

    Raises
    ------
    BadInput
        Work below nothing, or finished in no time.
    """

    task: Task
    worked_min: float
    finished: bool = False

    def __post_init__(self) -> None:
        if not 0 <= self.worked_min < inf or (self.finished and self.worked_min == 0):
            raise BadInput(
                "work takes some time", where=self.task.key, given=self.worked_min,
                wanted="the minutes that hands were at work",
            )  # fmt: skip


def left_of(task: Task, worked_min: float) -> float:
    """Return what is left of work that has taken so long already and is not finished.

    Parameters
    ----------
    task : Task
        As planned: its minutes are the median of a lognormal, its spread the sigma.
    worked_min : float
        Hands at work so far.

    Returns
    -------
    float
        Minutes, the median of those workings that take longer than this; at least 1. Work far past
        its usual time is not nearly done, as subtraction would have it.

    Examples
    --------
    >>> plug = Task(key="plug", job="14", drum="small tom", says="plug", minutes=60, spread=0.4)
    >>> [round(left_of(plug, worked)) for worked in (0, 30, 60, 90)]
    [60, 31, 19, 16]
    """
    from scipy.special import log_ndtr, ndtri_exp

    if not 0 <= worked_min < inf:
        raise BadInput("work takes some time", where=task.key, given=worked_min, wanted="0 or more")
    if task.spread == 0:
        return max(1.0, task.minutes - worked_min)
    above = log(worked_min / task.minutes) / task.spread if worked_min else -inf
    # Half of the chance that lies above; by logarithms, which hold far out in the tail.
    median = -float(ndtri_exp(log_ndtr(-above) - log(2.0)))
    return max(1.0, task.minutes * exp(task.spread * median) - worked_min)
