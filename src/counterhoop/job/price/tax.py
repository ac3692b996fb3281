"""Tax on a quote or a bill: none, added to prices, or on a dealer's margin; how it is rounded."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.job.price.rate import print_rate
from counterhoop.job.price.shares import share_out
from counterhoop.quantities.money import Money

CHECK = "Check which tax and which rounding apply where you are."


class TaxSort(StrEnum):
    """The three ways in which a workshop stands to tax."""

    NONE = "none"
    ADDED = "added"
    MARGIN = "on the margin"


class Rounding(StrEnum):
    """How exact tax becomes whole coins; halves away from zero where it is *nearest*."""

    LINE = "each line to the smallest coin"
    TENTH = "each line to a tenth of the smallest coin, then the total to the coin"
    TOTAL = "the total to the nearest coin"
    DOWN = "the total down to the coin"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tax:
    """How a workshop's prices stand to tax. Rates are typed; nothing says what the law is.

    Attributes
    ----------
    sort : TaxSort
        ``ADDED``: on every line, shown. ``MARGIN``: second-hand goods; the tax lies within what
        the sale brings over what was paid for them, and is not shown apart. The whole bill is
        then one sale. Repairs and parts do not lessen the margin.
    rate : Fraction
    included : bool
        Whether prices are typed with the added tax in them.
    rounding : Rounding
    bought_for : Money or None
        What was paid for the goods; for the margin.
    """

    sort: TaxSort = TaxSort.NONE
    rate: Fraction = Fraction(0)
    included: bool = False
    rounding: Rounding = Rounding.TOTAL
    bought_for: Money | None = None

    def __post_init__(self) -> None:
        if not 0 <= self.rate <= 1:
            raise BadInput("not a rate", where="tax", given=str(self.rate), wanted='"20 %"')
        if self.sort is TaxSort.MARGIN and self.bought_for is None:
            raise BadInput(
                "tax on the margin without what the goods were bought for",
                where="tax",
                wanted='the purchase price, such as "80.00 GBP"',
            )

    @property
    def says(self) -> tuple[str, ...]:
        """What a paper says of it, for the reader of its sums."""
        if self.sort is TaxSort.NONE:
            return ()
        if self.sort is TaxSort.MARGIN:
            return ("Second-hand goods: tax, if any, is within the margin and not shown apart.",)
        where = "is in the prices" if self.included else "is added to the prices"
        said = f"Tax at {print_rate(self.rate)} {where}, rounded: {self.rounding}."
        if self.rounding is Rounding.LINE:
            return (said,)
        return (said, "The coins of the total are shared out over the lines so that they add up.")

    def exact(self, minor: int) -> Fraction:
        """Return the exact tax on, or in, an amount as the workshop types it."""
        if self.sort is not TaxSort.ADDED:
            return Fraction(0)
        return minor * (self.rate / (1 + self.rate) if self.included else self.rate)

    def of_lines(self, amounts: Sequence[int]) -> tuple[int, ...]:
        """Return the tax of each line in whole coins; they add up to the tax of the whole.

        Examples
        --------
        >>> at = Tax(sort=TaxSort.ADDED, rate=Fraction(1, 5), rounding=Rounding.DOWN)
        >>> at.of_lines([99, 99, 99])
        (20, 20, 19)
        """
        exact = [self._line(self.exact(minor)) for minor in amounts]
        if self.rounding is Rounding.LINE:
            return tuple(map(int, exact))
        return share_out(self._total(sum(exact, start=Fraction(0))), exact)

    def within(self, sold: Money) -> Money:
        """Return the tax within the margin of a sale; nothing where there is none.

        Examples
        --------
        >>> paid = Money(minor=8000, currency="GBP")
        >>> at = Tax(sort=TaxSort.MARGIN, rate=Fraction(1, 5), bought_for=paid)
        >>> str(at.within(Money(minor=20000, currency="GBP")))
        '20.00 GBP'
        """
        if self.sort is not TaxSort.MARGIN or self.bought_for is None:
            return Money(minor=0, currency=sold.currency)
        margin = max(0, (sold - self.bought_for).minor)
        exact = self._line(margin * self.rate / (1 + self.rate))
        return Money(minor=self._total(exact), currency=sold.currency)

    def _line(self, exact: Fraction) -> Fraction:
        if self.rounding is Rounding.LINE:
            return Fraction(to_nearest(exact))
        if self.rounding is Rounding.TENTH:
            return Fraction(to_nearest(10 * exact), 10)
        return exact

    def _total(self, exact: Fraction) -> int:
        return exact.__trunc__() if self.rounding is Rounding.DOWN else to_nearest(exact)


NO_TAX = Tax()
"""A workshop that charges none."""


def to_nearest(exact: Fraction) -> int:
    """Round to the nearest whole number, halves away from zero.

    Examples
    --------
    >>> to_nearest(Fraction(5, 2)), to_nearest(Fraction(-5, 2)), to_nearest(Fraction(12, 5))
    (3, -3, 2)
    """
    whole = (abs(exact) + Fraction(1, 2)).__floor__()
    return whole if exact >= 0 else -whole
