"""The shortest run of years that holds a share of the odds."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from counterhoop.evidence.in_use import Array

ODDS = (0.5, 0.8, 0.95)


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """From a year to a year, both counted, with the odds that the truth lies inside."""

    first: int
    last: int
    odds: float

    @property
    def wide(self) -> int:
        """How many years it counts."""
        return self.last - self.first + 1

    def __str__(self) -> str:
        return f"{self.first}" if self.first == self.last else f"{self.first} to {self.last}"


def span_of(years: Array, p: Array, *, odds: float, around: Span | None = None) -> Span:
    """Return the shortest run of years with at least these odds; of equals the likeliest.

    Parameters
    ----------
    years, p : array, shape (n,)
        Whole years without a gap; odds that sum to one.
    odds : float
        From 0 to 1.
    around : Span, optional
        A run that it must hold, so that surer spans never leave out years of narrower ones.

    Examples
    --------
    >>> str(span_of(np.arange(1950.0, 1955), np.array([0.1, 0.2, 0.4, 0.2, 0.1]), odds=0.75))
    '1951 to 1953'
    """
    up_to = np.concatenate([[0.0], np.cumsum(p)])
    wanted = min(odds, float(up_to[-1])) - 1e-12
    lasts = np.searchsorted(up_to, up_to[:-1] + wanted)
    starts = np.arange(len(years))
    if around is not None:
        starts = starts[years <= around.first]
        lasts = np.maximum(lasts[: len(starts)], np.searchsorted(years, around.last) + 1)
    starts = starts[lasts < len(up_to)]
    wide = lasts[starts] - starts
    held = up_to[lasts[starts]] - up_to[starts]
    best = starts[np.lexsort((-held, wide))[0]]
    last = lasts[best]
    return Span(
        first=int(years[best]),
        last=int(years[last - 1]),
        odds=float(min(1.0, up_to[last] - up_to[best])),
    )


def spans_of(years: Array, p: Array) -> dict[float, Span]:
    """Return the runs for odds of 0.5, 0.8 and 0.95, each within the next."""
    spans: dict[float, Span] = {}
    around = None
    for odds in ODDS:
        around = spans[odds] = span_of(years, p, odds=odds, around=around)
    return spans
