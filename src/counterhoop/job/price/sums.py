"""The rows of a paper with their net, tax and gross, and sums that are those of the rows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.job.price.line import Kind, QuoteLine, by_key
from counterhoop.job.price.rate import print_rate
from counterhoop.job.price.tax import Tax
from counterhoop.quantities.money import Money

DISCOUNT = "discount"
"""Key of the row that a discount makes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """Net, tax and gross; the first two make the third."""

    net: Money
    tax: Money
    gross: Money

    def __post_init__(self) -> None:
        if self.net + self.tax != self.gross:
            raise BadInput("net and tax do not make the gross", given=str(self.gross))

    def __add__(self, other: Figures) -> Figures:
        return Figures(
            net=self.net + other.net, tax=self.tax + other.tax, gross=self.gross + other.gross
        )

    def __neg__(self) -> Figures:
        return Figures(net=self.net.times(-1), tax=self.tax.times(-1), gross=self.gross.times(-1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row as it is printed."""

    key: str
    says: str
    kind: Kind
    count: int
    figures: Figures


@dataclass(frozen=True, slots=True, kw_only=True)
class Discount:
    """What comes off after the lines are added: a share of their sum, or an amount.

    Tax is reckoned on what is left. The amount is typed as all prices are: with added tax in it
    or without.
    """

    says: str
    share: Fraction = Fraction(0)
    amount: Money | None = None

    def off(self, minor: int, *, currency: str) -> Money:
        """Return what comes off a sum, never more than the sum.

        Raises
        ------
        BadInput
            For a discount above the sum, or below nothing.
        """
        whole = Money(minor=minor, currency=currency)
        off = whole.times(self.share) if self.amount is None else self.amount
        if not 0 <= off.minor <= max(minor, 0):
            raise BadInput(
                "a discount cannot be more than what it comes off, nor below nothing",
                where=self.says,
                given=str(off),
                wanted=f"at most {whole}",
            )
        return off

    def left_of(self, exact: Fraction) -> Fraction:
        """Return what is left of a sum that is only reckoned with, never below nothing."""
        off = self.share * exact if self.amount is None else self.amount.minor
        return max(exact - off, Fraction(0))

    @property
    def words(self) -> str:
        """What the row says."""
        return self.says if self.amount is not None else f"{self.says}, {print_rate(self.share)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sums:
    """What is printed: rows, their sum, and what of it is paid already.

    Attributes
    ----------
    rows : tuple of Row
        Lines that count, then the discount. Their figures add up to ``total``.
    total : Figures
    paid : Money
        A deposit, say; it comes off the total.
    within_margin : Money
        Tax within a dealer's margin: for the books, not for the paper.
    says : tuple of str
        Sentences on tax and rounding for the foot of the sums.
    """

    rows: tuple[Row, ...]
    total: Figures
    paid: Money
    within_margin: Money
    says: tuple[str, ...]

    @property
    def left(self) -> Money:
        """Still to be paid; below zero where something is to be paid back."""
        return self.total.gross - self.paid


def add_up(
    lines: Iterable[QuoteLine],
    *,
    tax: Tax,
    currency: str,
    discount: Discount | None = None,
    paid: Money | None = None,
) -> Sums:
    """Return the rows and sums of all lines that count.

    Parameters
    ----------
    lines : iterable of QuoteLine
        Amounts as the workshop types them.
    tax : Tax
    currency : str
        The one currency of all amounts.
    discount : Discount, optional
    paid : Money, optional

    Raises
    ------
    BadInput
        For a second currency, a line without a price, two lines of one key, a discount above
        the sum.

    Examples
    --------
    >>> from counterhoop.job.price.line import typed_line
    >>> from counterhoop.job.price.tax import Rounding, TaxSort
    >>> stick = Money(minor=99, currency="GBP")
    >>> sums = add_up(
    ...     [typed_line(f"{n}", "a washer", amount=stick) for n in range(3)],
    ...     tax=Tax(sort=TaxSort.ADDED, rate=Fraction(1, 5), rounding=Rounding.LINE),
    ...     currency="GBP",
    ... )
    >>> str(sums.total.tax), str(sums.total.gross)
    ('0.60 GBP', '3.57 GBP')
    """
    nothing = Money(minor=0, currency=currency)
    kept = by_key(line for line in lines if line.counts).values()
    named = [(line.key, line.stands.says, line.kind, line.stands.count) for line in kept]
    # Adding nothing refuses a second currency.
    amounts = [(nothing + line.amount).minor for line in kept]
    if discount is not None:
        off = nothing - discount.off(sum(amounts), currency=currency)
        named.append((DISCOUNT, discount.words, Kind.OTHER, 1))
        amounts.append(off.minor)
    rows = tuple(
        Row(
            key=key,
            says=says,
            kind=kind,
            count=count,
            figures=_figures(amount, taxed, tax, currency),
        )
        for (key, says, kind, count), amount, taxed in zip(
            named, amounts, tax.of_lines(amounts), strict=True
        )
    )
    total = sum(
        (row.figures for row in rows), start=Figures(net=nothing, tax=nothing, gross=nothing)
    )
    return Sums(
        rows=rows,
        total=total,
        paid=nothing if paid is None else nothing + paid,
        within_margin=tax.within(total.gross),
        says=tax.says,
    )


def one_sum(amount: Money, *, tax: Tax) -> Figures:
    """Return net, tax and gross of one amount as the workshop types it."""
    (taxed,) = tax.of_lines([amount.minor])
    return _figures(amount.minor, taxed, tax, amount.currency)


def _figures(amount: int, taxed: int, tax: Tax, currency: str) -> Figures:
    net = amount - taxed if tax.included else amount
    return Figures(
        net=Money(minor=net, currency=currency),
        tax=Money(minor=taxed, currency=currency),
        gross=Money(minor=net + taxed, currency=currency),
    )
