"""When something was saved, at which bench: given by the caller, the store has no clock."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.store.plain_text import plain_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamp:
    """The time and the bench of one save.

    Attributes
    ----------
    when : datetime.datetime
        With its time zone; kept in universal time.
    bench : str
        How the workshop calls the machine or the person.

    Examples
    --------
    >>> when = dt.datetime(2026, 3, 4, 9, 30, tzinfo=dt.timezone(dt.timedelta(hours=1)))
    >>> Stamp(when=when, bench="window bench").written
    '2026-03-04T08:30:00.000000Z'
    """

    when: dt.datetime
    bench: str

    def __post_init__(self) -> None:
        if self.when.tzinfo is None:
            raise BadInput(
                "a time without its zone", where="stamp", given=str(self.when), wanted="one with it"
            )
        plain_text(self.bench, where="bench")

    @property
    def written(self) -> str:
        """The time as it is kept: texts of one length, which sort as the times do."""
        return write_time(self.when)


def write_time(when: dt.datetime) -> str:
    """Return a time in universal time, to the microsecond."""
    moment = when.astimezone(dt.UTC).replace(tzinfo=None)
    return moment.isoformat(timespec="microseconds") + "Z"


def read_time(text: str) -> dt.datetime:
    """Return the time that was written.

    Examples
    --------
    >>> read_time("2026-03-04T08:30:00.000000Z").hour
    8
    """
    return dt.datetime.fromisoformat(text)
