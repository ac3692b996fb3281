"""What a person did to a job's quote, as its document keeps it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Final

from counterhoop.bench.folders.days import day_written
from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.folders.kinds import QUOTE
from counterhoop.errors import BadInput
from counterhoop.job.bill.done import SaidYes
from counterhoop.job.price.line import QuoteLine
from counterhoop.job.price.quote import Quote
from counterhoop.job.price.rate import parse_rate
from counterhoop.job.price.sums import Discount
from counterhoop.quantities.money import parse_money
from counterhoop.store.body import Json

LINES: Final = "lines"
PRICE: Final = "price"
DISCOUNT: Final = "discount"
BOUGHT_FOR: Final = "bought_for"
OFFERS: Final = "offers"
ACCEPTED: Final = "accepted"


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumOffered:
    """A drum as an offer had it.

    Attributes
    ----------
    id, name : str
        For programs, and as it was called.
    scheme : str
        The scheme's number and title.
    code : str
        Of its permanent changes; empty where there are none.
    permanent : tuple of str
        The lines of that code, so that what differs later can be said.
    """

    id: str
    name: str
    scheme: str
    code: str
    permanent: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A quote as it was handed to a client; it is never changed.

    Attributes
    ----------
    number : int
        The how manieth of the job, from 1.
    day : datetime.date
        From which it holds.
    to, by : str
        To whom, and from which bench.
    quote : Quote
    drums : tuple of DrumOffered
    title, story, permanent : str, tuple of str, tuple of str
        What its paper said is proposed, what that means, and what cannot be undone.
    ready : str
        When it was said to be ready, and on which terms; empty where nobody knew.
    agreed : tuple of str
        Names of the changes that were agreed before it was made: its price has them.
    """

    number: int
    day: dt.date
    to: str
    by: str
    quote: Quote
    drums: tuple[DrumOffered, ...]
    title: str
    story: tuple[str, ...]
    permanent: tuple[str, ...]
    ready: str = ""
    agreed: tuple[str, ...] = ()

    @property
    def last_day(self) -> dt.date:
        """The last day on which it may be accepted."""
        return self.quote.last_day(self.day)


@dataclass(frozen=True, slots=True, kw_only=True)
class Accepted:
    """A yes to the price of an offer; no hole may be drilled for it."""

    offer: Offer
    yes: SaidYes


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptQuote:
    """The document of a job's quote.

    Attributes
    ----------
    number : int
        Its revision; 0 before the first.
    lines : tuple of QuoteLine
        Those that a person wrote, changed or struck, with what each stood on.
    price, discount, bought_for : str, mapping, str
        As typed; empty for none.
    offers : tuple of Offer
        In the order in which they were made.
    accepted : Accepted or None
    """

    number: int = 0
    lines: tuple[QuoteLine, ...] = ()
    price: str = ""
    discount: Mapping[str, Any] | None = None
    bought_for: str = ""
    offers: tuple[Offer, ...] = ()
    accepted: Accepted | None = None

    def offer(self, number: int) -> Offer:
        """Return an offer by its number.

        Raises
        ------
        BadInput
            When there is none.
        """
        for one in self.offers:
            if one.number == number:
                return one
        raise BadInput("no such offer of this job", where="offer", given=number)


def kept_quote(job: KeptJob) -> KeptQuote:
    """Return what is written of a job's quote."""
    kept = job.kept(QUOTE)
    table = kept.table
    offers = tuple(_offer_adapter().validate_python(one) for one in table.get(OFFERS, ()))
    found = KeptQuote(
        number=kept.number,
        lines=tuple(line_read(one) for one in table.get(LINES, {}).values()),
        price=str(table.get(PRICE) or ""),
        discount=table.get(DISCOUNT),
        bought_for=str(table.get(BOUGHT_FOR) or ""),
        offers=offers,
    )
    said = table.get(ACCEPTED)
    when = day_written(said.get("when")) if isinstance(said, dict) else None
    if not isinstance(said, dict) or when is None:
        return found
    yes = SaidYes(who=said["who"], when=when, how=said["how"])
    return KeptQuote(
        number=found.number, lines=found.lines, price=found.price, discount=found.discount,
        bought_for=found.bought_for, offers=offers,
        accepted=Accepted(offer=found.offer(said["offer"]), yes=yes),
    )  # fmt: skip


def discount_read(table: Mapping[str, Any] | None, *, currency: str) -> Discount | None:
    """Return a discount as it is typed: {"says": "old friend", "off": "10 %"}, or an amount.

    Raises
    ------
    BadInput
        For what is neither a rate nor an amount.
    """
    if not table:
        return None
    off, says = str(table.get("off") or ""), str(table.get("says") or "discount")
    if "%" in off or "cent" in off:
        return Discount(says=says, share=parse_rate(off, where="discount"))
    return Discount(says=says, amount=parse_money(off, where="discount", otherwise=currency))


def line_read(body: Json) -> QuoteLine:
    """Return a line as it is kept."""
    line: QuoteLine = _line_adapter().validate_python(body)
    return line


def line_written(line: QuoteLine) -> Json:
    """Return a line as it is kept: money in its smallest coin."""
    body: Json = _line_adapter().dump_python(line, mode="json")
    return body


def offer_written(offer: Offer) -> Json:
    """Return an offer as it is kept."""
    body: Json = _offer_adapter().dump_python(offer, mode="json")
    return body


@cache
def _line_adapter() -> Any:
    from pydantic import TypeAdapter

    return TypeAdapter(QuoteLine)


@cache
def _offer_adapter() -> Any:
    from pydantic import TypeAdapter

    return TypeAdapter(Offer)
