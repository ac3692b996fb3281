"""The diary as an iCalendar file (RFC 5545)."""

from __future__ import annotations

import datetime as dt
import hashlib
import unicodedata
from collections.abc import Iterable

from counterhoop.job.diary.carry_on import Written

MADE_BY = "-//Counterhoop//Diary of a workshop//EN"


def calendar_of(diary: Iterable[Written], *, whose: str) -> bytes:
    r"""Return the diary as the bytes of an iCalendar file.

    Parameters
    ----------
    diary : iterable of Written
        As ``carry_on`` returns it.
    whose : str
        The workshop's name. It is shown, and it keeps apart two workshops' jobs of one number
        in one calendar: a workshop that changes it begins a new diary.

    Notes
    -----
    Whole days are dates with an end that is no longer part of them, times float (section 3.3.5,
    form 1), lines end in CR LF and are folded at 75 octets (3.1).

    Examples
    --------
    >>> from counterhoop.job.diary.entry import Entry
    >>> ready = Entry(
    ...     key="14", says="14 is ready", begins=dt.date(2026, 12, 11), ends=dt.date(2026, 12, 12)
    ... )
    >>> stamp = dt.datetime(2026, 12, 1, 9, 30, tzinfo=dt.UTC)
    >>> made = calendar_of((Written(entry=ready, times_changed=0, changed=stamp),), whose="Bench")
    >>> [line for line in made.decode().split("\r\n") if line.startswith("DT")]
    ['DTSTART;VALUE=DATE:20261211', 'DTEND;VALUE=DATE:20261212', 'DTSTAMP:20261201T093000Z']
    """
    import icalendar

    made = icalendar.Calendar()
    made.add("prodid", MADE_BY)
    made.add("version", "2.0")
    # The library does not know that a name (RFC 7986) is text.
    made.add("name", icalendar.vText(_one_line(whose)))
    for one in diary:
        event = icalendar.Event()
        event.add("uid", uid_of(one.entry.key, whose=whose))
        event.add("dtstamp", one.changed.astimezone(dt.UTC))
        event.add("sequence", one.times_changed)
        event.add("summary", _one_line(one.entry.says))
        if one.entry.more:
            event.add("description", _plain(one.entry.more))
        event.add("dtstart", one.entry.begins)
        # A moment is written without an end: one equal to the beginning is not allowed (3.8.2.2).
        if one.entry.ends > one.entry.begins:
            event.add("dtend", one.entry.ends)
        event.add("transp", "OPAQUE" if one.entry.busy else "TRANSPARENT")
        event.add("status", "CANCELLED" if one.struck else "CONFIRMED")
        made.add_component(event)
    return bytes(made.to_ical())


def uid_of(key: str, *, whose: str) -> str:
    """Return the name by which calendars know an entry, whatever it comes to say.

    Examples
    --------
    >>> uid_of("promised/14", whose="Bench")
    '59511468fff5e630477086c4c2e00405@counterhoop'
    """
    told = f"{len(whose)} {whose}{key}".encode("utf-8", "surrogatepass")
    return f"{hashlib.blake2s(told, digest_size=16).hexdigest()}@counterhoop"


def _plain(text: str) -> str:
    """Return text without what a calendar may not hold: controls, and halves of characters."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    return "".join(
        " " if one != "\n" and unicodedata.category(one) in ("Cc", "Cs") else one for one in lines
    )


def _one_line(text: str) -> str:
    return _plain(text).replace("\n", " ")
