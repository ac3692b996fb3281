"""What the workshop says once for all jobs: tax, ceiling, deposit, letter head, warranty.

What is not written has a default, common practice, no source; nothing says what the law is.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from typing import Any, Final, TypeVar

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import TERMS
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.price.quote import QuoteRules
from counterhoop.job.price.rate import parse_rate
from counterhoop.job.price.tax import CHECK, Rounding, Tax, TaxSort
from counterhoop.quantities.money import PLACES, Money, parse_money
from counterhoop.store.body import Json
from counterhoop.store.running.style import NumberStyle
from counterhoop.store.save import Conflict, Saved

T = TypeVar("T", bound=StrEnum)
CONTINGENCY: Final = Fraction(1, 10)
OVER: Final = Fraction(15, 100)
VALID_DAYS: Final = 30
ROUND_UNITS: Final = 5
NAMES: Final = (
    *("tax", "rate", "included", "rounding"),
    *("contingency", "over", "round", "deposit", "valid_days", "exclusions", "to_pay"),
    *("shop", "shop_lines", "by_year", "digits", "uncollected", "warranty"),
)
"""What the document may say; all of it is text as typed, but for lists of lines and yes or no."""
MOST_LINES = 40
LONGEST = 300


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """What a workshop says once for all its quotes and bills.

    Attributes
    ----------
    tax : TaxSort
    rate : Fraction
    included : bool
        Whether prices are typed with the added tax in them.
    rounding : Rounding
    contingency, over, deposit : Fraction
        Shares, as of ``QuoteRules``.
    round_to : str
        Prices are round in steps of this, as typed; empty for the usual.
    valid_days : int
    exclusions, to_pay : tuple of str
        What is not in a price; how a bill is to be paid. Sentences.
    shop : str
        The workshop's name at the head of a letter.
    shop_lines : tuple of str
        Where to find it.
    numbers : NumberStyle
        How running numbers are written.
    uncollected : str
        What usually becomes of drums that nobody fetches; local law applies besides.
    warranty : tuple of str
        What the workshop stands for after the hand-over. Sentences.
    number : int
        The revision that says so; 0 before the first.
    """

    tax: TaxSort = TaxSort.NONE
    rate: Fraction = Fraction(0)
    included: bool = False
    rounding: Rounding = Rounding.TOTAL
    contingency: Fraction = CONTINGENCY
    over: Fraction = OVER
    deposit: Fraction = Fraction(0)
    round_to: str = ""
    valid_days: int = VALID_DAYS
    exclusions: tuple[str, ...] = ()
    to_pay: tuple[str, ...] = ()
    shop: str = ""
    shop_lines: tuple[str, ...] = ()
    numbers: NumberStyle = field(default_factory=NumberStyle)
    uncollected: str = ""
    warranty: tuple[str, ...] = ()
    number: int = 0

    @property
    def says(self) -> tuple[str, ...]:
        """What is taken for granted, and what to check."""
        usual = () if self.number else ("The usual terms: none are written down yet.",)
        return (*usual, CHECK)

    def rules(self, *, currency: str, bought_for: Money | None = None) -> QuoteRules:
        """Return the rules of a quote in a currency.

        Raises
        ------
        BadInput
            For a round figure in another currency, and for tax on the margin of goods of which
            nobody wrote what they were bought for.
        """
        return QuoteRules(
            round_to=_step(self.round_to, currency=currency),
            tax=Tax(
                sort=self.tax,
                rate=self.rate,
                included=self.included,
                rounding=self.rounding,
                bought_for=bought_for,
            ),
            contingency=self.contingency,
            over=self.over,
            deposit=self.deposit,
            valid_days=self.valid_days,
            exclusions=self.exclusions,
        )


def terms_of(shop: Workshop, *, held: Mapping[str, Kept] | None = None) -> Terms:
    """Return the workshop's own terms.

    Parameters
    ----------
    held : mapping of str to Kept, optional
        What the workshop's drawer holds, where a page has it at hand already.

    Raises
    ------
    BadInput
        When what is written cannot be read; ``where`` is its name.
    """
    kept = (drawer(shop) if held is None else held).get(TERMS, Kept())
    return read_terms(kept.table, number=kept.number)


def write_terms(shop: Workshop, said: Mapping[str, Json], *, based_on: int, by: str) -> (
    Saved | Conflict
):  # fmt: skip
    """Write the terms down as typed; empty ones are left to the usual.

    Parameters
    ----------
    said : mapping of str to Json
        By ``NAMES``.

    Raises
    ------
    BadInput
        For what cannot be read; ``where`` is its name.
    """
    for name in said:
        if name not in NAMES:
            raise BadInput("no such term", where=name, given=name, wanted=", ".join(NAMES))
    body: dict[str, Json] = {name: value for name, value in said.items() if value}
    read_terms(body)
    return write_down(shop, None, Change(kind=TERMS, value=body, based_on=based_on), by=by)


def read_terms(table: Mapping[str, Any], *, number: int = 0) -> Terms:
    """Read the terms of a document.

    Examples
    --------
    >>> terms = read_terms({"tax": "added", "rate": "20 %", "deposit": "30 %"})
    >>> terms.rate, terms.deposit, terms.contingency
    (Fraction(1, 5), Fraction(3, 10), Fraction(1, 10))
    """
    tax = _one_of(TaxSort, table, "tax", usual=TaxSort.NONE)
    rate = _share(table, "rate", usual=Fraction(0))
    if tax is not TaxSort.NONE and not table.get("rate"):
        raise BadInput("no rate", where="rate", wanted='a rate such as "20 %"')
    round_to = str(table.get("round") or "")
    if round_to:
        # Of which currency a job is, only the job knows.
        money = parse_money(round_to, where="round", otherwise="GBP")
        if money.minor < 1:
            raise BadInput("no step for round prices", where="round", given=round_to)
    return Terms(
        tax=tax,
        rate=rate,
        included=bool(table.get("included")),
        rounding=_one_of(Rounding, table, "rounding", usual=Rounding.TOTAL),
        contingency=_share(table, "contingency", usual=CONTINGENCY),
        over=_share(table, "over", usual=OVER),
        deposit=_share(table, "deposit", usual=Fraction(0)),
        round_to=round_to,
        valid_days=_whole(table, "valid_days", usual=VALID_DAYS, wanted="days, 1 to 365", most=365),
        exclusions=_lines(table, "exclusions"),
        to_pay=_lines(table, "to_pay"),
        shop=str(table.get("shop") or "")[:LONGEST],
        shop_lines=_lines(table, "shop_lines"),
        numbers=NumberStyle(
            by_year=bool(table.get("by_year")),
            digits=_whole(table, "digits", usual=1, wanted="digits, 1 to 9", most=9),
        ),
        uncollected=" ".join(str(table.get("uncollected") or "").split())[:LONGEST],
        warranty=_lines(table, "warranty"),
        number=number,
    )


def _step(typed: str, *, currency: str) -> Money:
    if not typed:
        return Money(minor=ROUND_UNITS * 10 ** (PLACES[currency] or 2), currency=currency)
    step = parse_money(typed, where="round", otherwise=currency)
    if step.currency != currency:
        raise BadInput(
            "prices of this job are in another currency", where="round", given=typed,
            wanted=f"a step in {currency}, or without a currency",
        )  # fmt: skip
    return step


def _share(table: Mapping[str, Any], name: str, *, usual: Fraction) -> Fraction:
    return parse_rate(table[name], where=name) if table.get(name) else usual


def _whole(table: Mapping[str, Any], name: str, *, usual: int, wanted: str, most: int) -> int:
    typed = table.get(name)
    if not typed:
        return usual
    text = str(typed).strip()
    if not (text.isascii() and text.isdecimal() and len(text) < 6 and 1 <= int(text) <= most):
        raise BadInput("not that many", where=name, given=typed, wanted=wanted)
    return int(text)


def _lines(table: Mapping[str, Any], name: str) -> tuple[str, ...]:
    typed = table.get(name) or []
    rows = typed.splitlines() if isinstance(typed, str) else typed
    if not isinstance(rows, list) or not all(isinstance(row, str) for row in rows):
        raise BadInput("not lines of text", where=name, given=typed)
    kept = tuple(row.strip() for row in rows if row.strip())
    if len(kept) > MOST_LINES or any(len(row) > LONGEST for row in kept):
        raise BadInput("more than fits on a paper", where=name, wanted=f"{MOST_LINES} short lines")
    return kept


def _one_of(sort: type[T], table: Mapping[str, Any], name: str, *, usual: T) -> T:
    typed = table.get(name)
    if not typed:
        return usual
    for one in sort:
        if str(one) == typed:
            return one
    raise BadInput("not one of the ways", where=name, given=typed, wanted=", ".join(map(str, sort)))
