"""Pieces as they are read: by key, by the number on the bag, all of them, and what they said."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import ColumnElement, Connection, Select, select, text

from counterhoop.errors import BadInput
from counterhoop.parts.piece import Piece
from counterhoop.store.shelf.body_of_piece import read_piece
from counterhoop.store.stamp import read_time
from counterhoop.store.tables import piece, piece_before, piece_stock

_AT_ONCE = 500
HAS_NUMBER = text("piece.number <> ''")
"""Said in the same words as in the index, which is looked through only then."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A piece as it stands on the shelf now.

    Attributes
    ----------
    piece : Piece
        What is written on it; its ``count`` is how many came at first.
    head : int
        How often it was written: what the next change is based on.
    changed_at, bench :
        When and where it was last written.
    on_shelf, free : int
        How many lie there, and how many of these nobody has been promised.
    hidden : bool
        Whether it was put out of sight.
    """

    piece: Piece
    head: int
    changed_at: dt.datetime
    bench: str
    on_shelf: int
    free: int
    hidden: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What was written on a piece at one time."""

    piece: Piece
    number: int
    made_at: dt.datetime
    bench: str


def piece_by_number(connection: Connection, number: str) -> Kept | None:
    """Return the piece with a number on its bag, or None."""
    return _one(connection, (piece.c.number == number) & HAS_NUMBER) if number else None


def piece_by_id(connection: Connection, piece_id: str) -> Kept:
    """Return a piece by its key.

    Raises
    ------
    BadInput
        When there is none.
    """
    found = _one(connection, piece.c.id == piece_id)
    if found is None:
        raise BadInput("no such piece", where="shelf", given=piece_id)
    return found


def pieces_at(connection: Connection, entries: Sequence[int]) -> dict[int, Kept]:
    """Return the pieces of these entries; for this room only."""
    found = {}
    for first in range(0, len(entries), _AT_ONCE):
        asked = entries[first : first + _AT_ONCE]
        for row in connection.execute(kept_rows().where(piece.c.entry.in_(asked))).all():
            found[row.entry] = kept_in_row(row)
    return found


def all_pieces(connection: Connection, *, with_hidden: bool = False) -> Iterator[Kept]:
    """Yield every piece in the order in which they came, also those of which none is left.

    Those out of sight are left out unless they are asked for.

    A few are held at a time, so that a shelf of a million takes no more memory than a small one.
    """
    ordered = kept_rows().order_by(piece.c.entry)
    if not with_hidden:
        ordered = ordered.where(piece_stock.c.hidden == 0)
    for row in connection.execute(ordered, execution_options={"yield_per": _AT_ONCE}):
        yield kept_in_row(row)


def history_of_piece(connection: Connection, piece_id: str) -> tuple[Said, ...]:
    """Return everything that was ever written on a piece, oldest first.

    Raises
    ------
    BadInput
        When there is no such piece.
    """
    now = piece_by_id(connection, piece_id)
    rows = connection.execute(
        select(piece_before)
        .join(piece, piece.c.entry == piece_before.c.entry)
        .where(piece.c.id == piece_id)
        .order_by(piece_before.c.number)
    )
    before = [
        Said(
            piece=read_piece(row.body, piece_id=piece_id),
            number=row.number,
            made_at=read_time(row.made_at),
            bench=row.bench,
        )
        for row in rows
    ]
    newest = Said(piece=now.piece, number=now.head, made_at=now.changed_at, bench=now.bench)
    return (*before, newest)


def kept_rows() -> Select[int, str, str, int, str, str, int, int, int]:
    """Return the question for whole pieces."""
    return select(
        piece.c.entry,
        piece.c.id,
        piece.c.body,
        piece.c.head,
        piece.c.changed_at,
        piece.c.bench,
        piece_stock.c.on_shelf,
        piece_stock.c.free,
        piece_stock.c.hidden,
    ).join(piece_stock, piece_stock.c.entry == piece.c.entry)


def kept_in_row(row: Sequence[Any]) -> Kept:
    """Return the piece of a row of ``kept_rows``."""
    _, piece_id, body, head, changed_at, bench, on_shelf, free, hidden = row
    return Kept(
        piece=read_piece(body, piece_id=piece_id),
        head=head,
        changed_at=read_time(changed_at),
        bench=bench,
        on_shelf=on_shelf,
        free=free,
        hidden=bool(hidden),
    )


def _one(connection: Connection, which: ColumnElement[bool]) -> Kept | None:
    row = connection.execute(kept_rows().where(which)).first()
    return None if row is None else kept_in_row(row)
