"""One writes in a running book after the other, and no row is given twice or left out."""

from __future__ import annotations

from typing import Literal, TypeAlias

from sqlalchemy import Connection, text, update

from counterhoop.store.tables import turn

Book: TypeAlias = Literal["issued", "work log"]

_TAKE = text(
    "INSERT INTO turn (name, number) VALUES (:name, 0)"
    " ON CONFLICT (name) DO UPDATE SET number = turn.number RETURNING number"
)


def take_turn(connection: Connection, book: Book) -> int:
    """Wait until nobody else writes in this book, hold the others off, return its last row.

    Whoever writes in both books takes the issued papers first: two could else wait for each other.
    """
    return int(connection.execute(_TAKE, {"name": book}).scalar_one())


def end_turn(connection: Connection, book: Book, *, last: int) -> None:
    """Write down which row is the last now; a last row that is lost is missed by this alone."""
    connection.execute(update(turn).where(turn.c.name == book).values(number=last))
