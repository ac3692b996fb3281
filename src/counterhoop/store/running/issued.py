"""Papers that were given out, as they were given out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import ColumnElement, Connection, select

from counterhoop.errors import BadInput
from counterhoop.store.body import Json, read_body
from counterhoop.store.stamp import read_time
from counterhoop.store.tables import issued


@dataclass(frozen=True, slots=True, kw_only=True)
class Issued:
    """A paper that was given out.

    Attributes
    ----------
    entry : int
        Which of all issued papers it is, from 1.
    series, number : str
        The number as it is printed, and what it counts.
    kind : str
        What the paper is.
    job_id : str or None
        Of which job.
    day : datetime.date
        As it stands on the paper.
    why_earlier : str
        Why its day is before one that the series had reached.
    body : Json
        What the paper says.
    made_at, bench :
        When and where it was really given out.
    """

    entry: int
    series: str
    number: str
    kind: str
    job_id: str | None
    day: dt.date
    why_earlier: str
    body: Json
    made_at: dt.datetime
    bench: str


def issued_paper(connection: Connection, *, series: str, number: str) -> Issued:
    """Return one paper by its number as it is printed.

    Raises
    ------
    BadInput
        When none of that number was given out.
    """
    for one in _issued(connection, (issued.c.series == series) & (issued.c.called == number)):
        return one
    raise BadInput("none of this number was given out", where=series, given=number)


def issued_in_job(connection: Connection, job_id: str) -> tuple[Issued, ...]:
    """Return the papers of a job, in the order in which they were given out."""
    return _issued(connection, issued.c.job_id == job_id)


def issued_in_series(connection: Connection, series: str) -> tuple[Issued, ...]:
    """Return the papers of a series, in the order in which they were given out."""
    return _issued(connection, issued.c.series == series)


def read_issued(row: Mapping[Any, Any]) -> Issued:
    """Return the paper of a row of the table, by the names of its columns."""
    return Issued(
        number=row["called"],
        day=dt.date.fromisoformat(row["day"]),
        body=read_body(row["body"]),
        made_at=read_time(row["made_at"]),
        **{
            name: row[name]
            for name in ("entry", "series", "kind", "job_id", "why_earlier", "bench")
        },
    )


def _issued(connection: Connection, its: ColumnElement[bool]) -> tuple[Issued, ...]:
    rows = connection.execute(select(issued).where(its).order_by(issued.c.entry))
    return tuple(map(read_issued, rows.mappings()))
