"""When the workshop is open and what it has to glue and dry with, as typed."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from counterhoop.bench.folders.days import day_written
from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import OPEN_HOURS
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.open_hours.week import WEEKDAYS, WorkingWeek, days_between, read_week
from counterhoop.quantities.number import parse_number
from counterhoop.store.body import Json
from counterhoop.store.save import Conflict, Saved

USUAL_DAY: Final = "09:00-12:30, 13:30-18:00"
USUAL: Final[dict[str, Any]] = {
    "week": dict.fromkeys(WEEKDAYS[:5], USUAL_DAY),
    "clamps": "12",
    "drying": "4",
    "room": "20 °C",
}
"""What is taken while nobody has said otherwise (common practice, no source)."""
CALLED: Final = {
    "week": "the hours of the week",
    "clamps": "how many clamps there are",
    "drying": "how many places there are to dry",
    "room": "how warm the room is",
}
MOST_THINGS = 999
LONGEST_OFF_DAYS = 3660
COLDEST_C, WARMEST_C = -10.0, 45.0
_WARMTH = re.compile(r"\s*(-?[\d.,]+)\s*°?\s*([cf]?)\s*", re.IGNORECASE)
_SPAN = re.compile(r"\s*(\S+)(?:\s+to\s+(\S+))?\s*")


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenHours:
    """When and with what the workshop works.

    Attributes
    ----------
    week : WorkingWeek
        With days off and days of their own hours.
    typed : mapping of str to str
        The hours of each weekday as they are written.
    clamps, drying : int
        How many clamps, and places on the drying shelf.
    room_c : float
        How warm the room is, nights too.
    usual : tuple of str
        What of it nobody has said, in words.
    """

    week: WorkingWeek
    typed: Mapping[str, str]
    clamps: int
    drying: int
    room_c: float
    usual: tuple[str, ...] = ()

    @property
    def says(self) -> str:
        """Say what of this is only usual; empty where everything was said."""
        if not self.usual:
            return ""
        named = [CALLED[name] for name in CALLED if name in self.usual]
        listed = ", ".join(named[:-1]) + " and " + named[-1] if len(named) > 1 else named[0]
        return f"Nobody has said {listed}: the usual is taken."


def open_hours(shop: Workshop) -> OpenHours:
    """Return when the workshop is open, by what is written in its drawer.

    Raises
    ------
    BadInput
        What is written cannot be read.
    """
    return read_open_hours(drawer(shop).get(OPEN_HOURS, Kept()).table)


def read_open_hours(table: Mapping[str, Any]) -> OpenHours:
    """Return what a table of opening hours says, the usual in place of what it leaves out.

    Raises
    ------
    BadInput
        ``where`` is the field.

    Examples
    --------
    >>> found = read_open_hours({"week": {"mon": "9-12"}, "room": "50 °F", "off": ["2030-05-20"]})
    >>> found.week.days[0], found.room_c, found.clamps
    (((540, 720),), 10.0, 12)
    >>> found.says.partition(":")[0]
    'Nobody has said how many clamps there are and how many places there are to dry'
    """
    said = {name: table[name] for name in USUAL if table.get(name)}
    held = USUAL | said
    week = held["week"]
    if not isinstance(week, dict):
        raise BadInput("hours by weekday", where="week", given=week)
    typed = {str(day): str(hours) for day, hours in week.items()}
    off = [day for span in _rows(table, "off") for day in _days(span)]
    extra = table.get("extra") or {}
    if not isinstance(extra, dict):
        raise BadInput("hours by day", where="extra", given=extra)
    return OpenHours(
        week=read_week(
            typed,
            off=off,
            extra={_day(day, where="extra"): str(hours) for day, hours in extra.items()},
        ),
        typed=typed,
        clamps=_count(held["clamps"], where="clamps"),
        drying=_count(held["drying"], where="drying"),
        room_c=_warmth(held["room"]),
        usual=tuple(name for name in USUAL if name not in said),
    )


def write_open_hours(
    shop: Workshop, table: Mapping[str, Json], *, based_on: int, by: str
) -> Saved | Conflict:
    """Write when the workshop is open.

    Parameters
    ----------
    table : mapping
        All of it, as typed: "week" (hours by weekday), "off" (days, "2030-07-01 to 2030-07-14"),
        "extra" (hours by day), "clamps", "drying", "room".
    based_on : int
        The revision that the writer saw, 0 for none.

    Raises
    ------
    BadInput
        What cannot be read; ``where`` is the field.
    """
    read_open_hours(table)
    change = Change(kind=OPEN_HOURS, value=dict(table), based_on=based_on)
    return write_down(shop, None, change, by=by)


def _rows(table: Mapping[str, Any], name: str) -> list[Any]:
    rows = table.get(name) or []
    if not isinstance(rows, list):
        raise BadInput("days in a list", where=name, given=rows)
    return rows


def _days(span: object) -> tuple[dt.date, ...]:
    read = _SPAN.fullmatch(str(span))
    if read is None:
        raise BadInput(
            "not a day", where="off", given=str(span), wanted='"2030-07-01 to 2030-07-14"'
        )
    first = _day(read[1], where="off")
    last = _day(read[2], where="off") if read[2] else first
    if (last - first).days > LONGEST_OFF_DAYS:
        raise BadInput(
            "closed for more than ten years", where="off", given=str(span),
            step="Look at the year of the last day",
        )  # fmt: skip
    return days_between(first, last)


def _day(text: object, *, where: str) -> dt.date:
    day = day_written(text)
    if day is None:
        raise BadInput(
            "not a day", where=where, given=str(text), wanted="year-month-day, 2026-11-02"
        )
    return day


def _count(typed: object, *, where: str) -> int:
    text = str(typed).strip()
    if not text.isdecimal() or int(text) > MOST_THINGS:
        raise BadInput("how many?", where=where, given=text, wanted="a whole number such as 12")
    return int(text)


def _warmth(typed: object) -> float:
    read = _WARMTH.fullmatch(str(typed))
    if read is None:
        raise BadInput("how warm?", where="room", given=str(typed), wanted='"18 °C" or "64 °F"')
    degrees = float(parse_number(read[1], where="room", given=str(typed)))
    warm_c = (degrees - 32.0) / 1.8 if read[2].casefold() == "f" else degrees
    if not COLDEST_C <= warm_c <= WARMEST_C:
        raise BadInput(
            "no room that one works in", where="room", given=str(typed), wanted='"18 °C" or "64 °F"'
        )
    return warm_c
