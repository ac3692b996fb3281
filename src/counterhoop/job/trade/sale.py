"""One drum that the shop has sold."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.job.trade.features import Features
from counterhoop.quantities.money import Money


@dataclass(frozen=True, slots=True, kw_only=True)
class Sale:
    """A sale of the shop's own.

    Attributes
    ----------
    key : str
        Differs from every other sale's.
    what : str
        In the shop's words, for the line that says which sales counted.
    features : Features
    price : Money
        What the buyer paid for the drum, above nothing.
    sold_on : date
    days_on_shelf : int
        From the day it was offered to the day it was sold.
    fees, postage : Money
        What the shop paid of it, in the same currency.

    Raises
    ------
    BadInput
        For a price of nothing, days below none, two currencies.
    """

    key: str
    what: str
    features: Features
    price: Money
    sold_on: dt.date
    days_on_shelf: int
    fees: Money
    postage: Money

    def __post_init__(self) -> None:
        where = f"sale {self.key}"
        if self.price.minor <= 0:
            raise BadInput("sold for nothing", where=where, given=str(self.price))
        if self.days_on_shelf < 0:
            raise BadInput("fewer days than none", where=where, given=self.days_on_shelf)
        if self.fees.minor < 0 or self.postage.minor < 0:
            raise BadInput(
                "fees and postage are what was paid, not below nothing", where=where,
                given=f"{self.fees}, {self.postage}",
            )  # fmt: skip
        if {self.fees.currency, self.postage.currency} != {self.price.currency}:
            raise BadInput("two currencies in one sale", where=where, given=str(self.price))

    @property
    def brought(self) -> Money:
        """What was left of the price after fees and postage."""
        return self.price - self.fees - self.postage
