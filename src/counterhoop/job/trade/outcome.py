"""What a way to sell comes to: money on average and how far it strays, days, an hour's wage."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from counterhoop.job.trade.lot import Lot
from counterhoop.job.trade.takings import Takings, takings
from counterhoop.job.trade.way import Way, one_currency
from counterhoop.quantities.money import Money

WORK_SLICES = 40
"""Uncertain hours are taken as so many equally likely ones, each the mean of its slice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """One way to sell, for a price paid and a wage.

    Attributes
    ----------
    way : Way
    left : Money
        What is left on average of what comes in, after the price, the costs and the wage.
    low, high : Money
        Nine in ten leave at least the one, nine in ten at most the other.
    short_percent : int
        Chance that less than nothing is left: the wage is then not reached.
    an_hour : Money or None
        Wage that is reached on average; None for no work.
    days : int
        Until the last has sold or is given up, on average.
    """

    way: Way
    left: Money
    low: Money
    high: Money
    short_percent: int
    an_hour: Money | None
    days: int


def outcome(way: Way, *, paid: Money, wage: Money) -> Outcome:
    """Return what a way to sell comes to.

    Averages are exact fractions, rounded once, here; so are low and high while the amounts are
    few (see ``takings``) and prices and hours are sure.

    Parameters
    ----------
    way : Way
    paid : Money
        For the drum, whatever came on top of the price included.
    wage : Money
        For an hour.
    """
    coin = one_currency(way, paid, wage)
    before = mean_before_wage(way) - paid.minor
    left = before - mean_minutes_cost(way, wage=wage)
    law = left_law(way, wage=wage)
    return Outcome(
        way=way,
        left=_money(left, coin),
        low=Money(minor=law.at_least(0.9), currency=coin) - paid,
        high=Money(minor=law.at_most(0.9), currency=coin) - paid,
        short_percent=round(100 * law.below(paid.minor)),
        an_hour=_money(before * 60 / way.mean_minutes, coin) if way.minutes else None,
        days=way.days + days_until_gone(way.lots),
    )


def mean_before_wage(way: Way) -> Fraction:
    """Return in minor units what comes in on average less the costs, exactly."""
    come_in = sum(
        (
            lot.count * (lot.otherwise.minor + lot.chance * (lot.brings - lot.otherwise).minor)
            for lot in way.lots
        ),
        Fraction(0),
    )
    return come_in - way.costs.minor


def mean_minutes_cost(way: Way, *, wage: Money) -> Fraction:
    """Return in minor units what the work is worth on average at a wage for an hour."""
    return way.mean_minutes * wage.minor / 60


def left_law(way: Way, *, wage: Money) -> Takings:
    """Return the law of what is left before the price of the drum, in minor units."""
    return takings(way.lots).plus(_spent_law(way, wage=wage))


def days_until_gone(lots: Sequence[Lot]) -> int:
    """Return the days until the last has sold or is given up, on average.

    What sells at all sells on any day of its weeks as likely as on any other. Common practice,
    no source.

    Examples
    --------
    A thing that surely does not sell waits all its weeks:

    >>> free = Money(minor=0, currency="GBP")
    >>> days_until_gone([Lot(what="rods", price=free, sells_percent=0, weeks=6, otherwise=free,
    ...                      fee=Fraction(0), postage=free)])
    42
    """
    day = np.arange(7 * max(lot.weeks for lot in lots))
    gone = np.ones(len(day))
    for lot in lots:
        on_offer = 7 * lot.weeks
        sold = float(lot.chance) * day / on_offer
        gone *= np.where(day < on_offer, sold, 1.0) ** lot.count
    return round(float((1.0 - gone).sum()))


def _spent_law(way: Way, *, wage: Money) -> Takings:
    minutes = _slices(way.spread) * way.minutes if way.spread else np.array([float(way.minutes)])
    spent = [-way.costs.minor - round(one * wage.minor / 60) for one in minutes.tolist()]
    amounts, count = np.unique(np.array(spent, dtype=np.int64), return_counts=True)
    return Takings(amounts=amounts, odds=count / len(minutes))


def _slices(spread: float) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Means of equally likely slices of a lognormal law whose middle is 1; their mean is its own.

    The mean of a slice between two quantiles is the law's mean times the same slice of the
    normal law moved down by sigma (an exact integral).
    """
    from scipy.special import ndtr, ndtri

    cuts = ndtri(np.linspace(0.0, 1.0, WORK_SLICES + 1))
    return np.asarray(WORK_SLICES * np.exp(0.5 * spread**2) * np.diff(ndtr(cuts - spread)))


def _money(minor: Fraction, currency: str) -> Money:
    return Money(minor=1, currency=currency).times(minor)
