"""Days side by side on paper: where a time of the clock lies."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from functools import cached_property

NARROW_DAY, NIGHT = 0.35, 0.1
"""A closed day is as wide as this share of a working one; before and after hours take this much."""


@dataclass(frozen=True, kw_only=True)
class Calendar:
    """Days side by side on paper, working hours wide, nights and closed days narrow.

    Attributes
    ----------
    first : date
        The first day shown.
    days : int
        How many.
    opens, closes : float
        Between which hours of the clock work is done, on any day.
    closed : frozenset of date
        Days on which nobody works.
    wide_mm : float
        Of all days together.
    """

    first: dt.date
    days: int
    wide_mm: float
    opens: float = 8.0
    closes: float = 18.0
    closed: frozenset[dt.date] = frozenset()

    @cached_property
    def edges_mm(self) -> tuple[float, ...]:
        """Where each day begins, and where the last one ends."""
        shares = [NARROW_DAY if day in self.closed else 1.0 for day in self.each()]
        edges = [0.0]
        for share in shares:
            edges.append(edges[-1] + share * self.wide_mm / sum(shares))
        return tuple(edges)

    def each(self) -> list[dt.date]:
        """Return the days."""
        return [self.first + dt.timedelta(days=n) for n in range(self.days)]

    @property
    def begins(self) -> dt.datetime:
        """The first midnight."""
        return dt.datetime.combine(self.first, dt.time())

    @property
    def ends(self) -> dt.datetime:
        """The midnight after the last day."""
        return self.begins + dt.timedelta(days=self.days)

    def x_mm(self, when: dt.datetime) -> float:
        """Return where a time lies; before and after what is shown, at its ends.

        Examples
        --------
        >>> week = Calendar(first=dt.date(2026, 3, 2), days=5, wide_mm=50.0)
        >>> [round(week.x_mm(dt.datetime(2026, 3, 3, hour)), 6) for hour in (0, 8, 13, 18)]
        [10.0, 11.0, 15.0, 19.0]
        """
        if when <= self.begins:
            return 0.0
        if when >= self.ends:
            return self.wide_mm
        day = (when.date() - self.first).days
        left, right = self.edges_mm[day : day + 2]
        hour = when.hour + when.minute / 60.0
        if hour < self.opens:
            share = NIGHT * hour / self.opens
        elif hour <= self.closes:
            within = (hour - self.opens) / (self.closes - self.opens)
            share = NIGHT + (1.0 - 2.0 * NIGHT) * within
        else:
            share = 1.0 - NIGHT * (24.0 - hour) / (24.0 - self.closes)
        return left + share * (right - left)
