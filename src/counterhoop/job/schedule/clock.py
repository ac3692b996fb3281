"""Open minutes counted through, to and from minutes of the calendar."""

from __future__ import annotations

from array import array
from bisect import bisect_right
from dataclasses import dataclass
from functools import lru_cache


@dataclass(frozen=True, slots=True, kw_only=True)
class Clock:
    """The open minutes of a plan, numbered from 0 as if the shop never closed.

    Attributes
    ----------
    at : array of int, shape (total,)
        The minute of the calendar of each open minute.
    done : array of int, shape (last + 1,)
        How many open minutes lie before each minute of the calendar, which is also the number
        of the first open minute from there on.
    openings : tuple of int
        The numbers of the open minutes with which stretches begin.
    total, last : int
        How many open minutes there are, and the minute at which the last one ends.
    longest : int
        Open minutes of the longest stretch.
    """

    at: array[int]
    done: array[int]
    openings: tuple[int, ...]
    total: int
    last: int
    longest: int

    def number(self, minute: int) -> int:
        """Return the number of the first open minute from a minute on, ``total`` for none."""
        return self.done[minute] if minute <= self.last else self.total

    def stretch(self, number: int) -> tuple[int, int]:
        """Return the numbers between which the stretch of an open minute lies."""
        place = bisect_right(self.openings, number)
        ends = self.openings[place] if place < len(self.openings) else self.total
        return self.openings[place - 1], ends

    def pieces(self, number: int, minutes: int) -> tuple[tuple[int, int], ...]:
        """Return the stretches of work that begins with an open minute, in calendar minutes."""
        found, ends = [], number + minutes
        while number < ends:
            until = min(ends, self.stretch(number)[1])
            found.append((self.at[number], self.at[until - 1] + 1))
            number = until
        return tuple(found)


@lru_cache(maxsize=8)
def clock_of(stretches: tuple[tuple[int, int], ...]) -> Clock:
    """Count through working stretches.

    Examples
    --------
    >>> clock = clock_of(((540, 720), (780, 1020)))
    >>> clock.total, clock.number(700), clock.number(730), clock.at[180]
    (420, 160, 180, 780)
    >>> clock.pieces(170, 30)
    ((710, 720), (780, 800))
    """
    at, done, openings = array("i"), array("i"), []
    for begins, ends in stretches:
        done.extend([len(at)] * (begins - len(done)))
        openings.append(len(at))
        done.extend(range(len(at), len(at) + ends - begins))
        at.extend(range(begins, ends))
    done.append(len(at))
    return Clock(
        at=at,
        done=done,
        openings=tuple(openings),
        total=len(at),
        last=len(done) - 1,
        longest=max((ends - begins for begins, ends in stretches), default=0),
    )
