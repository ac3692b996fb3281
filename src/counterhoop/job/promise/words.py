"""The promise in words: one date on the face, what it rests on beneath."""

from __future__ import annotations

from math import ceil

from counterhoop.job.promise.promise import Promise
from counterhoop.job.promise.still import Still
from counterhoop.quantities.day import say_weekday


def on_the_face(found: Promise) -> str:
    """Return the one date: "Friday 11 December 2026"."""
    return say_weekday(found.day)


def beneath(found: Promise) -> str:
    """Return what the date rests on, for the client.

    Examples
    --------
    >>> import datetime as dt
    >>> found = Promise(
    ...     day=dt.date(2026, 12, 11), share=0.847, doubt=0.0112, half_by=dt.date(2026, 12, 9),
    ...     workings=4000, asked=0.8,
    ... )
    >>> on_the_face(found)
    'Friday 11 December 2026'
    >>> beneath(found)
    '8 of 10 workings are done by then; half are by Wednesday 9 December 2026.'
    >>> exactly(found)
    '84 % of 4000 workings of the plan, give or take 2 %.'
    """
    said = f"{_tenths(found.share)} are done by then"
    if found.half_by == found.day:
        return f"{said}."
    return f"{said}; half are by {say_weekday(found.half_by)}."


def exactly(found: Promise) -> str:
    """Return its own percentage, and how far that may be off for the count alone."""
    return (
        f"{_percent(found.share)} of {found.workings} workings of the plan, "
        f"give or take {_off(found.doubt)}."
    )


def still_says(one: Still) -> str:
    """Return how likely a date is that was given."""
    said = (
        f"{one.job}, promised for {say_weekday(one.promised)}: "
        f"{_tenths(one.share).lower()} are done by then"
    )
    if one.holds:
        return f"{said}."
    return f"{said}; {_enough(one.now)}. Ring in time."


def _enough(now: Promise) -> str:
    """Return by when as many are done as are asked for."""
    return f"{_percent(now.asked)} are by {say_weekday(now.day)}"


def _tenths(share: float) -> str:
    """Return a share of workings in tenths, never more than it is."""
    if share >= 1.0:
        return "All workings"
    tenths = int(10.0 * share + 1e-9)
    return f"{tenths} of 10 workings" if tenths else "Fewer than 1 of 10 workings"


def _percent(share: float) -> str:
    """Return a share in whole percent, never more than it is; none only where it is so."""
    return f"{max(int(100.0 * share + 1e-9), 1 if share > 0.0 else 0)} %"


def _off(doubt: float) -> str:
    return f"{ceil(100.0 * doubt)} %"
