"""Print a day so that no country misreads it."""

from __future__ import annotations

import datetime as dt

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def say_day(day: dt.date | None) -> str:
    """Print a day with its month as a word; nothing for no day.

    Examples
    --------
    >>> say_day(dt.date(2026, 3, 4)), say_day(None)
    ('4 March 2026', '')
    """
    return "" if day is None else f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def say_weekday(day: dt.date) -> str:
    """Print a day with its day of the week, by which a promise is remembered.

    Examples
    --------
    >>> say_weekday(dt.date(2026, 12, 11))
    'Friday 11 December 2026'
    """
    return f"{WEEKDAYS[day.weekday()]} {say_day(day)}"
