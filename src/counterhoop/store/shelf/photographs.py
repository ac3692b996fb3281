"""Photographs of a piece: put beside it, and found there."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, insert, select

from counterhoop.errors import BadInput
from counterhoop.store.body import new_id
from counterhoop.store.enclosures.keep import KeptFile
from counterhoop.store.hide import Thing, is_hidden
from counterhoop.store.insert_unless_there import insert_unless_there
from counterhoop.store.plain_text import name_shown
from counterhoop.store.stamp import Stamp, read_time
from counterhoop.store.tables import kept_file, piece, piece_photograph


@dataclass(frozen=True, slots=True, kw_only=True)
class Photograph:
    """A photograph of a piece.

    Attributes
    ----------
    id, piece_id : str
        Its name and the piece's, for programs.
    file : KeptFile
        What is kept.
    name_given : str
        How it was called where it came from: for showing only.
    """

    id: str
    piece_id: str
    file: KeptFile
    name_given: str
    added_at: dt.datetime
    bench: str
    hidden: bool


def enclose_for_piece(
    connection: Connection, *, piece_id: str, file: KeptFile, name_given: str, stamp: Stamp
) -> str:
    """Put a photograph that ``keep_file`` kept beside a piece and return the photograph's name.

    Hidden and brought back it is as a job's, by ``Thing.PHOTOGRAPH``.

    Raises
    ------
    BadInput
        When there is no such piece, or the file is no photograph.
    """
    if not file.media_type.startswith("image/"):
        raise BadInput(
            "no photograph", where="file", given=file.media_type, wanted="a picture of the piece"
        )
    entry = connection.execute(select(piece.c.entry).where(piece.c.id == piece_id)).scalar()
    if entry is None:
        raise BadInput("no such piece", where="shelf", given=piece_id)
    kept = {"sha256": file.sha256, "size": file.size, "media_type": file.media_type}
    insert_unless_there(connection, kept_file, kept)
    photograph_id = new_id()
    connection.execute(
        insert(piece_photograph).values(
            id=photograph_id,
            entry=entry,
            sha256=file.sha256,
            name_given=name_shown(name_given),
            position_removed=int(file.position_removed),
            added_at=stamp.written,
            bench=stamp.bench,
        )
    )
    return photograph_id


def photographs_of_piece(
    connection: Connection, piece_id: str, *, with_hidden: bool = False
) -> tuple[Photograph, ...]:
    """Return the photographs of a piece, in the order in which they were put there."""
    hidden = is_hidden(Thing.PHOTOGRAPH, piece_photograph.c.id).label("hidden")
    rows = connection.execute(
        select(piece_photograph, kept_file.c.size, kept_file.c.media_type, hidden)
        .join(kept_file)
        .join(piece, piece.c.entry == piece_photograph.c.entry)
        .where(piece.c.id == piece_id)
        .order_by(piece_photograph.c.added_at, piece_photograph.c.id)
    )
    return tuple(
        Photograph(
            id=row.id,
            piece_id=piece_id,
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
        if with_hidden or not row.hidden
    )
