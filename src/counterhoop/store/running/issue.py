"""Give a paper out: its number is drawn and what carries it is written in one go."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from sqlalchemy import Connection, func, insert, select

from counterhoop.errors import BadInput
from counterhoop.quantities.day import say_day
from counterhoop.store.body import Json, write_body
from counterhoop.store.known_job import need_job
from counterhoop.store.plain_text import plain_text
from counterhoop.store.row_hash import hash_of_row
from counterhoop.store.running.issued import Issued, read_issued
from counterhoop.store.running.style import NumberStyle
from counterhoop.store.stamp import Stamp
from counterhoop.store.tables import issued
from counterhoop.store.turn import end_turn, take_turn


def issue(
    connection: Connection,
    *,
    series: str,
    style: NumberStyle,
    kind: str,
    job_id: str | None,
    day: dt.date,
    body: Callable[[str], Json],
    stamp: Stamp,
    why_earlier: str = "",
    mark: str = "",
) -> Issued:
    """Give a paper out under the next number of its series.

    Two benches that do so at once do it one after the other, on either database, and a paper that
    fails on its way takes no number with it: no number is given twice, and none is left out.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.writing``; the paper is out once that block has been left.
    series : str
        What is numbered in one row: "invoice", or one series for several kinds of paper.
    style : NumberStyle
        How its numbers are written.
    kind : str
        What the paper is.
    job_id : str or None
        Of which job; None for what belongs to none.
    day : datetime.date
        The day that stands on the paper.
    body : callable
        Given the number as it is printed, returns what the paper says.
    stamp : Stamp
        When and where it is really given out.
    why_earlier : str
        Why its day is before one that the series has reached already.
    mark : str
        Chosen anew for each form that is shown: the same form sent twice is one paper.

    Raises
    ------
    BadInput
        When the day goes back and nobody says why, and for a job that is not there.

    Notes
    -----
    What a running number of an invoice must be is for the law of the place: check what applies.
    """
    for text, where in ((series, "series"), (kind, "kind")):
        plain_text(text, where=where)
    for text, where in ((why_earlier, "why it is dated earlier"), (mark, "mark")):
        plain_text(text, where=where, may_be_empty=True)
    need_job(connection, job_id)
    last = take_turn(connection, "issued")
    if mark and (
        again := connection.execute(select(issued).where(issued.c.mark == mark)).mappings().first()
    ):
        return read_issued(again)
    if not why_earlier.strip():
        _need_later(connection, series=series, day=day)
    year = style.year_of(day)
    own = select(func.max(issued.c.number)).where(issued.c.series == series, issued.c.year == year)
    number = (connection.execute(own).scalar_one() or 0) + 1
    called = style.write(number, day=day)
    row = {
        "series": series,
        "year": year,
        "number": number,
        "called": called,
        "entry": last + 1,
        "kind": kind,
        "job_id": job_id,
        "day": day.isoformat(),
        "why_earlier": why_earlier,
        "body": write_body(body(called)),
        "made_at": stamp.written,
        "bench": stamp.bench,
        "mark": mark,
    }
    row["sha256"] = hash_of_row(row)
    connection.execute(insert(issued).values(row))
    end_turn(connection, "issued", last=last + 1)
    return read_issued(row)


def _need_later(connection: Connection, *, series: str, day: dt.date) -> None:
    furthest = (
        select(issued.c.called, issued.c.day)
        .where(issued.c.series == series)
        .order_by(issued.c.day.desc(), issued.c.entry.desc())
        .limit(1)
    )
    there = connection.execute(furthest).first()
    if there is not None and day.isoformat() < there.day:
        reached = dt.date.fromisoformat(there.day)
        raise BadInput(
            f"dated before {series} {there.called}, which has been given out",
            where=series,
            given=say_day(day),
            wanted=f"{say_day(reached)} or later",
            step="Say why, if it must be dated earlier.",
        )
