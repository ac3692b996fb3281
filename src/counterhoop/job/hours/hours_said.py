"""What a list of work will take in all: quick, usual and slow."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.job.hours.belief import Belief
from counterhoop.job.hours.shared import SHARED_SPREAD
from counterhoop.job.hours.sum_of_work import percentiles_of


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkSaid:
    """One line of work by itself.

    Attributes
    ----------
    operation : str
        Name in the operations book.
    count : int
        How many are done.
    quick_min, usual_min, slow_min : float
        10th, 50th and 90th percentile of this line, without the factor that the job shares.
    whose : str
        Whose figure it is, as in ``Belief``.
    """

    operation: str
    count: int
    quick_min: float
    usual_min: float
    slow_min: float
    whose: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HoursSaid:
    """What all work of a job takes.

    Percentiles do not add up: the sum of the lines' usual figures is a little below the job's.

    Attributes
    ----------
    quick_min, usual_min, slow_min : float
        10th, 50th and 90th percentile of all hands at work: in eight jobs of ten it lies
        between quick and slow.
    mean_min : float
        What many such jobs take on average.
    lines : tuple of WorkSaid
        In the order given.
    """

    quick_min: float
    usual_min: float
    slow_min: float
    mean_min: float
    lines: tuple[WorkSaid, ...]


def hours_of(works: Sequence[tuple[str, int]], beliefs: Mapping[str, Belief]) -> HoursSaid:
    """Return what a list of work takes in all, with the factor that the job's work shares.

    One line is one working: its eight holes share their luck. Lines differ from each other by
    their own spread, and the job's shared factor (``SHARED_SPREAD``) lies over all of them. Some
    of it is in the lines' spreads already, so that the interval is rather too wide than too
    narrow.

    Parameters
    ----------
    works : sequence of (str, int)
        Operation and how many.
    beliefs : Mapping of str to Belief
        By operation.

    Raises
    ------
    BadInput
        For work that nothing is believed of, or less than none of it.

    Examples
    --------
    >>> drill = Belief(
    ...     operation="drill a hole", median_min=6.0, spread=0.36, times=0, whose="the book's"
    ... )
    >>> said = hours_of([("drill a hole", 10)], {"drill a hole": drill})
    >>> round(said.quick_min), round(said.usual_min), round(said.slow_min)
    (36, 60, 99)
    """
    lines = tuple(_line(operation, count, beliefs) for operation, count in works)
    times = [
        (line.usual_min, beliefs[line.operation].spread) for line in lines if line.usual_min > 0.0
    ]
    if not times:
        return HoursSaid(quick_min=0.0, usual_min=0.0, slow_min=0.0, mean_min=0.0, lines=lines)
    quick_min, usual_min, slow_min = percentiles_of(times, percents=(10, 50, 90))
    shared = math.exp(SHARED_SPREAD**2 / 2.0)
    return HoursSaid(
        quick_min=quick_min,
        usual_min=usual_min,
        slow_min=slow_min,
        mean_min=shared * math.fsum(m * math.exp(s * s / 2.0) for m, s in times),
        lines=lines,
    )


def _line(operation: str, count: int, beliefs: Mapping[str, Belief]) -> WorkSaid:
    if operation not in beliefs:
        raise BadInput(
            "nobody has said how long this takes",
            where="work",
            given=operation,
            wanted="an operation of the operations book",
        )
    if count < 0:
        raise BadInput("less than none of it", where=operation, given=count, wanted="0 or more")
    belief = beliefs[operation]
    return WorkSaid(
        operation=operation,
        count=count,
        quick_min=count * belief.quick_min,
        usual_min=count * belief.median_min,
        slow_min=count * belief.slow_min,
        whose=belief.whose,
    )
