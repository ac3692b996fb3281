"""Pieces put out of sight and brought back; none is deleted, and its number stays taken."""

from __future__ import annotations

from sqlalchemy import Connection, Row, select, update

from counterhoop.errors import BadInput
from counterhoop.store.hide import Thing, bring_back, hide
from counterhoop.store.shelf.mark import take_the_shelf
from counterhoop.store.stamp import Stamp
from counterhoop.store.tables import piece, piece_stock


def hide_piece(connection: Connection, piece_id: str, *, stamp: Stamp) -> None:
    """Put a piece out of sight: it is found no more, and moves no more until it is brought back.

    Raises
    ------
    BadInput
        When there is no such piece, or some of it is promised to a job.
    """
    take_the_shelf(connection)
    its = _stock_row(connection, piece_id)
    if its.free < its.on_shelf:
        raise BadInput(
            "some of it is promised to a job", where="put away", given=its.on_shelf - its.free,
            wanted="none", step="Put back what is set aside first",
        )  # fmt: skip
    hide(connection, thing=Thing.PIECE, thing_id=piece_id, stamp=stamp)
    _set(connection, entry=its.entry, hidden=1)


def bring_back_piece(connection: Connection, piece_id: str, *, stamp: Stamp) -> None:
    """Bring a piece back as it was; one that is in sight stays there.

    Raises
    ------
    BadInput
        When there is no such piece.
    """
    take_the_shelf(connection)
    its = _stock_row(connection, piece_id)
    bring_back(connection, thing=Thing.PIECE, thing_id=piece_id, stamp=stamp)
    _set(connection, entry=its.entry, hidden=0)


def _stock_row(connection: Connection, piece_id: str) -> Row[int, int, int]:
    row = connection.execute(
        select(piece_stock.c.entry, piece_stock.c.on_shelf, piece_stock.c.free)
        .join(piece, piece.c.entry == piece_stock.c.entry)
        .where(piece.c.id == piece_id)
    ).first()
    if row is None:
        raise BadInput("no such piece", where="shelf", given=piece_id)
    return row


def _set(connection: Connection, *, entry: int, hidden: int) -> None:
    its = piece_stock.c.entry == entry
    connection.execute(update(piece_stock).where(its).values(hidden=hidden))
