"""The diary held against the one given out before, so that calendars follow."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass, replace

from counterhoop.errors import BadInput
from counterhoop.job.diary.entry import Entry


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A line of the diary as it was given out.

    Attributes
    ----------
    entry : Entry
    times_changed : int
        How often it has changed since it was first given out.
    changed : datetime.datetime
        When it was last changed, with its zone.
    struck : bool
        It no longer holds; calendars are told so.
    """

    entry: Entry
    times_changed: int
    changed: dt.datetime
    struck: bool = False


def carry_on(
    entries: Iterable[Entry], before: Iterable[Written] = (), *, moment: dt.datetime
) -> tuple[Written, ...]:
    """Return the diary to give out now.

    What is as it was keeps its count and its moment; what differs, comes back or no longer
    stands counts one more. Struck lines stay at the end, so that a calendar that missed one
    hears of it; whoever keeps them may drop those whose day is past.

    Parameters
    ----------
    entries : iterable of Entry
        What holds now.
    before : iterable of Written
        What was given out before.
    moment : datetime.datetime
        Now, with its zone.

    Raises
    ------
    BadInput
        Two entries of one key, or a moment without a zone.

    Examples
    --------
    >>> day = dt.date(2026, 12, 11)
    >>> ready = Entry(key="14", says="14 is ready", begins=day, ends=dt.date(2026, 12, 12))
    >>> first = carry_on((ready,), moment=dt.datetime(2026, 12, 1, tzinfo=dt.UTC))
    >>> later = carry_on((), first, moment=dt.datetime(2026, 12, 2, tzinfo=dt.UTC))
    >>> [(one.times_changed, one.struck) for one in (*first, *later)]
    [(0, False), (1, True)]
    """
    if moment.tzinfo is None:
        raise BadInput("the moment of writing has a zone", given=str(moment))
    known = {one.entry.key: one for one in before}
    found: dict[str, Written] = {}
    for entry in entries:
        if entry.key in found:
            raise BadInput("stands in the diary twice", where=entry.key)
        was = known.get(entry.key)
        if was is None:
            found[entry.key] = Written(entry=entry, times_changed=0, changed=moment)
        elif was.entry == entry and not was.struck:
            found[entry.key] = was
        else:
            found[entry.key] = Written(
                entry=entry, times_changed=was.times_changed + 1, changed=moment
            )
    gone = (one for key, one in known.items() if key not in found)
    return (*found.values(), *(_struck(one, moment) for one in gone))


def _struck(one: Written, moment: dt.datetime) -> Written:
    if one.struck:
        return one
    return replace(one, times_changed=one.times_changed + 1, changed=moment, struck=True)
