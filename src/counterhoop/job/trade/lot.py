"""One thing offered for sale by itself: the whole drum, or parts that came off it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.money import Money

MOST_OF_ONE = 500
"""More pieces of one lot are a slip."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """What is offered, and how it may go.

    Attributes
    ----------
    what : str
    price : Money
        For one, when it sells.
    sells_percent : int
        Chance that one sells within ``weeks``: nobody knows it finer than a hundredth.
    weeks : int
        How long it is left on offer, at least one.
    otherwise : Money
        What one is worth when it has not sold by then: nothing for what is thrown away.
    fee : Fraction
        Share of the price that the seller pays for selling, 1/10 for "10 %".
    postage : Money
        What sending one costs the seller, packing included.
    count : int
        How many alike; each sells or does not for itself.
    spread : float
        Sigma of ln(price), where the price is the middle of a span; 0 for a price that is sure.
        Chances reckon with it. Averages go by the price itself: the mean of such a law lies above
        its middle, the more the less one knows, and nobody should pay more for knowing less.
    """

    what: str
    price: Money
    sells_percent: int
    weeks: int
    otherwise: Money
    fee: Fraction
    postage: Money
    count: int = 1
    spread: float = 0.0

    def __post_init__(self) -> None:
        if not 0 <= self.sells_percent <= 100:
            raise BadInput(
                "not a chance", where=self.what, given=self.sells_percent, wanted="0 to 100 percent"
            )
        if self.weeks < 1:
            raise BadInput("on offer for no week", where=self.what, given=self.weeks)
        if not 0 <= self.fee <= 1:
            raise BadInput("not a share of the price", where=self.what, given=str(self.fee))
        if not 1 <= self.count <= MOST_OF_ONE:
            raise BadInput("how many of it?", where=self.what, given=self.count, wanted="1 or more")
        if not 0.0 <= self.spread <= 4.0:
            raise BadInput("not a spread of ln(price)", where=self.what, given=self.spread)
        if min(self.price.minor, self.otherwise.minor, self.postage.minor) < 0:
            raise BadInput("an amount below nothing", where=self.what)
        if {self.otherwise.currency, self.postage.currency} != {self.price.currency}:
            raise BadInput("two currencies in one lot", where=self.what, given=str(self.price))

    @property
    def chance(self) -> Fraction:
        """The chance that one sells."""
        return Fraction(self.sells_percent, 100)

    @property
    def brings(self) -> Money:
        """What one leaves when it sells, after fee and postage; may be below nothing."""
        return self.left_of(self.price)

    def left_of(self, price: Money) -> Money:
        """Return what one leaves when it sells at a price, after fee and postage."""
        return price - price.times(self.fee) - self.postage

    def owners(self, share: Fraction) -> Lot:
        """Return the same as the shop sees it that sells for the owner at a share of the price.

        Fee and postage are the owner's, and so is what has not sold.
        """
        nothing = Money(minor=0, currency=self.price.currency)
        return Lot(
            what=self.what,
            price=self.price.times(share),
            sells_percent=self.sells_percent,
            weeks=self.weeks,
            otherwise=nothing,
            fee=Fraction(0),
            postage=nothing,
            count=self.count,
            spread=self.spread,
        )
