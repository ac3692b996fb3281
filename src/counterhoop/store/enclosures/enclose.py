"""Put a kept file into a job folder, and find it there."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import ColumnElement, Connection, insert, select

from counterhoop.errors import BadInput
from counterhoop.store.body import new_id
from counterhoop.store.enclosures.keep import KeptFile
from counterhoop.store.hide import Thing, is_hidden
from counterhoop.store.insert_unless_there import insert_unless_there
from counterhoop.store.plain_text import name_shown, plain_text
from counterhoop.store.stamp import Stamp, read_time
from counterhoop.store.tables import enclosure, job, kept_file


@dataclass(frozen=True, slots=True, kw_only=True)
class Enclosure:
    """A photograph, a sound or a paper in a job folder.

    Attributes
    ----------
    id, job_id : str
        Its name and its folder's, for programs.
    drum : str
        The drum that it belongs to; empty for the whole job.
    file : KeptFile
        What is kept.
    name_given : str
        How it was called where it came from: for showing only.
    """

    id: str
    job_id: str
    drum: str
    file: KeptFile
    name_given: str
    added_at: dt.datetime
    bench: str
    hidden: bool


def enclose(
    connection: Connection,
    *,
    job_id: str,
    drum: str = "",
    file: KeptFile,
    name_given: str,
    stamp: Stamp,
) -> str:
    """Put a file that ``keep_file`` kept into a folder and return the enclosure's name.

    Raises
    ------
    BadInput
        When there is no such job.
    """
    plain_text(drum, where="drum", may_be_empty=True)
    if connection.execute(select(job.c.id).where(job.c.id == job_id)).first() is None:
        raise BadInput("no such job", where="job", given=job_id)
    row = {"sha256": file.sha256, "size": file.size, "media_type": file.media_type}
    insert_unless_there(connection, kept_file, row)
    enclosure_id = new_id()
    connection.execute(
        insert(enclosure).values(
            id=enclosure_id,
            job_id=job_id,
            drum=drum,
            sha256=file.sha256,
            name_given=name_shown(name_given),
            position_removed=int(file.position_removed),
            added_at=stamp.written,
            bench=stamp.bench,
        )
    )
    return enclosure_id


def enclosures_of(
    connection: Connection, *, job_id: str, with_hidden: bool = False
) -> tuple[Enclosure, ...]:
    """Return what lies in a folder, in the order in which it was put there."""
    found = _found(connection, enclosure.c.job_id == job_id)
    return tuple(one for one in found if with_hidden or not one.hidden)


def hidden_enclosures(connection: Connection) -> tuple[Enclosure, ...]:
    """Return what is out of sight, of all folders, in the order in which it was put there."""
    return _found(connection, is_hidden(Thing.ENCLOSURE, enclosure.c.id))


def _found(connection: Connection, which: ColumnElement[bool]) -> tuple[Enclosure, ...]:
    hidden = is_hidden(Thing.ENCLOSURE, enclosure.c.id).label("hidden")
    rows = connection.execute(
        select(enclosure, kept_file.c.size, kept_file.c.media_type, hidden)
        .join(kept_file)
        .where(which)
        .order_by(enclosure.c.added_at, enclosure.c.id)
    )
    return tuple(
        Enclosure(
            id=row.id,
            job_id=row.job_id,
            drum=row.drum,
            file=KeptFile(
                sha256=row.sha256,
                size=row.size,
                media_type=row.media_type,
                position_removed=bool(row.position_removed),
            ),
            name_given=row.name_given,
            added_at=read_time(row.added_at),
            bench=row.bench,
            hidden=bool(row.hidden),
        )
        for row in rows
    )
