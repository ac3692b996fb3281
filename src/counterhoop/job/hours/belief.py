"""What one of an operation takes: the book's figure, moved toward this person by their log."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from counterhoop.job.hours.conjugate import NormalGuess, guess_of
from counterhoop.job.hours.worked import Worked
from counterhoop.shell.operations import TAIL, Operation

BOOK_WEIGHT = 2.0
"""Workings that the book's median is worth (common practice, no source)."""
BOOK_SHAPE = 3.0
"""How fast the book's spread gives way: half a step a working (common practice, no source)."""
WILD_FACTOR = 3.0
"""A time further off than this is asked about, and counts only as far as this."""
TOO_QUICK_FACTOR = 10.0
"""What a clock has as quicker than so was no work, but a slip of the hand that pressed."""
INSTANT_MIN, LONG_MIN = 1.0, 10.0
"""Nor was less than the one for what usually takes the other (common practice, no source)."""
MOSTLY_OWN = 0.8
"""A figure is called one's own once the log has this share of it (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Belief:
    """What one of an operation takes, on the log scale.

    Attributes
    ----------
    operation : str
        Name in the operations book.
    median_min : float
        Hands at work for one; half of all workings take less.
    spread : float
        Sigma of the logarithm of the minutes of one working, doubt of the median included.
    times : int
        Own workings it has learned from.
    whose : str
        Whose figure it is: "the book's", "your own figure", "partly yours, from 3 workings",
        "yours, from 12 workings".
    """

    operation: str
    median_min: float
    spread: float
    times: int
    whose: str

    @property
    def quick_min(self) -> float:
        """One working in ten takes less."""
        return self.median_min * math.exp(-TAIL * self.spread)

    @property
    def slow_min(self) -> float:
        """One working in ten takes more."""
        return self.median_min * math.exp(TAIL * self.spread)


def believed(operation: Operation, log: Iterable[Worked]) -> Belief:
    """Return what one of an operation takes, by the book and by the log.

    The logarithm of the minutes for one is normal with unknown mean and spread, and each working
    is one reading of it, whether it was one hole or eight: holes drilled in one go share their
    luck. A reading further than ``WILD_FACTOR`` from what was expected at that time enters
    clipped, also where somebody said that it was so: one wild time after n workings moves the
    median by the factor 3 ** (1 / (n + 1 + BOOK_WEIGHT)) at most, 1.088 after ten, and a truth
    further off is reached by several. What was ``too_quick`` teaches nothing.

    Workings enter by their day, those of one day from the shorter to the longer. Where none is
    clipped their order changes nothing.

    Parameters
    ----------
    operation : Operation
        As the book or the workshop's own figures have it. One set to no minutes at all is not
        reckoned and learns nothing.
    log : iterable of Worked
        Any workings; those of other operations are passed over.

    Examples
    --------
    >>> from counterhoop.shell.operations import operations
    >>> drill = next(o for o in operations() if o.name == "drill a hole")
    >>> round(believed(drill, ()).median_min, 6), believed(drill, ()).whose
    (6.0, "the book's")
    """
    if operation.minutes <= 0.0:
        return Belief(
            operation=operation.name, median_min=0.0, spread=0.0, times=0, whose="your own figure"
        )
    own = [one for one in log if one.operation == operation.name]
    guess = guess_of(
        mean=math.log(operation.minutes),
        spread=operation.spread,
        weight=BOOK_WEIGHT,
        shape=BOOK_SHAPE,
    )
    times = 0
    for one in sorted(own, key=lambda w: (w.when, w.each_min, w.typed)):
        if not too_quick(one, median_min=math.exp(guess.mean)):
            guess, times = guess.learn(_reading(one, guess)), times + 1
    return Belief(
        operation=operation.name,
        median_min=math.exp(guess.mean),
        spread=guess.spread,
        times=times,
        whose=_whose(operation, times),
    )


def too_quick(one: Worked, *, median_min: float) -> bool:
    """Tell whether a clock has so little time that nothing was worked in it.

    A time that somebody wrote down was meant, however short it is.

    Examples
    --------
    >>> import datetime as dt
    >>> def at(minutes):
    ...     return Worked(operation="strip", count=1, minutes=minutes, when=dt.date(2030, 5, 14))
    >>> [too_quick(at(m), median_min=40.0) for m in (0.2, 3.9, 4.0)]
    [True, True, False]
    >>> too_quick(at(0.9), median_min=9.0), too_quick(at(0.9), median_min=10.0)
    (False, True)
    """
    if one.typed:
        return False
    each_min = one.each_min
    instant = each_min < INSTANT_MIN and median_min >= LONG_MIN
    return instant or each_min < median_min / TOO_QUICK_FACTOR


def _reading(one: Worked, guess: NormalGuess) -> float:
    most = math.log(WILD_FACTOR)
    return guess.mean + min(max(math.log(one.each_min) - guess.mean, -most), most)


def _whose(operation: Operation, times: int) -> str:
    if not times:
        return "your own figure" if operation.own else "the book's"
    workings = "1 working" if times == 1 else f"{times} workings"
    mostly = times >= MOSTLY_OWN * (times + BOOK_WEIGHT)
    return f"yours, from {workings}" if mostly else f"partly yours, from {workings}"
