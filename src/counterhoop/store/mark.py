"""Marks that tell whether anything was saved since: cheap to ask for, and never the same again.

What is saved is a new revision, what is hidden or brought back a new entry, what is given out or
worked on a new row: the counts only grow, whichever program writes, so that equal marks of one
store mean that its documents, issued papers and work log say the same.
Photographs that are put in, and which revision is as found, they do not tell; nor what is written
and moved on the shelf, which has a mark of its own, so that a screw that is used up makes no job's
page anew.
"""

from __future__ import annotations

from typing import TypeAlias

from sqlalchemy import Connection, func, select

from counterhoop.store.hide import Thing
from counterhoop.store.tables import document, hiding, revision, turn

Mark: TypeAlias = tuple[int, ...]


def store_mark(connection: Connection) -> Mark:
    """Return the mark of all that is written in a store, and of what is hidden.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.reading`` or ``Store.writing``: the mark is of the state that it sees.
    """
    revisions = select(func.count()).select_from(revision).scalar_subquery()
    away, back = (
        select(func.count(column)).scalar_subquery() for column in (hiding.c.turn, hiding.c.back_at)
    )
    rows = select(func.coalesce(func.sum(turn.c.number), 0)).scalar_subquery()
    return tuple(map(int, connection.execute(select(revisions, away, back, rows)).one()))


def job_marks(connection: Connection) -> dict[str, Mark]:
    """Return the mark of each folder: of what its documents say, and which of them are hidden."""
    job_id = document.c.job_id
    written = select(job_id, func.sum(document.c.head)).where(job_id.is_not(None)).group_by(job_id)
    hidings = (
        select(job_id, func.count(hiding.c.turn), func.count(hiding.c.back_at))
        .join(hiding, hiding.c.thing_id == document.c.id)
        .where(hiding.c.thing == Thing.DOCUMENT.value, job_id.is_not(None))
        .group_by(job_id)
    )
    moved = {one: (away, back) for one, away, back in connection.execute(hidings).all()}
    return {
        one: (int(heads), *moved.get(one, (0, 0)))
        for one, heads in connection.execute(written).all()
    }
