"""The most to pay for a drum when an hour is to bring so much; for its owner, the least share."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.job.trade.outcome import left_law, mean_before_wage, mean_minutes_cost
from counterhoop.job.trade.way import Way, one_currency
from counterhoop.quantities.money import Money

SHARES = 1000
"""A share is found to a thousandth of the price."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OnTop:
    """What a purchase costs beside its price.

    Attributes
    ----------
    premium : Fraction
        Of the price, where one is taken on top of it.
    fetching : Money
        The journey, or its postage here.
    """

    premium: Fraction
    fetching: Money

    def __post_init__(self) -> None:
        if self.premium < 0 or self.fetching.minor < 0:
            raise BadInput("less than nothing on top of the price", where="buying")

    def all_told(self, price: Money) -> Money:
        """Return what is paid in the end; never less for a higher price."""
        return price + price.times(self.premium) + self.fetching


@dataclass(frozen=True, slots=True, kw_only=True)
class MostToPay:
    """The answer.

    Attributes
    ----------
    price : Money
        One coin more and the wage is not reached; nothing when not ``reached``.
    reached : bool
        False when the wage is not reached even for a gift.
    lacks : Money
        What a gift would lack then; nothing otherwise.
    """

    price: Money
    reached: bool
    lacks: Money


def most_to_pay(
    way: Way, *, wage: Money, on_top: OnTop, sure_percent: int | None = None
) -> MostToPay:
    """Return the highest price at which an hour still brings the wage.

    What is left falls with the price, coin by coin, so halving finds the very coin.

    Parameters
    ----------
    way : Way
    wage : Money
        For an hour.
    on_top : OnTop
    sure_percent : int, optional
        The chance that the wage is to be reached; on average when nothing is said.

    Raises
    ------
    BadInput
        For a chance that is not from 1 to 99 percent, a wage below nothing.
    """
    if sure_percent is not None and not 1 <= sure_percent <= 99:
        raise BadInput(
            "not a chance to aim at", where="how sure", given=sure_percent, wanted="1 to 99 percent"
        )
    if wage.minor < 0:
        raise BadInput("a wage below nothing", where="wage", given=str(wage))
    coin = one_currency(way, wage, on_top.fetching)
    before_price = _before_price(way, wage, sure_percent)

    def reaches(price_minor: int) -> bool:
        price = Money(minor=price_minor, currency=coin)
        return on_top.all_told(price).minor <= before_price

    nothing = Money(minor=0, currency=coin)
    if not reaches(0):
        lacks = Money(minor=1, currency=coin).times(on_top.fetching.minor - before_price)
        return MostToPay(price=nothing, reached=False, lacks=lacks)
    first_bad = _first_bad(reaches, above=before_price.__floor__() + 1)
    return MostToPay(price=Money(minor=first_bad - 1, currency=coin), reached=True, lacks=nothing)


def least_share(way: Way, *, wage: Money) -> Fraction | None:
    """Return the least share of the price at which selling for its owner brings the wage.

    On average, to a thousandth; None when even the whole price does not.
    """
    one_currency(way, wage)

    def misses(thousandths: int) -> bool:
        shop = way.for_owner(Fraction(thousandths, SHARES))
        return mean_before_wage(shop) < mean_minutes_cost(shop, wage=wage)

    if misses(SHARES):
        return None
    return Fraction(_first_bad(misses, above=SHARES) if misses(0) else 0, SHARES)


def owner_gets(way: Way, *, share: Fraction) -> Money:
    """Return what its owner gets on average: price less fee, postage and the shop's share.

    What has not sold goes back and counts as nothing here.
    """
    whole = sum(
        (lot.count * lot.chance * (lot.brings - lot.price.times(share)).minor for lot in way.lots),
        Fraction(0),
    )
    return Money(minor=1, currency=way.costs.currency).times(whole)


def _before_price(way: Way, wage: Money, sure_percent: int | None) -> Fraction:
    if sure_percent is None:
        return mean_before_wage(way) - mean_minutes_cost(way, wage=wage)
    return Fraction(left_law(way, wage=wage).at_least(sure_percent / 100))


def _first_bad(good: Callable[[int], bool], *, above: int) -> int:
    """Return the first whole number that is not good, where 0 is and ``above`` is not."""
    low, high = 0, above
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if good(middle) else (low, middle)
    return high
