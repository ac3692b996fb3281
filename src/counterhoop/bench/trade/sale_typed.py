"""One of the shop's own sales as it is typed, and the sale that it says."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Final, TypeVar

from counterhoop.bench.folders.days import need_day
from counterhoop.bench.trade.features_typed import FEATURES, read_features, text_of
from counterhoop.errors import BadInput
from counterhoop.job.trade.sale import Sale
from counterhoop.quantities.money import Money, parse_money

T = TypeVar("T")
SOLD: Final = ("what", "price", "sold_on", "days", "fees", "postage")
SALE: Final = (*SOLD, *FEATURES)
"""What a sale says; all of it is text as typed."""
MOST_DAYS: Final = 9999


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadSale:
    """A sale as far as it can be read.

    Attributes
    ----------
    faults : mapping of str to BadInput
        By the field that it stands in.
    """

    sale: Sale | None
    faults: Mapping[str, BadInput] = field(default_factory=dict)


def read_sale(typed: Mapping[str, Any], *, key: str, currency: str, today: dt.date) -> ReadSale:
    """Read a sale; all that is wrong with it is said at once.

    Parameters
    ----------
    typed : mapping of str
        By ``SALE``. Days, fees and postage that are not typed are none.
    currency : str
        Of amounts that are typed without one.
    """
    features = read_features(typed)
    faults = dict(features.faults)

    def told(name: str, read: Callable[[str], T], *, otherwise: T | None = None) -> T | None:
        text = text_of(typed, name)
        try:
            if not text and otherwise is None:
                raise BadInput(_MISSING[name], where=name, wanted=_WANTED[name])
            return read(text) if text else otherwise
        except BadInput as fault:
            faults[name] = fault
            return None

    def money(name: str) -> Callable[[str], Money]:
        return lambda text: parse_money(text, where=name, otherwise=currency)

    price = told("price", money("price"))
    nothing = Money(minor=0, currency=price.currency if price else currency)
    sold_on = told("sold_on", lambda text: need_day(text, where="sold_on", today=today))
    days = told("days", _days, otherwise=0)
    fees = told("fees", money("fees"), otherwise=nothing)
    postage = told("postage", money("postage"), otherwise=nothing)
    for name, paid in (("fees", fees), ("postage", postage)):
        if paid and price and paid.currency != price.currency:
            faults[name] = BadInput(
                "two currencies in one sale", where=name, given=str(paid),
                wanted=f"an amount in {price.currency}",
            )  # fmt: skip
    if price and price.minor == 0:
        faults["price"] = BadInput("sold for nothing", where="price", given=str(price))
    drum = features.features
    if faults or not (drum and price and sold_on and fees and postage) or days is None:
        return ReadSale(sale=None, faults=faults)
    return ReadSale(
        sale=Sale(
            key=key,
            what=text_of(typed, "what") or named(typed),
            features=drum,
            price=price,
            sold_on=sold_on,
            days_on_shelf=days,
            fees=fees,
            postage=postage,
        )
    )


def named(typed: Mapping[str, Any]) -> str:
    """Return what one calls a drum that nobody gave a name: line, kind and size.

    Examples
    --------
    >>> named({"line": "Corvane Tarnbeck", "kind": "tom", "size": "13 dia x 9 deep"})
    'Corvane Tarnbeck tom, 13 dia x 9 deep'
    """
    words = " ".join(filter(None, (text_of(typed, "line"), text_of(typed, "kind")))) or "a drum"
    return ", ".join(filter(None, (words, text_of(typed, "size"))))


_MISSING = {"price": "what did it bring?", "sold_on": "when was it sold?"}
_WANTED = {"price": 'an amount such as "240"', "sold_on": "year-month-day, 2026-11-02"}


def _days(text: str) -> int:
    if not (text.isascii() and text.isdecimal() and int(text) <= MOST_DAYS):
        raise BadInput("not a number of days", where="days", given=text, wanted="such as 21")
    return int(text)
