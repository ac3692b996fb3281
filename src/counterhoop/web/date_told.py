"""The day as a quote tells it to the client: by when, and what that takes for granted."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence

from counterhoop.bench.price.kept_quote import kept_quote
from counterhoop.bench.promise.pieces import WaitsFor
from counterhoop.papers.facts import listed
from counterhoop.quantities.day import say_weekday
from counterhoop.web.date_desk import DateDesk
from counterhoop.web.date_words import in_100

MOST_NAMED = 2
"""So many parts are named; more are counted."""


def ready_told(date: DateDesk) -> str:
    """Return when a job would be ready, for its quote; empty while that is not known.

    A day that was promised stands by itself.
    """
    promised = date.promises.stands
    if promised is not None and promised.day is not None:
        return f"Promised for {say_weekday(promised.day)}."
    plan = date.planned.plan
    if date.told is None or plan is None:
        return ""
    drums = plan.bench.job(date.job.id).work.drums
    return day_told(
        date.told.found.day,
        share=date.told.found.share,
        yes_by=max(
            (one.day for drum in drums for one in drum.for_client),
            default=None if kept_quote(date.job).accepted else plan.start,
        ),
        parts=[one for drum in drums for one in drum.for_part],
    )


def day_told(
    day: dt.date, *, share: float, yes_by: dt.date | None, parts: Sequence[WaitsFor] = ()
) -> str:
    """Return the day with its conditions.

    Parameters
    ----------
    day : datetime.date
        By which it is ready.
    share : float
        Of workings of the plan that are done by then.
    yes_by : datetime.date or None
        On which the client's yes is taken to be here; None where it is.
    parts : sequence of WaitsFor
        What is not there yet.

    Examples
    --------
    >>> hoop = WaitsFor(drum="red tom", what="1 hoop", day=dt.date(2026, 12, 7))
    >>> told = day_told(
    ...     dt.date(2026, 12, 8), share=0.993, yes_by=dt.date(2026, 11, 30), parts=[hoop]
    ... )
    >>> told.partition(" if ")[0]
    'Ready by Tuesday 8 December 2026'
    >>> told.partition(" if ")[2].partition(":")[0]
    'your yes is here by Monday 30 November 2026 and 1 hoop has come by Monday 7 December 2026'
    """
    yes = [f"your yes is here by {say_weekday(yes_by)}"] if yes_by else []
    terms = [*yes, *_parts_told(parts)]
    if_so = f" if {listed(terms)}" if terms else ""
    moved = " A later yes moves the day." if yes else ""
    return f"Ready by {say_weekday(day)}{if_so}: {in_100(share)} as the bench stands.{moved}"


def _parts_told(parts: Sequence[WaitsFor]) -> Iterator[str]:
    if not parts:
        return
    whats = [one.what for one in parts]
    named = listed(whats) if len(whats) <= MOST_NAMED else f"{len(whats)} sorts of parts"
    has = "has" if len(whats) == 1 and whats[0].startswith("1 ") else "have"
    yield f"{named} {has} come by {say_weekday(max(one.day for one in parts))}"
