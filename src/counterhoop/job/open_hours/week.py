"""The hours of a workshop as they are typed, and what they make of each day."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from counterhoop.errors import BadInput

DAY_MIN = 1440
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
CLOSED = ("", "closed", "off", "-")
WANTED = '"09:00-12:30, 13:30-18:00", or "closed"'

Stretches = tuple[tuple[int, int], ...]

_CLOCK = re.compile(r"(\d{1,2})(?:[:.](\d{2}))?")


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkingWeek:
    """When one person works.

    Attributes
    ----------
    days : tuple of seven tuples of (int, int)
        Monday first: stretches in minutes from midnight.
    off : frozenset of date
        Days on which nobody works, whatever the weekday.
    extra : mapping of date to stretches
        Days with hours of their own; they win over ``off`` and the weekday.
    """

    days: tuple[Stretches, ...]
    off: frozenset[dt.date] = frozenset()
    extra: Mapping[dt.date, Stretches] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if len(self.days) != len(WEEKDAYS):
            raise BadInput("a week has seven days", given=len(self.days), wanted="7")

    def hours_of(self, day: dt.date) -> Stretches:
        """Return the stretches worked on a day, in minutes from its midnight."""
        if day in self.extra:
            return self.extra[day]
        return () if day in self.off else self.days[day.weekday()]


def read_week(
    typed: Mapping[str, str],
    *,
    off: Sequence[dt.date] = (),
    extra: Mapping[dt.date, str] | None = None,
) -> WorkingWeek:
    """Read the hours of a week; a weekday that is not named is closed.

    Parameters
    ----------
    typed : mapping of str to str
        Hours by weekday, which may be shortened: "mon".
    off : sequence of date
        Days on which nobody works (``days_between`` for a holiday).
    extra : mapping of date to str
        Hours of single days.

    Raises
    ------
    BadInput
        A weekday that is none or stands twice, hours that cannot be read, or no hours at all.

    Examples
    --------
    >>> week = read_week({"mon": "9-12.30, 13:30-18:00", "sat": "closed"})
    >>> week.days[0]
    ((540, 750), (810, 1080))
    """
    days: dict[int, Stretches] = {}
    for name, hours in typed.items():
        place = _weekday(name)
        if place in days:
            raise BadInput("a weekday stands twice", where=WEEKDAYS[place], given=name)
        days[place] = read_hours(hours, where=WEEKDAYS[place])
    own = {day: read_hours(hours, where=str(day)) for day, hours in (extra or {}).items()}
    if not any(days.values()) and not any(own.values()):
        raise BadInput("the shop is never open", where="hours", wanted=WANTED)
    return WorkingWeek(
        days=tuple(days.get(place, ()) for place in range(len(WEEKDAYS))),
        off=frozenset(off),
        extra=own,
    )


def read_hours(typed: str, *, where: str = "hours") -> Stretches:
    """Read the hours of one day as minutes from midnight.

    Raises
    ------
    BadInput
        What is not a time, ends before it begins, or runs into the next stretch.

    Examples
    --------
    >>> read_hours("09:00-12:30, 13:30-18:00"), read_hours("closed")
    (((540, 750), (810, 1080)), ())
    >>> read_hours("18:00-9:00")
    Traceback (most recent call last):
    counterhoop.errors.BadInput: hours: ends before it begins: found '18:00-9:00', wanted ...
    """
    if typed.strip().casefold() in CLOSED:
        return ()
    found = []
    for piece in re.split(r"[,;]", typed):
        sides = re.split(r"\s*(?:-|–|—|\bto\b)\s*", piece.strip())
        if len(sides) != 2:
            raise BadInput("from when to when?", where=where, given=typed, wanted=WANTED)
        begins, ends = (_clock(side, where=where, given=typed) for side in sides)
        if ends <= begins:
            raise BadInput(
                "ends before it begins", where=where, given=piece, wanted=WANTED,
                step="Hours over midnight: to 24:00, and from 0:00 on the next day.",
            )  # fmt: skip
        found.append((begins, ends))
    for (_, ends), (begins, _) in pairwise(found):
        if begins < ends:
            raise BadInput(
                "stretches run into each other or are out of order", where=where, given=typed,
                wanted=WANTED,
            )  # fmt: skip
    return joined(found)


def days_between(first: dt.date, last: dt.date) -> tuple[dt.date, ...]:
    """Return each day from the first to the last, both counted, as one takes a holiday.

    Raises
    ------
    BadInput
        The last day lies before the first.
    """
    if last < first:
        raise BadInput("ends before it begins", where="days off", given=f"{first} to {last}")
    return tuple(first + dt.timedelta(days=each) for each in range((last - first).days + 1))


def _weekday(name: str) -> int:
    """Return the number of a weekday, Monday 0; at least its first two letters."""
    said = name.strip().casefold()
    fits = [place for place, day in enumerate(WEEKDAYS) if len(said) > 1 and day.startswith(said)]
    if len(fits) != 1:
        raise BadInput("no weekday", where="hours", given=name, wanted='a name such as "monday"')
    return fits[0]


def _clock(typed: str, *, where: str, given: str) -> int:
    """Return minutes from midnight; 24:00 is the midnight that ends the day."""
    read = _CLOCK.fullmatch(typed.strip())
    if not read:
        raise BadInput("not a time of day", where=where, given=given, wanted=WANTED)
    hour, minute = int(read[1]), int(read[2] or 0)
    if minute > 59 or hour * 60 + minute > DAY_MIN:
        raise BadInput("not a time of day", where=where, given=given, wanted=WANTED)
    return hour * 60 + minute


def joined(found: Sequence[tuple[int, int]]) -> Stretches:
    """Return stretches with those that touch made one."""
    joined: list[tuple[int, int]] = []
    for begins, ends in found:
        if joined and joined[-1][1] == begins:
            joined[-1] = (joined[-1][0], ends)
        else:
            joined.append((begins, ends))
    return tuple(joined)
