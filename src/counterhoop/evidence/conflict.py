"""Parts that cannot all be the drum's own: each way to read it, with its odds and its years."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import Literal

import numpy as np

from counterhoop.evidence.in_use import Array
from counterhoop.evidence.originality import Shares, shares_of
from counterhoop.evidence.span import Span, span_of
from counterhoop.evidence.year import YearOdds

LEAST = 0.15
"""A reading less likely than this is not worth naming. Common practice, no source."""
PEACE = 0.5
READING_SPAN = 0.9
"""A reading's years are given wider than the drum's: two humps weighed together reach farther than
the middle of either."""

Way = Literal["later", "earlier", "both", "neither"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One way to read two parts, and when the drum then was made.

    Attributes
    ----------
    part : str
        The one that is not of the drum's time; empty where both are, or neither.
    is_ : {"later", "earlier", "both", "neither"}
        What that part is, by the likelier of the two; or whether both are the drum's own.
    odds : float
    p : array, shape (n,)
        Odds of each year if it is so; they sum to one.
    span : Span
        The shortest with odds of ``READING_SPAN``.
    """

    part: str
    is_: Way
    odds: float
    p: Array
    span: Span

    @property
    def says(self) -> str:
        """It as half a sentence."""
        match self.is_:
            case "later":
                how = f"the {self.part} came later"
            case "earlier":
                how = f"the {self.part} came from an older drum"
            case "both":
                how = "both are its own, and one was seen wrong or its row has too few years"
            case "neither":
                how = "neither is its own"
        return f"{how}: then made {self.span} ({in_ten(self.odds)})"


@dataclass(frozen=True, slots=True, kw_only=True)
class Conflict:
    """Two parts that hardly go together, and all four ways to read it.

    Attributes
    ----------
    parts : (str, str)
    readings : tuple of Reading, length 4
        First those in which one part is not of the drum's time, the likelier before the other;
        then both and neither. They leave nothing over: their odds sum to one, and their years,
        each weighed by its odds, are the years of the drum.
    """

    parts: tuple[str, str]
    readings: tuple[Reading, ...]

    @property
    def named(self) -> tuple[Reading, ...]:
        """Those that are worth naming."""
        return tuple(one for one in self.readings if one.odds >= LEAST)

    @property
    def says(self) -> tuple[str, ...]:
        """It in lines: what does not go together, then each reading."""
        one, other = self.parts
        first, *rest = self.named
        return (
            f"The {one} and the {other} hardly go together. The years above weigh every reading:",
            f"either {first.says};",
            *(f"or {reading.says};" for reading in rest[:-1]),
            f"or {rest[-1].says}.",
        )


def in_ten(odds: float) -> str:
    """Say odds in tenths.

    Examples
    --------
    >>> in_ten(0.27)
    '3 in 10'
    """
    return f"{10.0 * odds:.0f} in 10"


def conflict_of(odds: YearOdds) -> Conflict | None:
    """Return the readings of the two parts that compete most; None where peace is likelier.

    A pair of parts is in conflict when it is less likely than not that both are of the drum's
    time, and each may well be the one that is not while the other is.
    """
    shares = {part: shares_of(part, fit, odds.ground) for part, fit in odds.fits.items()}
    found: list[tuple[float, Conflict]] = []
    for one, other in combinations(shares, 2):
        own, others = _own(shares[one]), _own(shares[other])
        if float((odds.joint * own * others).sum()) > PEACE:
            continue
        moved = [
            _reading(odds, 1.0 - own, others, part=one, is_=_which(odds, others, shares[one])),
            _reading(odds, own, 1.0 - others, part=other, is_=_which(odds, own, shares[other])),
        ]
        least = min(reading.odds for reading in moved)
        if least >= LEAST:
            readings = (
                *sorted(moved, key=lambda reading: -reading.odds),
                _reading(odds, own, others, is_="both"),
                _reading(odds, 1.0 - own, 1.0 - others, is_="neither"),
            )
            found.append((least, Conflict(parts=(one, other), readings=readings)))
    return max(found, key=lambda pair: pair[0])[1] if found else None


def _own(shares: Shares) -> Array:
    return shares.original + shares.of_the_period


def _which(odds: YearOdds, stays: Array, moved: Shares) -> Way:
    later, earlier = ((odds.joint * stays * one).sum() for one in (moved.later, moved.earlier))
    return "later" if later >= earlier else "earlier"


def _reading(odds: YearOdds, one: Array, other: Array, *, is_: Way, part: str = "") -> Reading:
    by_year = np.asarray((odds.joint * one * other).sum(axis=(0, 1)))
    whole = float(by_year.sum())
    p = by_year / whole if whole > 0.0 else odds.p
    return Reading(
        part=part, is_=is_, odds=whole, p=p, span=span_of(odds.years, p, odds=READING_SPAN)
    )
