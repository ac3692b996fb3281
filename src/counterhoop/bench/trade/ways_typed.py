"""Ways to sell a drum, as they are typed: prices, chances, parts, work, what buying costs."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any, Final, TypeVar

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.own_figures import open_with
from counterhoop.bench.trade.features_typed import text_of
from counterhoop.bench.trade.work_typed import WorkTyped, counted_words, lines_in, read_work
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.price.rate import parse_rate
from counterhoop.job.trade.lot import Lot
from counterhoop.job.trade.paying import OnTop
from counterhoop.quantities.money import Money, parse_money

T = TypeVar("T")
WEEKS: Final = 13
UNSOLD: Final = Fraction(1, 2)
SELLS_PERCENT: Final = 50
"""What a way takes for granted where nothing is typed: a season on offer; what has not sold by
then goes for half; of parts, every other one sells. Common practice, no source."""
BUYING: Final = ("paid", "premium", "fetching", "wage", "sure")
SELLING: Final = ("fee", "weeks", "unsold", "share")
WHOLE: Final = ("whole_price", "whole_sells", "whole_postage", "whole_work")
PARTED: Final = ("parts", "parts_sells", "parts_postage", "parts_work")
RESTORED: Final = (
    *("restored_price", "restored_sells", "restored_postage"),
    *("restored_work", "restored_costs", "restored_days"),
)
WAYS: Final = (*BUYING, *SELLING, *WHOLE, *PARTED, *RESTORED)
NOTES: Final = ("parts", "whole_work", "parts_work", "restored_work")
"""Of them, those of several lines."""
WORK_FIRST: Final = {
    "whole_work": "photograph and book in\nclean a shell\ntune a drum\npack a drum",
    "parts_work": "photograph and book in\nstrip a drum\n8 x soak and clean a lug\n"
    "2 x clean a hoop\n8 x pack a drum",
    "restored_work": "photograph and book in\nsurvey a drum\nstrip a drum\n"
    "8 x soak and clean a lug\n2 x clean a hoop\n2 x true an edge\n8 x refit a lug\n"
    "2 x put on hoop and head\ntune a drum\npack a drum",
}
"""Work by each way before one writes any: that of a drum of eight lugs. Common practice, no source.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class WaysTyped:
    """What was read of the ways; what is None was not typed.

    Attributes
    ----------
    wage, paid : Money
        For an hour; for the drum.
    on_top : OnTop
    sure_percent : int or None
        How sure the wage is to be reached.
    fee, unsold : Fraction
        Shares of a price: for selling, and of what has not sold in time.
    share : Fraction or None
        What the shop keeps of the price of a drum that it sells for its owner.
    weeks : int
    parts : tuple of Lot
    unpriced : tuple of str
        Lines of parts without a price.
    faults : mapping of str to BadInput
        By field.
    """

    currency: str
    wage: Money
    paid: Money
    on_top: OnTop
    fee: Fraction
    unsold: Fraction
    weeks: int
    whole_price: Money | None
    whole_sells: int | None
    whole_postage: Money
    whole_work: WorkTyped
    parts: tuple[Lot, ...]
    parts_work: WorkTyped
    restored_price: Money | None
    restored_sells: int | None
    restored_postage: Money
    restored_work: WorkTyped
    restored_costs: Money
    restored_days: int
    sure_percent: int | None = None
    share: Fraction | None = None
    unpriced: tuple[str, ...] = ()
    faults: Mapping[str, BadInput] = field(default_factory=dict)


class _Reader:
    """Reads field by field and goes on after a fault."""

    def __init__(self, typed: Mapping[str, Any], currency: str) -> None:
        self.typed, self.currency = typed, currency
        self.faults: dict[str, BadInput] = {}

    def told(self, name: str, read: Callable[[str], T], otherwise: T) -> T:
        text = str(self.typed.get(name) or "") if name in NOTES else text_of(self.typed, name)
        try:
            return read(text) if text.strip() else otherwise
        except BadInput as fault:
            self.faults[name] = fault
            return otherwise

    def money(self, name: str) -> Money | None:
        return self.told(name, lambda text: self.amount(text, name), None)

    def amount(self, text: str, name: str) -> Money:
        money = parse_money(text, where=name, otherwise=self.currency)
        if money.currency != self.currency:
            raise BadInput(
                "another currency", where=name, given=text, wanted=f"an amount in {self.currency}"
            )
        return money

    def some(self, name: str) -> Money:
        return self.money(name) or Money(minor=0, currency=self.currency)

    def rate(self, name: str) -> Fraction | None:
        return self.told(name, lambda text: parse_rate(text, where=name), None)

    def percent(self, name: str) -> int | None:
        rate = self.rate(name)
        return None if rate is None else round(100 * rate)

    def whole(self, name: str, *, usual: int, least: int, most: int) -> int:
        def read(text: str) -> int:
            if not (text.isascii() and text.isdecimal() and least <= int(text) <= most):
                raise BadInput("not that many", where=name, given=text, wanted=f"{least} to {most}")
            return int(text)

        return self.told(name, read, usual)


def read_ways(
    shop: Workshop, typed: Mapping[str, Any], *, held: Mapping[str, Kept] | None = None
) -> WaysTyped:
    """Read the ways; a field that cannot be read counts as not typed, and says why.

    Parameters
    ----------
    typed : mapping of str
        By ``WAYS``; amounts without a currency are in the workshop's own.
    """
    figures = open_with(drawer(shop) if held is None else held).shop.figures
    reader = _Reader(typed, figures.currency)
    none = Money(minor=0, currency=figures.currency)
    fee, unsold = reader.rate("fee") or Fraction(0), reader.rate("unsold")
    weeks = reader.whole("weeks", usual=WEEKS, least=1, most=520)
    found = WaysTyped(
        currency=figures.currency,
        wage=reader.money("wage") or replace(none, minor=figures.hour_minor),
        paid=reader.some("paid"),
        on_top=OnTop(
            premium=reader.rate("premium") or Fraction(0), fetching=reader.some("fetching")
        ),
        sure_percent=_sure(reader),
        fee=fee,
        unsold=UNSOLD if unsold is None else unsold,
        weeks=weeks,
        share=reader.rate("share"),
        whole_price=reader.money("whole_price"),
        whole_sells=reader.percent("whole_sells"),
        whole_postage=reader.some("whole_postage"),
        whole_work=_work(shop, reader, "whole_work", figures),
        parts=(),
        parts_work=_work(shop, reader, "parts_work", figures),
        restored_price=reader.money("restored_price"),
        restored_sells=reader.percent("restored_sells"),
        restored_postage=reader.some("restored_postage"),
        restored_work=_work(shop, reader, "restored_work", figures),
        restored_costs=reader.some("restored_costs"),
        restored_days=reader.whole("restored_days", usual=0, least=0, most=3650),
    )
    parts, unpriced = _parts(reader, found)
    return replace(found, parts=parts, unpriced=unpriced, faults=reader.faults)


def _sure(reader: _Reader) -> int | None:
    percent = reader.percent("sure")
    if percent is not None and not 1 <= percent <= 99:
        reader.faults["sure"] = BadInput(
            "not a chance to aim at", where="sure", given=f"{percent} %", wanted="1 % to 99 %"
        )
        return None
    return percent


def _work(shop: Workshop, reader: _Reader, name: str, figures: Any) -> WorkTyped:
    nothing = read_work(shop, "", where=name, figures=figures)
    return reader.told(
        name, lambda text: read_work(shop, text, where=name, figures=figures), nothing
    )


def _parts(reader: _Reader, found: WaysTyped) -> tuple[tuple[Lot, ...], tuple[str, ...]]:
    sells = reader.percent("parts_sells")
    usual = SELLS_PERCENT if sells is None else sells
    postage = reader.some("parts_postage")
    unpriced: list[str] = []

    def lot(line: str) -> Lot | None:
        said, *more = (part.strip() for part in line.split(";"))
        count, what = counted_words(said, where="parts")
        if not more or not more[0]:
            unpriced.append(said)
            return None
        if more[2:]:
            raise BadInput(
                "more than a price and a chance", where="parts", given=line,
                wanted='such as "8 x lug; 9; 80 %"',
            )  # fmt: skip
        price = reader.amount(more[0], "parts")
        chance = round(100 * parse_rate(more[1], where="parts")) if more[1:] else usual
        return Lot(
            what=what, price=price, sells_percent=chance, weeks=found.weeks,
            otherwise=price.times(found.unsold), fee=found.fee, postage=postage, count=count,
        )  # fmt: skip

    def every(text: str) -> tuple[Lot, ...]:
        lots = [lot(line) for line in lines_in(text, where="parts")]
        return tuple(one for one in lots if one is not None)

    return reader.told("parts", every, ()), tuple(unpriced)
