"""The offer: one price on its face, a ceiling, and beneath them what it will likely come to."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from counterhoop.errors import BadInput
from counterhoop.job.price.doubt import Doubt
from counterhoop.job.price.line import Kind, Origin, QuoteLine, Said
from counterhoop.job.price.rate import print_rate
from counterhoop.job.price.sums import Discount, Figures, Sums, add_up, one_sum
from counterhoop.job.price.tax import NO_TAX, Tax, to_nearest
from counterhoop.quantities.money import Money

CONTINGENCY = "rules: contingency"
"""Key of the line that brings the sum of the others to the one price."""
NOT_SEEN: Final = "for what cannot be seen before"
"""So begins what that line says where a share of the work is put on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteRules:
    """How this workshop offers. Every default is common practice, no source.

    Attributes
    ----------
    round_to : Money
        Prices are round in steps of this, as the workshop types them; its currency is the job's.
    tax : Tax
    contingency : Fraction
        Share of the work that is put on for what cannot be seen before it is begun. Parts are
        sure.
    over : Fraction
        The ceiling stands at least this share above the price.
    deposit : Fraction
        Share of the price that is asked for beforehand.
    valid_days : int
    exclusions : tuple of str
        Sentences on what is not in the price.
    """

    round_to: Money
    tax: Tax = NO_TAX
    contingency: Fraction = Fraction(1, 10)
    over: Fraction = Fraction(15, 100)
    deposit: Fraction = Fraction(0)
    valid_days: int = 30
    exclusions: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.round_to.minor < 1:
            raise BadInput(
                "no step for round prices",
                where="round",
                given=str(self.round_to),
                wanted='a step such as "5.00 GBP"',
            )
        shares = {"contingency": self.contingency, "over": self.over, "deposit": self.deposit}
        for where, share in shares.items():
            if not 0 <= share <= 1:
                raise BadInput("not a share", where=where, given=str(share), wanted='"10 %"')
        if self.valid_days < 1:
            raise BadInput("a quote holds at least a day", where="valid", given=self.valid_days)


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """One offer, all figures to be paid by the client: tax that is added is in them.

    Attributes
    ----------
    lines : tuple of QuoteLine
        As given, struck ones too; then the contingency.
    sums : Sums
        ``sums.total.gross`` is the one price.
    ceiling : Figures
        Not passed without a call.
    usual, low, high : Money
        What it comes to when all goes as usual, and the middle 80 % of what it may come to,
        without contingency.
    deposit : Money
        Asked for beforehand.
    extra_holes : int
        Holes that will be drilled, whatever is closed beside them.
    rules : QuoteRules
    discount : Discount or None
    """

    lines: tuple[QuoteLine, ...]
    sums: Sums
    ceiling: Figures
    usual: Money
    low: Money
    high: Money
    deposit: Money
    extra_holes: int
    rules: QuoteRules
    discount: Discount | None = None

    @property
    def price(self) -> Money:
        """The one price on its face."""
        return self.sums.total.gross

    def last_day(self, given: dt.date) -> dt.date:
        """Return the last day on which it may be accepted."""
        return given + dt.timedelta(days=self.rules.valid_days)


def quote_of(
    lines: Iterable[QuoteLine],
    *,
    rules: QuoteRules,
    doubt: Doubt | None = None,
    discount: Discount | None = None,
    price: Money | None = None,
    extra_holes: int = 0,
) -> Quote:
    """Return the offer that lines make.

    The price is the sum of the lines and the contingency on the work, to the nearest round
    figure; one line brings the others exactly to it. The ceiling is the larger of what one such
    job in ten would pass and the price with the named share on top, up to a round figure. A
    discount comes off the price and off what the ceiling is made of.

    Parameters
    ----------
    lines : iterable of QuoteLine
        An earlier quote's lines may be given again: its contingency is made anew.
    rules : QuoteRules
    doubt : Doubt, optional
        Of the hours of work; none when left out.
    discount : Discount, optional
    price : Money, optional
        What the workshop asks instead, before the discount, as it types all prices.
    extra_holes : int

    Raises
    ------
    BadInput
        For a line without a price, two currencies, or a sum below nothing.

    Examples
    --------
    >>> from counterhoop.job.price.line import typed_line
    >>> gbp = lambda minor: Money(minor=minor, currency="GBP")
    >>> quote = quote_of(
    ...     [
    ...         typed_line("w", "true both edges", amount=gbp(20000), kind=Kind.WORK),
    ...         typed_line("p", "two heads", amount=gbp(4650), kind=Kind.PART),
    ...     ],
    ...     rules=QuoteRules(round_to=gbp(500)),
    ...     doubt=Doubt(quick=Fraction(3, 4), slow=Fraction(3, 2)),
    ... )
    >>> str(quote.price), str(quote.low), str(quote.high), str(quote.ceiling.gross)
    ('265.00 GBP', '196.50 GBP', '346.50 GBP', '350.00 GBP')
    """
    doubt = Doubt() if doubt is None else doubt
    nothing = Money(minor=0, currency=rules.round_to.currency)
    given = tuple(line for line in lines if line.key != CONTINGENCY)
    kept = [line for line in given if line.counts]
    usual = sum((line.amount for line in kept), start=nothing)
    work = sum((line.amount for line in kept if line.kind is Kind.WORK), start=nothing)
    asked = _round_price(usual, work, rules=rules) if price is None else nothing + price
    for what, amount in (("its work", work), ("its lines", usual), ("the price asked", asked)):
        if amount.minor < 0:
            raise BadInput("a quote below nothing", where=f"quote, {what}", given=str(amount))
    if (asked - usual).minor:
        given += (_contingency(asked - usual, rules=rules, named=price is not None, work=work),)
    sums = add_up(given, tax=rules.tax, currency=usual.currency, discount=discount)

    def left(typed: Fraction) -> Fraction:
        # What is taken in exchange can be worth more than a quick job.
        return max(typed, Fraction(0)) if discount is None else discount.left_of(typed)

    def to_pay(typed: Fraction) -> Figures:
        amount = Money(minor=to_nearest(typed), currency=usual.currency)
        return one_sum(amount, tax=rules.tax)

    low, middle, high = (
        left(usual.minor + work.minor * (factor - 1))
        for factor in (doubt.quick, Fraction(1), doubt.slow)
    )
    most = max(high, left(Fraction(asked.minor)) * (1 + rules.over))
    ceiling = to_pay(Fraction((most / rules.round_to.minor).__ceil__() * rules.round_to.minor))
    return Quote(
        lines=given,
        sums=sums,
        # Tax rounded line by line can bring the price a coin above a ceiling that equals it.
        ceiling=ceiling if sums.total.gross < ceiling.gross else sums.total,
        usual=to_pay(middle).gross,
        low=to_pay(low).gross,
        high=to_pay(high).gross,
        deposit=sums.total.gross.times(rules.deposit),
        extra_holes=extra_holes,
        rules=rules,
        discount=discount,
    )


def _round_price(usual: Money, work: Money, *, rules: QuoteRules) -> Money:
    step = rules.round_to.minor
    steps = to_nearest((usual.minor + work.minor * rules.contingency) / step)
    # What costs anything is not given away for being less than half a step.
    return Money(minor=max(steps, int(usual.minor > 0)) * step, currency=usual.currency)


def _contingency(amount: Money, *, rules: QuoteRules, named: bool, work: Money) -> QuoteLine:
    says = "to the price asked" if named else "to a round price"
    if not named and amount.minor > 0 and work.times(rules.contingency).minor:
        share = print_rate(rules.contingency)
        says = f"{NOT_SEEN}, {share} of the work, and {says}"
    return QuoteLine(
        key=CONTINGENCY,
        origin=Origin.RULES,
        kind=Kind.OTHER,
        stands=Said(says=says, amount=amount),
    )
