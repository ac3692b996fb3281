"""Parts that cannot all be the drum's own: two readings, each with its years."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, permutations
from typing import Literal

import numpy as np

from counterhoop.evidence.in_use import Array
from counterhoop.evidence.originality import Shares, shares_of
from counterhoop.evidence.span import Span, span_of
from counterhoop.evidence.year import YearOdds

LEAST = 0.15
"""A reading less likely than this is not worth naming. Common practice, no source."""
PEACE = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One way to read it: this part is not of the drum's time, and when the drum then was made."""

    part: str
    is_: Literal["later", "earlier"]
    odds: float
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Conflict:
    """Two readings, the likelier first."""

    readings: tuple[Reading, Reading]

    @property
    def says(self) -> str:
        """It in a sentence."""
        first, second = (
            f"the {one.part} came {'later' if one.is_ == 'later' else 'from an older drum'} and "
            f"the drum was made {one.span}"
            for one in self.readings
        )
        return f"Two readings: either {first}, or {second}."


def conflict_of(odds: YearOdds) -> Conflict | None:
    """Return the two readings that compete most; None when one of them, or peace, is likelier.

    A pair of parts is in conflict when it is less likely than not that both are of the drum's
    time, and each may well be the one that is not while the other is.
    """
    shares = {part: shares_of(part, fit, odds.ground) for part, fit in odds.fits.items()}
    found: list[Conflict] = []
    for pair in combinations(shares, 2):
        together = _own(shares[pair[0]]) * _own(shares[pair[1]])
        if float((odds.joint * together).sum()) > PEACE:
            continue
        readings = [
            _reading(odds, moved, shares[moved], stays=shares[stays])
            for stays, moved in permutations(pair)
        ]
        if min(reading.odds for reading in readings) >= LEAST:
            one, other = sorted(readings, key=lambda reading: -reading.odds)
            found.append(Conflict(readings=(one, other)))
    return max(found, key=lambda one: one.readings[1].odds, default=None)


def _own(shares: Shares) -> Array:
    return shares.original + shares.of_the_period


def _reading(odds: YearOdds, part: str, moved: Shares, *, stays: Shares) -> Reading:
    rest = odds.joint * _own(stays)
    later, earlier = rest * moved.later, rest * moved.earlier
    way, mass = ("later", later) if later.sum() >= earlier.sum() else ("earlier", earlier)
    by_year = np.asarray(mass.sum(axis=(0, 1)))
    whole = float(by_year.sum())
    return Reading(
        part=part,
        is_="later" if way == "later" else "earlier",
        odds=whole,
        span=span_of(odds.years, by_year / whole, odds=0.8),
    )
