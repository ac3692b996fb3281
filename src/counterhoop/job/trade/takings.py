"""All that may come in, and how likely: things that sell or do not, each for itself."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from counterhoop.job.trade.lot import Lot
from counterhoop.job.trade.weighted import weighted_quantile

MOST_AMOUNTS = 20_000
"""So many different amounts are kept apart; beyond, neighbours share a grid of so many steps."""

PRICE_STEPS = 40
"""An uncertain price is taken at each fortieth of its law, so that the tenth below and the tenth
above, between which a value names its span, are among them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Takings:
    """A law of whole minor units.

    Attributes
    ----------
    amounts : array of int, shape (n,)
        Ascending, each once.
    odds : array, shape (n,)
        Sum to one.
    """

    amounts: NDArray[np.int64]
    odds: NDArray[np.float64]

    def at_most(self, chance: float) -> int:
        """Return the smallest amount that is not passed with at least that chance."""
        return int(weighted_quantile(self.amounts.astype(float), self.odds, share=chance))

    def at_least(self, chance: float) -> int:
        """Return the largest amount that comes in, or more, with at least that chance."""
        return -int(weighted_quantile(-self.amounts.astype(float), self.odds, share=chance))

    def below(self, amount: int) -> float:
        """Return the chance that less comes in."""
        return float(self.odds[: int(np.searchsorted(self.amounts, amount))].sum())

    def plus(self, other: Takings) -> Takings:
        """Return the law of the sum of two that know nothing of each other."""
        amounts = np.add.outer(self.amounts, other.amounts).ravel()
        odds = np.multiply.outer(self.odds, other.odds).ravel()
        return _gathered(amounts, odds)


def takings(lots: Iterable[Lot]) -> Takings:
    """Return the law of what lots bring, fees and postage taken off.

    Exact while amounts are few (all outcomes of fourteen different parts, or any number of like
    ones); beyond, each amount is shared between its two neighbours on a grid so that the mean
    stays exact, and a quantile is off by a step of the grid at most for each lot that is added.
    """
    law = _sure(0)
    for lot in lots:
        chance = float(lot.chance)
        sold = _sold(lot)
        one = _gathered(
            np.array([lot.otherwise.minor, *sold], dtype=np.int64),
            np.array([1.0 - chance, *([chance / len(sold)] * len(sold))]),
        )
        for _ in range(lot.count):
            law = law.plus(one)
    return law


def _sold(lot: Lot) -> list[int]:
    """Return what one leaves that has sold, in equally likely amounts."""
    if not lot.spread:
        return [lot.brings.minor]
    times = (Fraction(math.exp(lot.spread * one)) for one in _steps())
    return [lot.left_of(lot.price.times(one)).minor for one in times]


@lru_cache(maxsize=1)
def _steps() -> tuple[float, ...]:
    """Return the quantiles of the normal law at each fortieth."""
    from scipy.special import ndtri

    return tuple(ndtri(np.arange(1, PRICE_STEPS) / PRICE_STEPS).tolist())


def _sure(amount: int) -> Takings:
    return Takings(amounts=np.array([amount], dtype=np.int64), odds=np.ones(1))


def _gathered(amounts: NDArray[np.int64], odds: NDArray[np.float64]) -> Takings:
    """Join equal amounts; share them out on a grid when they are too many."""
    held = odds > 0.0
    each, place = np.unique(amounts[held], return_inverse=True)
    sums = np.bincount(place, weights=odds[held])
    if len(each) > MOST_AMOUNTS:
        step = -(-(int(each[-1]) - int(each[0])) // MOST_AMOUNTS)
        cell, over = np.divmod(each - each[0], step)
        up = over / step
        shared = np.bincount(cell, weights=sums * (1.0 - up), minlength=int(cell[-1]) + 2)
        shared[1:] += np.bincount(cell, weights=sums * up, minlength=int(cell[-1]) + 2)[:-1]
        kept = np.flatnonzero(shared > 0.0)
        each, sums = each[0] + step * kept, shared[kept]
    return Takings(amounts=each.astype(np.int64), odds=sums / sums.sum())
