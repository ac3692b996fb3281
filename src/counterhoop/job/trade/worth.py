"""What a drum is worth by the shop's own sales of drums like it."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist

import numpy as np

from counterhoop.errors import BadInput
from counterhoop.job.trade.features import Features
from counterhoop.job.trade.likeness import likeness
from counterhoop.job.trade.reckon import HELD, Reckoned, freshness, reckon
from counterhoop.job.trade.sale import Sale
from counterhoop.job.trade.weighted import Array, weighted_quantile
from counterhoop.quantities.money import Money
from counterhoop.scheme.phrases import counted

ENOUGH_TO_CHECK = 12
"""With fewer sales of its own the span is not held against them. Common practice, no source."""
NARROWEST, WIDEST = 0.5, 3.0
"""A span is drawn no narrower and no wider than so many times by that check."""

HALF_OF_HELD = NormalDist().inv_cdf(0.5 + HELD / 2.0)
"""So many sigmas to either side hold eight in ten."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Like:
    """One sale that counted: its share of the whole weight, from 0 to 1."""

    sale: Sale
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnSales:
    """The shop's sales, each valued by the others.

    Attributes
    ----------
    held, of : int
        So many prices lay in the span as it was first drawn, of so many that could be valued.
    stretch : float
        How much wider the span is drawn so that it holds 80 % of them.
    """

    held: int
    of: int
    stretch: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Worth:
    """A value by like sales.

    Attributes
    ----------
    usual : Money
        Half of such drums bring more.
    low, high : Money
        Eight in ten bring something between.
    effective : float
        As many sales of equal weight would tell as much.
    alike : float
        Sum of weights: the same drum sold today counts 1.
    days : int
        On the shelf, as a rule.
    like : tuple of Like
        Sales that counted, the likest first; shares sum to 1.
    let_go : tuple of str
        Features that were let go because too few sales shared them, in order.
    left_out : int
        Sales in another currency.
    checked : OwnSales or None
        None with too few sales to say.
    """

    usual: Money
    low: Money
    high: Money
    effective: float
    alike: float
    days: int
    like: tuple[Like, ...]
    let_go: tuple[str, ...]
    left_out: int
    checked: OwnSales | None

    @property
    def spread(self) -> float:
        """Sigma of ln(price), of the normal law whose middle eight in ten are this span."""
        return math.log(self.high.minor / max(1, self.low.minor)) / (2.0 * HALF_OF_HELD)


@dataclass(frozen=True, slots=True, kw_only=True)
class NothingLike:
    """No value: one sentence why."""

    says: str


def worth(
    wanted: Features, sales: Sequence[Sale], *, on: dt.date, currency: str
) -> Worth | NothingLike:
    """Return what a drum is worth by the sales of drums like it.

    The middle is the weighted median of ln(price). Its span is first drawn from the spread of
    the sales that count; then each sale is valued by the others, and the span is drawn so that
    it would have held 80 % of them (split by leaving one out, as in Vovk, Gammerman and Shafer
    2005, Algorithmic Learning in a Random World, from memory). Prices become floats only for the
    logarithm and are rounded once, here, to the smallest coin.

    Parameters
    ----------
    wanted : Features
    sales : sequence of Sale
        Keys differ. Those in another currency are left out and counted.
    on : date
        The day of the value; no sale is later.
    currency : str

    Raises
    ------
    BadInput
        For a sale after that day, or two of one key.
    """
    _check(sales, on)
    own = tuple(sale for sale in sales if sale.price.currency == currency)
    if not own:
        return NothingLike(says=f"No sale in {currency} is written down yet: nothing to go by.")
    logs, days = _logs_and_days(own)
    factors = {
        name: table[0] for name, table in likeness([wanted], [s.features for s in own]).items()
    }
    found = reckon(factors, logs, freshness(days - on.toordinal()))
    if found is None:
        return NothingLike(
            says=f"Nothing like it among your {counted(len(own), 'sale')} in {currency}: no value, "
            "whatever is let go."
        )
    checked = own_sales(own)
    half = found.half * (checked.stretch if checked else 1.0)
    return Worth(
        usual=_money(found.centre, currency),
        low=_money(found.centre - half, currency),
        high=_money(found.centre + half, currency),
        effective=found.effective,
        alike=found.alike,
        days=_usual_days(own, found),
        like=_likest(own, found.weights),
        let_go=tuple(one.feature for one in found.let_go),
        left_out=len(sales) - len(own),
        checked=checked,
    )


# One book is asked about many drums, and this is most of the work.
@lru_cache(maxsize=4)
def own_sales(own: tuple[Sale, ...]) -> OwnSales | None:
    """Value each sale by the others, on its own day; None when they are too few to say."""
    if len(own) < ENOUGH_TO_CHECK:
        return None
    logs, days = _logs_and_days(own)
    drums = [sale.features for sale in own]
    tables = likeness(drums, drums)
    off = []
    for row in range(len(own)):
        fresh = freshness(days - days[row])
        fresh[row] = 0.0
        found = reckon({name: table[row] for name, table in tables.items()}, logs, fresh)
        if found is not None:
            off.append(abs(logs[row] - found.centre) / found.half)
    if len(off) < ENOUGH_TO_CHECK:
        return None
    rank = min(math.ceil((len(off) + 1) * HELD), len(off))
    stretch = sorted(off)[rank - 1]
    return OwnSales(
        held=sum(bool(one <= 1.0) for one in off),
        of=len(off),
        stretch=float(min(max(stretch, NARROWEST), WIDEST)),
    )


def sells_percent(found: Worth, *, weeks: int) -> int:
    """Return the chance in percent that such a drum sells within so many weeks.

    Only drums that did sell are in the book, so this is on the bright side. The sales weigh as
    their effective number; half a sale is added to either side, so that it is never sure
    (Jeffreys 1946, from memory).
    """
    within = sum(one.share for one in found.like if one.sale.days_on_shelf <= 7 * weeks)
    return round(100 * (found.effective * within + 0.5) / (found.effective + 1.0))


def _check(sales: Sequence[Sale], on: dt.date) -> None:
    keys: set[str] = set()
    for sale in sales:
        if sale.sold_on > on:
            raise BadInput(
                "sold after the day that is asked about", where=f"sale {sale.key}",
                given=sale.sold_on.isoformat(), wanted=f"{on.isoformat()} or before",
            )  # fmt: skip
        if sale.key in keys:
            raise BadInput("two sales of one key", where="sales", given=sale.key)
        keys.add(sale.key)


def _logs_and_days(own: Sequence[Sale]) -> tuple[Array, Array]:
    """Return ln(price) in minor units and the days of sale as ordinals."""
    return (
        np.log([float(sale.price.minor) for sale in own]),
        np.array([sale.sold_on.toordinal() for sale in own], dtype=float),
    )


def _money(log: float, currency: str) -> Money:
    return Money(minor=round(math.exp(log)), currency=currency)


def _usual_days(own: Sequence[Sale], found: Reckoned) -> int:
    shelf = np.array([float(sale.days_on_shelf) for sale in own])
    return round(weighted_quantile(shelf, found.weights, share=0.5))


def _likest(own: Sequence[Sale], weights: Array) -> tuple[Like, ...]:
    shares = (weights / weights.sum()).tolist()
    like = [Like(sale=sale, share=share) for sale, share in zip(own, shares, strict=True)]
    return tuple(sorted(like, key=lambda one: (-one.share, one.sale.key)))
