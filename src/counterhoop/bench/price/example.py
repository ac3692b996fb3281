"""What the workshop's terms make of a price: an example that one can reckon after."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from counterhoop.bench.folders.folder import drawer
from counterhoop.bench.folders.own_figures import open_with
from counterhoop.bench.price.terms import Terms
from counterhoop.bench.workshop import Workshop
from counterhoop.job.price.face import face_says, terms_say
from counterhoop.job.price.line import Kind, typed_line
from counterhoop.job.price.quote import CONTINGENCY, Quote, quote_of
from counterhoop.job.price.rate import print_rate
from counterhoop.job.price.tax import TaxSort
from counterhoop.quantities.money import PLACES, Money, parse_money, print_money

TRIED: Final = 480
"""Whole units of the workshop's currency that the example takes where nothing is typed."""
HALF: Final = Fraction(1, 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Example:
    """A price by the workshop's terms.

    Attributes
    ----------
    typed : str
        What the work comes to.
    face : str
        What the client pays, and what is not passed, in a sentence.
    rows : tuple of (str, str)
        How it comes to that: what, and how much.
    says : tuple of str
        What the paper says of tax, validity and deposit.
    """

    typed: str
    face: str
    rows: tuple[tuple[str, str], ...]
    says: tuple[str, ...]


def currency_of(shop: Workshop) -> str:
    """Return the currency of the workshop's prices, as its shop rules have it."""
    return open_with(drawer(shop)).job.figures.currency


def example(shop: Workshop, terms: Terms, *, typed: str = "", day: dt.date) -> Example:
    """Return what lines of work come to by the terms.

    Parameters
    ----------
    typed : str
        An amount, with its currency or without.
    day : datetime.date
        On which such a quote would be handed out.

    Raises
    ------
    BadInput
        For what is no amount; ``where`` is "try". For round steps in another currency.
    """
    currency = currency_of(shop)
    usual = Money(minor=TRIED * 10 ** PLACES[currency], currency=currency)
    lines = parse_money(typed, where="try", otherwise=currency) if typed.strip() else usual
    # Nobody knows here what goods were bought for; half of the price shows what it does.
    bought = lines.times(HALF) if terms.tax is TaxSort.MARGIN else None
    rules = terms.rules(currency=lines.currency, bought_for=bought)
    quote = quote_of([typed_line("w", "work", amount=lines, kind=Kind.WORK)], rules=rules)
    price, most, _ = face_says(quote)
    return Example(
        typed=print_money(lines),
        face=f"{price} {most}",
        rows=tuple(_rows(quote, lines, bought)),
        says=(*quote.sums.says, *terms_say(quote, given=day)),
    )


def _rows(quote: Quote, lines: Money, bought: Money | None) -> Iterator[tuple[str, str]]:
    yield "lines of work", print_money(lines)
    for line in quote.lines:
        if line.key == CONTINGENCY:
            yield line.stands.says, print_money(line.amount)
    total, tax = quote.sums.total, quote.rules.tax
    if tax.sort is TaxSort.ADDED:
        yield "before tax", print_money(total.net)
        yield f"tax at {print_rate(tax.rate)}", print_money(total.tax)
    yield "the client pays", print_money(total.gross)
    if bought is not None:
        yield "goods bought for, say", print_money(bought)
        yield "tax within the margin, not shown", print_money(quote.sums.within_margin)
    yield "not passed without a call", print_money(quote.ceiling.gross)
    if quote.deposit.minor:
        yield "asked for beforehand", print_money(quote.deposit)
