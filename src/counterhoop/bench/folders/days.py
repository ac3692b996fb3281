"""Days as documents keep them."""

from __future__ import annotations

import datetime as dt

from counterhoop.errors import BadInput

EARLIEST = dt.date(2000, 1, 1)


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
