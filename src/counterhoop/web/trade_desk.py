"""What the sheets of buying and selling show: own sales, a value by them, the ways to sell."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Final

from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.long_work.answers import Working
from counterhoop.bench.promise.promises import today_of
from counterhoop.bench.trade.features_typed import FEATURES, read_features, text_of
from counterhoop.bench.trade.from_drum import drum_typed
from counterhoop.bench.trade.from_scheme import ways_of_drum
from counterhoop.bench.trade.own_sales import OwnSales, own_sales
from counterhoop.bench.trade.ways_reckoned import Reckoned, reckon_ways, valued
from counterhoop.bench.trade.ways_typed import NOTES, WAYS, WORK_FIRST, WaysTyped, read_ways
from counterhoop.bench.trade.work_typed import hours_lines
from counterhoop.bench.workshop import Workshop
from counterhoop.job.trade.worth import NothingLike, Worth
from counterhoop.job.trade.worth_words import roughly, worth_words
from counterhoop.quantities.day import say_day
from counterhoop.quantities.money import PLACES, Money
from counterhoop.web.plain_sheet import Asked
from counterhoop.web.plans import Planned, plan_for
from counterhoop.web.trade_words import DRUM, GROUPS, asked_fields

MOST_LIKE: Final = 6
LEAST_SHARE: Final = 0.01
"""A sale of less than a hundredth of the weight is not listed."""
LONGEST_NOTE: Final = 4000


@dataclass(frozen=True, slots=True, kw_only=True)
class WorthShown:
    """A value by like sales, for the page.

    Attributes
    ----------
    face, beside : str
        The usual price, and the span of eight in ten.
    says : tuple of str
        What it rests on, what was let go, how the span did before.
    like : tuple of (key, what, price, day, weight)
        The sales that counted most.
    """

    face: str
    beside: str = ""
    says: tuple[str, ...] = ()
    like: tuple[tuple[str, str, str, str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WorthDesk:
    """The sheet "What is a drum like this worth?".

    Attributes
    ----------
    asked : bool
        Whether a drum was named.
    ways_asked : bool
        Whether anything was typed of the ways to sell it.
    groups : tuple of (str, tuple of Asked, bool)
        Fields of the ways, and whether somebody wrote in any of them.
    working : Working or None
        How far the plan is that fills in work and parts of a drum of a job.
    """

    own: OwnSales
    asked: bool
    ways_asked: bool
    drum: tuple[Asked, ...]
    groups: tuple[tuple[str, tuple[Asked, ...], bool], ...]
    worth: WorthShown | None
    ways: Reckoned | None
    rows: tuple[tuple[str, ...], ...]
    hours: tuple[tuple[str, tuple[str, ...]], ...]
    has_fault: bool
    working: Working | None = None


def worth_desk(shop: Workshop, query: Mapping[str, str]) -> WorthDesk:
    """Return the sheet for what an address asks.

    Parameters
    ----------
    query : mapping of str to str
        Features and ways by their names; ``job`` and ``drum`` fill in what is not typed.
    """
    held = drawer(shop)
    own = own_sales(shop, held=held)
    typed = {name: text_of(query, name) for name in (*FEATURES, *WAYS) if name not in NOTES}
    # An emptied field of work is no work; one that was never sent is what is usual.
    typed |= {name: query.get(name, WORK_FIRST.get(name, ""))[:LONGEST_NOTE] for name in NOTES}
    planned: Planned | None = None
    if query.get("job") and query.get("drum") and not any(typed[name] for name in FEATURES):
        job = kept_job(shop, query["job"])
        drum = job.drum(query["drum"])
        typed |= drum_typed(shop, job, drum)
        planned = plan_for(shop, job, held=held)
        if planned.plan is not None and drum.id not in planned.faults:
            typed |= ways_of_drum(shop, job, drum, planned.plan)
    asked = any(typed[name] for name in FEATURES)
    ways_asked = any(name in query for name in WAYS)
    read = read_features(typed) if asked else None
    ways = read_ways(shop, typed, held=held)
    faults = {**(read.faults if read else {}), **ways.faults}
    today = today_of(shop)
    features = read.features if read else None
    found = valued(features, own, on=today) if features else None
    reckoned = (
        reckon_ways(ways, wanted=features, own=own, on=today) if features or ways_asked else None
    )
    return WorthDesk(
        own=own,
        asked=asked,
        ways_asked=ways_asked,
        drum=asked_fields(DRUM, typed, faults),
        groups=tuple(
            (
                says,
                asked_fields(fields, typed, faults),
                any(_own(one.name, query) for one in fields),
            )
            for says, fields in GROUPS
        ),
        worth=_shown(found) if found else None,
        ways=reckoned,
        rows=_rows(reckoned),
        hours=_hours(ways, reckoned),
        has_fault=bool(faults),
        working=planned.working if planned else None,
    )


def _own(name: str, query: Mapping[str, str]) -> bool:
    """Tell whether somebody wrote in a field: what stands there first is nobody's own."""
    sent = query.get(name, "").replace("\r\n", "\n").strip()
    return bool(sent) and sent != WORK_FIRST.get(name)


def _shown(found: Worth | NothingLike) -> WorthShown:
    first, *rest = worth_words(found)
    if isinstance(found, NothingLike):
        return WorthShown(face=first)
    return WorthShown(
        face=f"About {roughly(found.usual)}.",
        beside=f"Eight in ten such drums bring between {roughly(found.low)} and "
        f"{roughly(found.high)}.",
        says=tuple(line for line in rest if not line.startswith("The likest")),
        like=tuple(
            (one.sale.key, one.sale.what, str(one.sale.price), say_day(one.sale.sold_on),
             f"{100 * one.share:.0f} %")
            for one in found.like[:MOST_LIKE]
            if one.share >= LEAST_SHARE
        ),
    )  # fmt: skip


def _rows(found: Reckoned | None) -> tuple[tuple[str, ...], ...]:
    """Return a row for each way: left over the wage, what an hour brings, days."""
    return tuple(
        (
            one.way.name,
            in_coins(one.left),
            in_coins(one.an_hour) if one.an_hour else "no work",
            str(one.days),
        )
        for one in (found.outcomes if found else ())
    )


def in_coins(money: Money) -> str:
    """Print an amount no finer than one guesses it: to two figures, and never in pennies.

    Examples
    --------
    >>> in_coins(Money(minor=-844, currency="GBP")), in_coins(Money(minor=41837, currency="GBP"))
    ('-8 GBP', '420 GBP')
    """
    coin = 10 ** PLACES[money.currency]
    if abs(money.minor) >= 10 * coin:
        return roughly(money)
    return f"{round(Fraction(money.minor, coin))} {money.currency}"


def _hours(ways: WaysTyped, found: Reckoned | None) -> tuple[tuple[str, tuple[str, ...]], ...]:
    work: dict[str, Any] = {
        "whole": ways.whole_work, "parted out": ways.parts_work, "restored": ways.restored_work,
    }  # fmt: skip
    names = {one.way.name for one in (found.outcomes if found else ())}
    return tuple((name, hours_lines(one)) for name, one in work.items() if name in names)
