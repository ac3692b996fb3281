"""Minutes of a plan, counted from the midnight with which it begins, to days and back."""

from __future__ import annotations

import datetime as dt

from counterhoop.errors import BadInput
from counterhoop.job.open_hours.week import DAY_MIN, Stretches, WorkingWeek, joined

MOST_DAYS = 3660
"""Ten years: a shop booked out for longer has mistyped something."""


def stretches(week: WorkingWeek, start: dt.date, days: int) -> Stretches:
    """Return the working stretches of so many days, in minutes from the midnight of the first.

    Examples
    --------
    >>> from counterhoop.job.open_hours.week import read_week
    >>> stretches(read_week({"fri": "9-12, 13-17", "mon": "9-12"}), dt.date(2026, 3, 6), 4)
    ((540, 720), (780, 1020), (4860, 5040))
    """
    found = []
    for place in range(days):
        for begins, ends in week.hours_of(start + dt.timedelta(days=place)):
            found.append((place * DAY_MIN + begins, place * DAY_MIN + ends))
    return joined(found)


def enough_stretches(
    week: WorkingWeek, start: dt.date, *, hands_min: int, idle_min: int = 0, whole_min: int = 0
) -> Stretches:
    """Return working stretches for so much work however badly it is laid out.

    Parameters
    ----------
    week : WorkingWeek
    start : date
        The first day.
    hands_min : int
        Hands at work, all pieces of work together.
    idle_min : int
        Minutes for which hands may have to wait: all cures, all work not to be laid down, and
        until the last part has come, added up.
    whole_min : int
        The longest piece of work that is not to be laid down; stretches too short for it, in
        which hands may do nothing but wait for a longer one, are not counted on.

    Raises
    ------
    BadInput
        The hours would not do it within ten years.

    Notes
    -----
    Hands only wait while something cures or has not come, so each minute of it loses at most
    one working minute.
    """
    missing = hands_min + idle_min
    for place in range(MOST_DAYS):
        hours = week.hours_of(start + dt.timedelta(days=place))
        missing -= sum(ends - begins for begins, ends in hours if ends - begins >= whole_min)
        if missing <= 0:
            return stretches(week, start, place + 1)
    raise BadInput(
        "these hours do not see the end of the work", where="hours",
        given=f"{hands_min / 60:.0f} h of work", wanted="more hours in a week",
    )  # fmt: skip


def minute_of(when: dt.datetime, *, start: dt.date) -> int:
    """Return the minute of a plan at a time on the workshop's clock, which has no zone.

    Examples
    --------
    >>> minute_of(dt.datetime(2026, 3, 7, 9, 30), start=dt.date(2026, 3, 6))
    2010
    """
    if when.tzinfo is not None:
        raise BadInput(
            "the workshop's clock has no zone", given=str(when), wanted='a time such as "09:30"'
        )
    return (when.date() - start).days * DAY_MIN + when.hour * 60 + when.minute


def time_of(minute: int, *, start: dt.date) -> dt.datetime:
    """Return the time on the workshop's clock at a minute of a plan."""
    return dt.datetime.combine(start, dt.time()) + dt.timedelta(minutes=minute)


def day_of(minute: int, *, start: dt.date) -> dt.date:
    """Return the day in which a minute of a plan lies; midnight belongs to the day it begins."""
    return start + dt.timedelta(days=minute // DAY_MIN)


def end_of(day: dt.date, *, start: dt.date) -> int:
    """Return the minute at which a day is over: by it is ready what is due on that day."""
    return ((day - start).days + 1) * DAY_MIN
