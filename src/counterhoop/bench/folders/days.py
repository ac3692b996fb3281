"""Days as documents keep them."""

from __future__ import annotations

import datetime as dt
import re

from counterhoop.errors import BadInput
from counterhoop.quantities.day import MONTHS

EARLIEST = dt.date(2000, 1, 1)
_SPOKEN = re.compile(
    r"(?:[a-z]+day,? )?(?:(?P<day>\d{1,2})\.? )?(?P<month>[a-z]{3,9})\.?(?: (?P<after>\d{1,2}))?"
    r"(?:,? (?P<year>\d{4}))?"
)


def day_written(value: object) -> dt.date | None:
    """Return the day that a document names, or nothing for what is no day.

    Examples
    --------
    >>> day_written("2030-05-17"), day_written("next week")
    (datetime.date(2030, 5, 17), None)
    """
    try:
        return dt.date.fromisoformat(value.strip()) if isinstance(value, str) else None
    except ValueError:
        return None


def day_typed(text: str, *, today: dt.date) -> str:
    """Return a day that was typed in words as documents keep it; whatever else as it is.

    Without a year it is the nearest such day. One that is still to come stays as it was typed: what
    asks for a day that has been refuses it in the words of who typed it.

    Examples
    --------
    >>> today = dt.date(2030, 1, 5)
    >>> day_typed("28 Dec", today=today), day_typed("Friday 4 January 2030", today=today)
    ('2029-12-28', '2030-01-04')
    >>> day_typed("9 Jan", today=today), day_typed("2030-01-04", today=today)
    ('9 Jan', '2030-01-04')
    """
    said = _SPOKEN.fullmatch(" ".join(text.casefold().split()))
    number = said and (said["day"] or said["after"])
    if not said or not number:
        return text
    months = [n for n, name in enumerate(MONTHS, 1) if name.casefold().startswith(said["month"])]
    years = [int(said["year"])] if said["year"] else [today.year - 1, today.year, today.year + 1]
    found = []
    for year in years:
        try:
            found += [dt.date(year, month, int(number)) for month in months]
        except ValueError:
            continue
    day = min(found, key=lambda one: abs(one - today), default=None)
    if day is None or day > today + dt.timedelta(days=1):
        return text
    return day.isoformat()


def need_day(text: str, *, where: str, today: dt.date) -> dt.date:
    """Return a day that has been.

    Raises
    ------
    BadInput
        For what is no day, and for one that is still to come.
    """
    day = day_written(text)
    if day is None:
        raise BadInput(
            "not a day", where=where, given=text or None, wanted="year-month-day, 2026-11-02"
        )
    # A day ahead is allowed: the clock here is in universal time.
    if not EARLIEST <= day <= today + dt.timedelta(days=1):
        raise BadInput("a day that cannot be", where=where, given=text, wanted="today or earlier")
    return day


def local_day(value: object) -> dt.date | None:
    """Return the day here of a time with its zone, as ticks have it, or of a bare day."""
    if not isinstance(value, str):
        return None
    try:
        when = dt.datetime.fromisoformat(value)
    except ValueError:
        return None
    return when.astimezone().date() if when.tzinfo else when.date()
