"""Money in whole pennies (or whatever the smallest coin is called), never in floats."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.quantities.typed import need_text, plain_typed

PLACES = {"GBP": 2, "EUR": 2, "USD": 2, "CHF": 2, "JPY": 0, "KWD": 3}
"""Decimal places of a currency's smallest unit. Source: ISO 4217 list one, as carried by the
package iso4217 1.16.20260101 (seen)."""

_SIGNS = {"£": "GBP", "€": "EUR"}
_TWO_MEANINGS = {"$": "USD", "¥": "JPY", "fr": "CHF"}
_MONEY = re.compile(
    r"(?P<sign>-?)\s*(?P<before>[a-z]+|[£€$¥])?\s*(?P<number>[0-9][0-9.,' ]*?)"
    r"\s*(?P<after>[a-z]+|[£€$¥])?"
)
_NUMBER = re.compile(r"(?P<whole>[0-9]+)(?:[.,](?P<part>[0-9]+))?")
_WANTED = 'an amount such as "28.50 GBP"'
_MOST_MINOR = 10**13


@dataclass(frozen=True, slots=True, kw_only=True, order=False)
class Money:
    """An amount in the smallest unit of its currency.

    Attributes
    ----------
    minor : int
        Pennies, cents or fils; whole yen. May be below zero.
    currency : str
        ISO 4217 letters, one of ``PLACES``.

    Examples
    --------
    >>> str(Money(minor=2850, currency="GBP") + Money(minor=150, currency="GBP"))
    '30.00 GBP'
    """

    minor: int
    currency: str

    def __add__(self, other: Money) -> Money:
        return Money(minor=self.minor + self._same(other).minor, currency=self.currency)

    def __sub__(self, other: Money) -> Money:
        return Money(minor=self.minor - self._same(other).minor, currency=self.currency)

    def __lt__(self, other: Money) -> bool:
        return self.minor < self._same(other).minor

    def __str__(self) -> str:
        return print_money(self)

    def times(self, factor: Fraction | int) -> Money:
        """Return the amount times an exact factor, halves of the smallest unit away from zero.

        Examples
        --------
        >>> str(Money(minor=3500, currency="GBP").times(Fraction(25, 60)))
        '14.58 GBP'
        """
        exact = abs(self.minor * Fraction(factor))
        whole = (exact + Fraction(1, 2)).__floor__()
        return Money(minor=whole if self.minor * factor >= 0 else -whole, currency=self.currency)

    def _same(self, other: Money) -> Money:
        if self.currency != other.currency:
            raise BadInput(
                "amounts in two currencies cannot be joined",
                given=f"{self} and {other}",
                wanted="one currency for the whole job",
            )
        return other


def parse_money(
    text: object, *, where: str = "", allow_negative: bool = False, otherwise: str = ""
) -> Money:
    """Read an amount with its currency, exactly.

    Parameters
    ----------
    text : object
        ``28.00 GBP``, ``GBP 28``, ``£28.50``, ``€4,50``, ``4,50 €``, ``1200 JPY``.
    where : str
        Place in the file, for the message.
    allow_negative : bool
        Whether an amount below zero makes sense here.
    otherwise : str
        Currency of an amount that is written without one; empty refuses it.

    Raises
    ------
    BadInput
        For no currency, a sign that several countries use, digits in groups, and more decimals
        than the currency has.

    Examples
    --------
    >>> parse_money("€4,50")
    Money(minor=450, currency='EUR')
    >>> parse_money("45,00", otherwise="GBP")
    Money(minor=4500, currency='GBP')
    """
    as_written = need_text(text, where=where, noun="an amount", example="28.50 GBP")

    def refuse(what: str, wanted: str = _WANTED, step: str = "") -> BadInput:
        return BadInput(what, where=where, given=as_written, wanted=wanted, step=step)

    found = _MONEY.fullmatch(plain_typed(as_written))
    if found is None:
        raise refuse("cannot be read as an amount of money")
    marks = [mark for mark in (found["before"], found["after"]) if mark]
    if not marks and otherwise:
        marks = [otherwise.lower()]
    number = _NUMBER.fullmatch(found["number"])
    if number is None:
        raise refuse("digits in groups", 'them without spaces or commas, such as "1234.50 GBP"')
    if len(marks) != 1:
        raise refuse("no currency" if not marks else "two currencies", f'"{found["number"]} GBP"')
    currency = _currency(marks[0], amount=found["number"], where=where, given=as_written)
    places, part = PLACES[currency], number["part"] or ""
    if len(part) == 3 and places != 3:
        raise refuse(
            "the comma or point may mean thousands", f'"{number["whole"]}{part} {currency}"'
        )
    if len(part) > places:
        raise refuse(f"{currency} has {places} decimals")
    minor = int(number["whole"]) * 10**places + int(part.ljust(places, "0") or 0)
    if minor > _MOST_MINOR:
        raise refuse("more money than a workshop sees")
    if found["sign"] and minor and not allow_negative:
        raise refuse("an amount cannot be below zero here")
    return Money(minor=-minor if found["sign"] else minor, currency=currency)


def _currency(mark: str, *, amount: str, where: str, given: str) -> str:
    if mark in _SIGNS:
        return _SIGNS[mark]
    if mark in _TWO_MEANINGS:
        code = _TWO_MEANINGS[mark]
        raise BadInput(
            f'several countries write "{mark}"',
            where=where,
            given=given,
            wanted=f'its letters, such as "{amount} {code}"',
        )
    if mark.upper() not in PLACES:
        raise BadInput(
            f'"{mark}" is not a currency in the list ({", ".join(PLACES)})',
            where=where,
            given=given,
            wanted=_WANTED,
            step=did_you_mean(mark, PLACES),
        )
    return mark.upper()


def print_money(money: Money) -> str:
    """Print an amount with all its decimals and its letters.

    Examples
    --------
    >>> print_money(Money(minor=-5, currency="EUR")), print_money(Money(minor=1200, currency="JPY"))
    ('-0.05 EUR', '1200 JPY')
    """
    places = PLACES[money.currency]
    whole, part = divmod(abs(money.minor), 10**places)
    shown = f"{whole}.{part:0{places}d}" if places else f"{whole}"
    return f"{'-' if money.minor < 0 else ''}{shown} {money.currency}"
