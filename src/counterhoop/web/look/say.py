"""How times and lengths are said on a page."""

from __future__ import annotations

import datetime as dt
from typing import Any

from jinja2 import pass_context
from jinja2.runtime import Context

from counterhoop.quantities.day import say_day
from counterhoop.quantities.print_length import TAPE_MM, print_length


def clock(when: dt.datetime) -> str:
    """Return the time of day as this machine's clock shows it, "14:03"."""
    return f"{when.astimezone():%H:%M}"


def day(when: dt.date) -> str:
    """Return a day, with the day of the week that a promise is kept by.

    Examples
    --------
    >>> day(dt.date(2030, 5, 17))
    'Fri 17 May 2030'
    """
    local = when.astimezone() if isinstance(when, dt.datetime) else when
    # Not %a: that would follow the machine's language and not the page's.
    weekday = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")[local.weekday()]
    return f"{weekday} {say_day(local)}"


def moment(when: dt.datetime) -> str:
    """Return day and time of day."""
    return f"{day(when)}, {clock(when)}"


@pass_context
def length(context: Context, value_mm: float, resolution_mm: float = TAPE_MM) -> str:
    """Return a length both ways, first the unit that this browser reads first."""
    mine: Any = context["mine"]
    return print_length(value_mm, units=mine.units, resolution_mm=resolution_mm)


def capfirst(text: str) -> str:
    """Return a sentence with its first letter large and all others as they are.

    Examples
    --------
    >>> capfirst("hole 7 is too near the edge of the Corvane tom")
    'Hole 7 is too near the edge of the Corvane tom'
    """
    return text[:1].upper() + text[1:]
