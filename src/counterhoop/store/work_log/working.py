"""One working as it stands in the log, and the row that says so."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from counterhoop.errors import BadInput
from counterhoop.job.hours.stretches import Stretch
from counterhoop.quantities.duration import Duration, parse_duration
from counterhoop.store.plain_text import LONGEST, plain_text
from counterhoop.store.stamp import Stamp, read_time

LONGEST_NOTE = 2000
MOST_COUNT = 100_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Working:
    """Work on one thing, from picking it up to putting it down, or its time as typed after.

    Attributes
    ----------
    entry : int
        Number of the row that it began with; 0 while it is not written.
    job_id : str or None
        Of which job; None for the workshop's own.
    drum, operation : str
        On what, and what of the operations book.
    count : int
        How many were done in it; 0 when it goes on another time.
    stretch : Stretch or None
        By the workshop's own clock; None where the time was typed.
    took : Duration or None
        The time as typed; None where the clock was.
    day : datetime.date
        When it was put down; before that, when it was picked up.
    note : str
        What differed.
    finished : bool
        Nothing more of this operation is to be done on this drum.
    answered : bool
        A time out of all proportion was asked about, and stands.
    struck : bool
        It never was: written down by mistake.
    bench : str
        Where it began.
    made_at : datetime.datetime
        When that was written down.

    Raises
    ------
    BadInput
        For a count below nothing, texts that cannot be kept, a time of the clock with a zone.
    """

    entry: int = 0
    job_id: str | None
    drum: str
    operation: str
    count: int = 0
    stretch: Stretch | None = None
    took: Duration | None = None
    day: dt.date
    note: str = ""
    finished: bool = False
    answered: bool = False
    struck: bool = False
    bench: str
    made_at: dt.datetime

    def __post_init__(self) -> None:
        plain_text(self.operation, where="operation")
        plain_text(self.drum, where="drum", may_be_empty=True)
        need_note(self.note, where="note")
        if not 0 <= self.count <= MOST_COUNT:
            raise BadInput(
                "cannot be how many were done",
                where=self.operation,
                given=self.count,
                wanted=f"0 to {MOST_COUNT}",
            )
        if (self.stretch is None) == (self.took is None):
            raise BadInput(
                "either by the clock or a time typed after, one of the two", where=self.operation
            )
        if self.took is not None and not (self.took.exact_min > 0 and self.count):
            raise BadInput(
                "a time typed after needs more than no minutes, and how many were done",
                where=self.operation,
                given=f"{self.took}, {self.count} done",
            )
        if self.stretch is not None:
            need_own_clock(self.stretch.picked_up)

    @property
    def is_open(self) -> bool:
        """Whether it is in hand, or was never put down."""
        return not self.struck and self.stretch is not None and self.stretch.put_down is None


def need_own_clock(at: dt.datetime) -> None:
    """Refuse a time with a zone: what was in hand since nine goes on by the same clock."""
    if at.tzinfo is not None:
        raise BadInput(
            "a time with its zone",
            where="work log",
            given=str(at),
            wanted="the workshop's own clock",
        )


def need_note(text: str, *, where: str) -> None:
    """Refuse what cannot be kept as a few lines of text."""
    if len(text) > LONGEST_NOTE or not text.replace("\n", " ").isprintable():
        raise BadInput(
            "cannot be kept",
            where=where,
            given=text[:LONGEST],
            wanted=f"at most {LONGEST_NOTE} signs that can be printed",
        )


def row_of(
    one: Working, *, kind: str, stamp: Stamp, why: str = "", mark: str = ""
) -> dict[str, Any]:
    """Return the row that says how a working stands now; entry and hash are still to come."""
    need_note(why, where="why")
    stretch = one.stretch
    return {
        "kind": kind,
        "job_id": one.job_id,
        "drum": one.drum,
        "operation": one.operation,
        "count": one.count,
        "picked_up": "" if stretch is None else _write_clock(stretch.picked_up),
        "put_down": "" if stretch is None else _write_clock(stretch.put_down),
        "took": "" if one.took is None else plain_text(str(one.took), where="time"),
        "day": one.day.isoformat(),
        "note": one.note,
        "finished": int(one.finished),
        "answered": int(one.answered),
        "why": why,
        "made_at": stamp.written,
        "bench": stamp.bench,
        "mark": plain_text(mark, where="mark", may_be_empty=True),
    }


def read_working(row: Mapping[Any, Any], *, first: Mapping[Any, Any]) -> Working:
    """Return how a working stands after a row of it.

    Parameters
    ----------
    row : mapping
        By the names of the table's columns.
    first : mapping
        The row that it began with.
    """
    stretch = None
    if row["picked_up"]:
        down = row["put_down"]
        stretch = Stretch(
            picked_up=dt.datetime.fromisoformat(row["picked_up"]),
            put_down=dt.datetime.fromisoformat(down) if down else None,
        )
    return Working(
        entry=row["working"],
        stretch=stretch,
        took=parse_duration(row["took"], where="work log") if row["took"] else None,
        day=dt.date.fromisoformat(row["day"]),
        finished=bool(row["finished"]),
        answered=bool(row["answered"]),
        struck=row["kind"] == "struck",
        bench=first["bench"],
        made_at=read_time(first["made_at"]),
        **{name: row[name] for name in ("job_id", "drum", "operation", "count", "note")},
    )


def _write_clock(at: dt.datetime | None) -> str:
    return "" if at is None else at.isoformat(timespec="seconds")
