"""Read the log: by job, by operation, what is in hand; each working as it stands now."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import ColumnElement, Connection, select

from counterhoop.errors import BadInput
from counterhoop.store.stamp import read_time
from counterhoop.store.tables import in_hand, work_log
from counterhoop.store.work_log.working import Working, read_working


@dataclass(frozen=True, slots=True, kw_only=True)
class Version:
    """How a working stood from one row of the log on.

    Attributes
    ----------
    entry : int
        Number of the row.
    kind : str
        "picked up", "put down", "typed", "corrected" or "struck".
    working : Working
    why : str
        What was wrong before it, where it corrects.
    bench : str
        Where it was written.
    when : datetime.datetime
        When.
    """

    entry: int
    kind: str
    working: Working
    why: str
    bench: str
    when: dt.datetime


def workings_of_job(connection: Connection, job_id: str) -> tuple[Working, ...]:
    """Return what was worked on a job, first what was begun first; what was struck is left out."""
    found = _where(connection, work_log.c.job_id == job_id)
    return tuple(one for one in found if one.job_id == job_id and not one.struck)


def workings_of_operation(connection: Connection, operation: str) -> tuple[Working, ...]:
    """Return every working of one operation, first what was begun first, without the struck."""
    found = _where(connection, work_log.c.operation == operation)
    return tuple(one for one in found if one.operation == operation and not one.struck)


def all_workings(connection: Connection) -> tuple[Working, ...]:
    """Return the whole log, first what was begun first; what was struck is left out."""
    rows = connection.execute(select(work_log).order_by(work_log.c.entry)).mappings()
    return tuple(one for one in stands_now(rows) if not one.struck)


def in_hand_now(connection: Connection) -> tuple[Working, ...]:
    """Return what is picked up and not put down, at every bench."""
    held = select(in_hand.c.working).where(in_hand.c.working.is_not(None))
    return _where(connection, work_log.c.working.in_(held))


def working_at(connection: Connection, bench: str) -> Working | None:
    """Return what is in hand at a bench; None for nothing."""
    held = select(in_hand.c.working).where(in_hand.c.bench == bench)
    for one in _where(connection, work_log.c.working.in_(held)):
        return one
    return None


def working_of(connection: Connection, entry: int) -> Working:
    """Return one working by the row that it began with, struck or not.

    Raises
    ------
    BadInput
        When there is none.
    """
    for one in _where(connection, work_log.c.working == entry):
        return one
    raise BadInput("no such row", where="work log", given=entry)


def versions_of(connection: Connection, entry: int) -> tuple[Version, ...]:
    """Return how one working stood, row by row, the newest last.

    Raises
    ------
    BadInput
        When there is none.
    """
    asked = select(work_log).where(work_log.c.working == entry).order_by(work_log.c.entry)
    rows = connection.execute(asked).mappings().all()
    if not rows:
        raise BadInput("no such row", where="work log", given=entry)
    return tuple(
        Version(
            entry=row["entry"],
            kind=row["kind"],
            working=read_working(row, first=rows[0]),
            why=row["why"],
            bench=row["bench"],
            when=read_time(row["made_at"]),
        )
        for row in rows
    )


def stands_now(rows: Iterable[Mapping[Any, Any]]) -> tuple[Working, ...]:
    """Return each working as its last row says, from rows in the order of their entries."""
    firsts: dict[int, Mapping[Any, Any]] = {}
    lasts: dict[int, Mapping[Any, Any]] = {}
    for row in rows:
        firsts.setdefault(row["working"], row)
        lasts[row["working"]] = row
    return tuple(read_working(lasts[one], first=first) for one, first in firsts.items())


def _where(connection: Connection, its: ColumnElement[bool]) -> tuple[Working, ...]:
    named = select(work_log.c.working).where(its)
    wanted = select(work_log).where(work_log.c.working.in_(named)).order_by(work_log.c.entry)
    return stands_now(connection.execute(wanted).mappings())
