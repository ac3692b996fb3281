"""The numbers on bags: the newest one, the last of its kind, and whether one is taken."""

from __future__ import annotations

from sqlalchemy import Connection, func, select

from counterhoop.store.shelf.look_up import HAS_NUMBER
from counterhoop.store.tables import piece


def newest_number(connection: Connection) -> str:
    """Return the number of the last piece that came and has one; empty on an empty shelf."""
    asked = select(piece.c.number).where(HAS_NUMBER).order_by(piece.c.entry.desc()).limit(1)
    return connection.execute(asked).scalar_one_or_none() or ""


def last_number_like(connection: Connection, front: str, *, digits: int) -> str:
    """Return the digits of the highest number that begins so and goes on with so many digits.

    Empty where there is none; where the database sorts by another rule than by signs, it may be
    one that is not the highest.
    """
    lowest, highest = front + "0" * digits, front + "9" * digits
    asked = (
        select(piece.c.number)
        .where(HAS_NUMBER, piece.c.number.between(lowest, highest))
        .where(func.length(piece.c.number) == len(lowest))
        .order_by(piece.c.number.desc())
        .limit(1)
    )
    found = connection.execute(asked).scalar_one_or_none() or ""
    end = found.removeprefix(front)
    return end if found.startswith(front) and end.isascii() and end.isdecimal() else ""


def is_number_taken(connection: Connection, number: str) -> bool:
    """Tell whether a piece has this number, one out of sight included."""
    asked = select(piece.c.id).where(piece.c.number == number, HAS_NUMBER)
    return connection.execute(asked).first() is not None
