"""What a drum brings whole, parted out, restored or for its owner, and what to pay for it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, replace

from counterhoop.bench.trade.own_sales import OwnSales
from counterhoop.bench.trade.ways_typed import SELLS_PERCENT, WaysTyped
from counterhoop.job.price.rate import print_rate
from counterhoop.job.trade.features import Features
from counterhoop.job.trade.lot import Lot
from counterhoop.job.trade.outcome import Outcome
from counterhoop.job.trade.paying import MostToPay, least_share, most_to_pay, owner_gets
from counterhoop.job.trade.way import Way
from counterhoop.job.trade.ways_words import compared, most_to_pay_words, ways_words
from counterhoop.job.trade.worth import NothingLike, Worth, sells_percent, worth
from counterhoop.job.trade.worth_words import print_coins, roughly
from counterhoop.quantities.duration import print_minutes
from counterhoop.quantities.money import PLACES, Money

SOLD = {
    "whole": "sold whole as it is", "parted out": "parted out", "restored": "restored and sold",
}  # fmt: skip
"""What becomes of a drum by a way to sell it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reckoned:
    """The ways beside one another.

    Attributes
    ----------
    face, beside : str
        The most to pay; for which way that is, and what the others allow.
    says : tuple of str
        A sentence for each way, the best first, and how plain the choice is.
    outcomes : tuple of Outcome
        In the same order.
    most : mapping of str to str
        The most to pay, a sentence by the name of the way.
    granted : tuple of str
        What was taken for granted, a sentence each.
    left_out : tuple of str
        Ways that nothing can be said of, and why.
    """

    face: str
    beside: str
    says: tuple[str, ...]
    outcomes: tuple[Outcome, ...]
    most: Mapping[str, str]
    granted: tuple[str, ...]
    left_out: tuple[str, ...]


def valued(wanted: Features, own: OwnSales, *, on: dt.date) -> Worth | NothingLike:
    """Return what a drum is worth by the shop's own sales."""
    # A sale may be of tomorrow where the workshop's day is ahead of universal time.
    day = max((on, *(sale.sold_on for sale in own.counted)))
    return worth(wanted, own.counted, on=day, currency=own.currency)


def reckon_ways(
    typed: WaysTyped, *, wanted: Features | None, own: OwnSales, on: dt.date
) -> Reckoned:
    """Return the ways beside one another; what is not typed comes from the shop's own sales.

    Parameters
    ----------
    wanted : Features or None
        The drum; None where nobody said which: then only typed prices serve.
    on : date
        The day of the value.
    """
    made = _Made(typed, wanted, own, on)
    ways = made.ways()
    outcomes = compared(ways, paid=typed.on_top.all_told(typed.paid), wage=typed.wage)
    most = {
        way.name: _in_coins(
            most_to_pay(way, wage=typed.wage, on_top=typed.on_top, sure_percent=typed.sure_percent)
        )
        for way in ways
        if not way.owners
    }
    face, beside = _face(most, typed)
    return Reckoned(
        face=face,
        beside=beside,
        says=ways_words(outcomes),
        outcomes=outcomes,
        most={
            name: most_to_pay_words(one, wage=typed.wage, sure_percent=typed.sure_percent)
            for name, one in most.items()
        },
        granted=tuple(made.granted),
        left_out=tuple(made.left_out),
    )


class _Made:
    """Makes the ways, noting down what it takes for granted."""

    def __init__(
        self, typed: WaysTyped, wanted: Features | None, own: OwnSales, on: dt.date
    ) -> None:
        self.typed, self.own, self.on = typed, own, on
        self.as_is = wanted
        self.restored = wanted and replace(wanted, condition=frozenset(), complete=1.0)
        self.none = Money(minor=0, currency=typed.currency)
        self.granted: list[str] = []
        self.left_out: list[str] = []

    def ways(self) -> list[Way]:
        """Return those of which a price is known, in the order in which one thinks of them."""
        typed = self.typed
        ways = []
        whole = self.drum("whole", self.as_is, typed.whole_price, typed.whole_sells,
                          typed.whole_postage)  # fmt: skip
        if whole:
            ways.append(
                Way(name="whole", lots=(whole,), minutes=typed.whole_work.minutes,
                    spread=typed.whole_work.spread, costs=self.none)
            )  # fmt: skip
        if typed.parts:
            work = typed.parts_work
            ways.append(
                Way(name="parted out", lots=typed.parts, minutes=work.minutes, spread=work.spread,
                    costs=self.none)
            )  # fmt: skip
        else:
            self.left_out.append("Parted out: no part has a price.")
        if typed.parts and typed.unpriced:
            self.left_out.append(f"Parts without a price: {', '.join(typed.unpriced)}.")
        restored = self.drum("restored", self.restored, typed.restored_price, typed.restored_sells,
                             typed.restored_postage)  # fmt: skip
        if restored:
            work = typed.restored_work
            ways.append(
                Way(name="restored", lots=(restored,), minutes=work.minutes, spread=work.spread,
                    costs=typed.restored_costs, days=typed.restored_days)
            )  # fmt: skip
        if whole:
            ways += self.for_owner(ways[0])
        for way in ways:
            if not way.owners:
                self.granted.append(
                    f"{_begin(way.name)}: {print_minutes(way.minutes)} of work as a rule."
                )
        return ways

    def drum(
        self, name: str, wanted: Features | None, price: Money | None, sells: int | None,
        postage: Money,
    ) -> Lot | None:  # fmt: skip
        """Return a drum that is sold in one; None where nobody knows at what price."""
        typed = self.typed
        found = valued(wanted, self.own, on=self.on) if wanted else None
        spread = 0.0
        if price is None and isinstance(found, Worth):
            if wanted is not self.as_is and "condition" in found.let_go:
                self.left_out.append(
                    f"{_begin(name)}: your sales are too few to tell it from the drum as it is. "
                    "Type what it would bring."
                )
                return None
            price, spread = found.usual, found.spread
            self.granted.append(
                f"{_begin(name)}: {roughly(price)}, by your own sales; chances reckon with "
                f"{roughly(found.low)} to {roughly(found.high)}."
            )
        elif price is not None:
            self.granted.append(
                f"{_begin(name)}: {roughly(price)}, taken for sure as you typed it."
            )
        if price is None:
            why = found.says if isinstance(found, NothingLike) else "No drum and no price."
            self.left_out.append(f"{_begin(name)}: {why} Type a price.")
            return None
        if sells is None:
            by = isinstance(found, Worth)
            sells = sells_percent(found, weeks=typed.weeks) if isinstance(found, Worth) else (
                SELLS_PERCENT
            )  # fmt: skip
            self.granted.append(
                f"{_begin(name)}: sells within {typed.weeks} weeks {sells} times in a hundred, "
                f"{'by your own sales' if by else 'a guess'}."
            )
        return Lot(
            what=name, price=price, sells_percent=sells, weeks=typed.weeks,
            otherwise=price.times(typed.unsold), fee=typed.fee, postage=postage, spread=spread,
        )  # fmt: skip

    def for_owner(self, whole: Way) -> list[Way]:
        """Return the whole drum sold for its owner, where a share is typed."""
        typed = self.typed
        least = least_share(whole, wage=typed.wage)
        hour = f"{print_coins(typed.wage)} an hour"
        self.granted.append(
            f"Sold for its owner: not even the whole price would bring {hour}."
            if least is None
            else f"Sold for its owner: {print_rate(least)} of the price bring {hour} on average."
        )
        if typed.share is None:
            return []
        self.granted.append(
            f"Its owner gets about {roughly(owner_gets(whole, share=typed.share))} then; what has "
            "not sold goes back."
        )
        return [whole.for_owner(typed.share)]


def _in_coins(found: MostToPay) -> MostToPay:
    """Return the answer in whole coins, downwards: nobody bids in pennies."""
    coin = 10 ** PLACES[found.price.currency]
    return replace(found, price=replace(found.price, minor=found.price.minor // coin * coin))


def _face(most: Mapping[str, MostToPay], typed: WaysTyped) -> tuple[str, str]:
    if not most:
        return "Nothing to reckon with yet: type a price, or say which drum it is.", ""
    best, *others = sorted(most, key=lambda name: (-most[name].price.minor, most[name].lacks.minor))
    says = most_to_pay_words(most[best], wage=typed.wage, sure_percent=typed.sure_percent)
    beside = [f"That is for a drum that is {SOLD[best]}."]
    if others:
        each = "; ".join(f"{SOLD[name]}: {_at_most(most[name])}" for name in others)
        beside.append(f"{_begin(each)}.")
    return says, " ".join(beside)


def _at_most(found: MostToPay) -> str:
    return f"{print_coins(found.price)} at most" if found.reached else "not even for nothing"


def _begin(name: str) -> str:
    return name[:1].upper() + name[1:]
