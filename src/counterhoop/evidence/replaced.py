"""When the part that is on a drum today was made, if parts are lost and replaced over the years."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

import numpy as np

from counterhoop.evidence.in_use import Array
from counterhoop.evidence.reference import Part

HANDS = ((0.2, 0.4), (1.0, 0.4), (2.6, 0.2))
"""Drums that were left alone, usual ones and much-worked-on ones: how fast each loses parts against
the mean, and how many of each there are. Without them two parts that disagree would count as two
rare accidents, where they are mostly one drum's life. Common practice, no source."""
_FIFTY_YEARS = 50.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PartMade:
    """When the part was made, by the year of the drum.

    Attributes
    ----------
    kept : array, shape (n,)
        Chance that it is the drum's first.
    other : array, shape (n, n)
        Chance that it is not and was made in the year of the column; rows of ``kept`` and this
        together sum to one.
    """

    kept: Array
    other: Array


@cache
def yearly_rate(lost_in_fifty_years: float) -> float:
    """Return the rate of the usual hand at which, over all hands, this share is lost.

    Hands must be counted in: a part that much-worked-on drums lose early is lost no second time, so
    at the plain rate, -ln(1 - share) / 50, fewer would be lost than the reference states.

    Examples
    --------
    >>> rate = yearly_rate(0.35)
    >>> round(sum(many * math.exp(-50 * rate * hand) for hand, many in HANDS), 6)
    0.65
    """
    low, high = 0.0, 1.0
    for _ in range(60):
        rate = (low + high) / 2.0
        kept = sum(many * math.exp(-_FIFTY_YEARS * rate * hand) for hand, many in HANDS)
        low, high = (rate, high) if kept > 1.0 - lost_in_fifty_years else (low, rate)
    return low


def part_made(part: Part, years: Array, *, drums: Array, hand: float) -> PartMade:
    """Return when the part on a drum was made.

    A part is lost at a steady rate, so an old drum has had more of them than a young one, and what
    is on it is the last that was fitted: its year is counted back from the day of looking, not on
    from the drum's own. It was new then, or came off any drum made until then.

    Parameters
    ----------
    part : Part
        How often it is lost, how often a donor gave the next.
    years : array, shape (n,)
        Whole years, the last the year of looking.
    drums : array, shape (n,)
        How many drums were made in each year, in any unit.
    hand : float
        How fast this drum loses parts, against the mean.
    """
    rate = yearly_rate(part.lost_in_fifty_years) * hand
    kept = np.exp(-rate * (years[-1] - years))
    fitted = np.triu(np.ones((len(years), len(years))), k=1) * kept * -math.expm1(-rate)
    donor = np.tril(np.ones((len(years), len(years)))) * drums
    whole = donor.sum(axis=1, keepdims=True)
    donor = np.where(whole > 0.0, donor / np.where(whole > 0.0, whole, 1.0), np.eye(len(years)))
    came = (1.0 - part.from_a_donor) * np.eye(len(years)) + part.from_a_donor * donor
    return PartMade(kept=kept, other=fitted @ came)
