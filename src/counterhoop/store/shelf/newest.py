"""The newest pieces of the shelf, read anew only where something was written or moved."""

from __future__ import annotations

from collections.abc import Iterable

from sqlalchemy import Connection, func, select

from counterhoop.store.shelf.look_up import Kept, pieces_at
from counterhoop.store.tables import piece, piece_stock


def newest_pieces(
    connection: Connection, *, most: int, before: Iterable[Kept] = ()
) -> tuple[Kept, ...]:
    """Return the pieces in sight that came last, in the order in which they came.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.reading``.
    most : int
        Of a longer shelf the oldest are left out.
    before : iterable of Kept
        What was read earlier: what has not changed since is taken from there.
    """
    held = {one.piece.id: one for one in before}
    rows = connection.execute(
        select(piece.c.entry, piece.c.id, piece.c.head, piece_stock.c.on_shelf, piece_stock.c.free)
        .join(piece_stock, piece_stock.c.entry == piece.c.entry)
        .where(piece_stock.c.hidden == 0)
        .order_by(piece.c.entry.desc())
        .limit(most)
    ).all()
    same = {
        row.entry: one
        for row in rows
        if (one := held.get(row.id)) is not None
        and (one.head, one.on_shelf, one.free) == (row.head, row.on_shelf, row.free)
    }
    anew = pieces_at(connection, [row.entry for row in rows if row.entry not in same])
    return tuple(same.get(row.entry) or anew[row.entry] for row in reversed(rows))


def how_many_pieces(connection: Connection) -> int:
    """Return how many pieces in sight the shelf has, also those of which none is left."""
    in_sight = select(func.count()).where(piece_stock.c.hidden == 0)
    return connection.execute(in_sight).scalar_one()
