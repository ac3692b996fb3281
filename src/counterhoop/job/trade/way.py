"""A way to sell a drum: whole, parted out, restored, or for its owner."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.job.trade.lot import Lot
from counterhoop.quantities.money import Money


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """What is sold, and what it takes to get there.

    Attributes
    ----------
    name : str
        "whole", "parted out", "restored", "sold for its owner".
    lots : tuple of Lot
        At least one, all in one currency.
    minutes : int
        Hands at work, as often more as less: photographing, listing and packing too.
    spread : float
        Sigma of ln(minutes) of all this work together, what it shares included; 0 for sure.
    costs : Money
        Parts and materials.
    days : int
        Before anything is offered.
    owners : bool
        Whether the drum stays its owner's until it is sold, so that nothing is paid for it.
    """

    name: str
    lots: tuple[Lot, ...]
    minutes: int
    costs: Money
    spread: float = 0.0
    days: int = 0
    owners: bool = False

    def __post_init__(self) -> None:
        if not self.lots:
            raise BadInput("nothing is sold", where=self.name)
        if self.minutes < 0 or self.days < 0 or self.costs.minor < 0:
            raise BadInput("less than nothing", where=self.name, wanted="minutes, days and costs")
        if not 0.0 <= self.spread <= 2.0:
            raise BadInput("not a spread of ln(minutes)", where=self.name, given=self.spread)
        if {lot.price.currency for lot in self.lots} != {self.costs.currency}:
            raise BadInput("two currencies in one way to sell", where=self.name)

    @property
    def mean_minutes(self) -> Fraction:
        """Hands at work on average: of a lognormal law, exp(sigma^2 / 2) times its middle."""
        return self.minutes * Fraction(math.exp(0.5 * self.spread**2))

    def for_owner(self, share: Fraction) -> Way:
        """Return the same drum sold for its owner, of which the shop keeps a share of the price.

        The work and its costs stay the shop's.

        Raises
        ------
        BadInput
            For a share that is not from 0 to 1.
        """
        if not 0 <= share <= 1:
            raise BadInput("not a share of the price", where=self.name, given=str(share))
        return replace(
            self,
            name="sold for its owner",
            lots=tuple(lot.owners(share) for lot in self.lots),
            owners=True,
        )


def one_currency(way: Way, *amounts: Money) -> str:
    """Return the currency of a way to sell and of these amounts.

    Raises
    ------
    BadInput
        When they are not all of one.
    """
    total = way.costs
    for amount in amounts:
        total = total + amount
    return total.currency
