"""Move pieces: looked over and written down in one go, so that the last one goes only once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Row, RowMapping, insert, select, text, update

from counterhoop.errors import BadInput
from counterhoop.parts.movement import Movement
from counterhoop.parts.stock import Stock, after, stock
from counterhoop.store.shelf.look_up import Kept, pieces_at
from counterhoop.store.shelf.movement_row import movement_row, read_movement
from counterhoop.store.tables import movement, piece, piece_stock


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAside:
    """Pieces that are promised to a job."""

    kept: Kept
    count: int


def move(connection: Connection, given: Movement, *, mark: str = "") -> Stock:
    """Write a movement down, if there is the stock for it, and return what there is now.

    Two benches that do so at once do it one after the other, on either database: the second sees
    what the first has left.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.writing``; the movement is kept once that block has been left.
    given : Movement
        With its piece, time and bench.
    mark : str
        Chosen anew for each form that is shown: the same form sent twice moves once.

    Raises
    ------
    BadInput
        When there is no such piece, when fewer are free, or its owner bars it.
    """
    held = _hold(connection, given.piece_id)
    so_far = _rows(connection, held.entry)
    moved = [read_movement(row, piece_id=given.piece_id) for row in so_far]
    now = stock(moved, owner=held.owner)
    if mark and any(row["mark"] == mark for row in so_far):
        return now
    then = after(now, given, owner=held.owner)
    number = held.movements + 1
    connection.execute(
        insert(movement).values(movement_row(given, entry=held.entry, number=number, mark=mark))
    )
    connection.execute(
        update(piece_stock)
        .where(piece_stock.c.entry == held.entry)
        .values(movements=number, on_shelf=then.on_shelf, free=then.free)
    )
    return then


def movements_of(connection: Connection, piece_id: str) -> tuple[Movement, ...]:
    """Return every movement of a piece, oldest first.

    Raises
    ------
    BadInput
        When there is no such piece.
    """
    rows = _rows(connection, _entry(connection, piece_id))
    return tuple(read_movement(row, piece_id=piece_id) for row in rows)


def set_aside_for(connection: Connection, job: str) -> tuple[SetAside, ...]:
    """Return what is promised to a job now, in the order in which it came to the shelf."""
    # Said in the same words as in the index, which is looked through only then.
    for_a_job = text("movement.job <> ''")
    asked = select(movement.c.entry).where(movement.c.job == job, for_a_job).distinct()
    kept = pieces_at(connection, [*connection.execute(asked).scalars()])
    found = []
    for _, one in sorted(kept.items()):
        moved = movements_of(connection, one.piece.id)
        count = stock(moved, owner=one.piece.owner).set_aside.get(job, 0)
        if count:
            found.append(SetAside(kept=one, count=count))
    return tuple(found)


def _hold(connection: Connection, piece_id: str) -> Row[Any]:
    """Keep everybody else from moving this piece until the block ends; return its stock row."""
    entry = _entry(connection, piece_id)
    held = select(piece_stock).where(piece_stock.c.entry == entry).with_for_update()
    return connection.execute(held).one()


def _entry(connection: Connection, piece_id: str) -> int:
    asked = select(piece.c.entry).where(piece.c.id == piece_id)
    entry: int | None = connection.execute(asked).scalar_one_or_none()
    if entry is None:
        raise BadInput("no such piece", where="shelf", given=piece_id)
    return entry


def _rows(connection: Connection, entry: int) -> Sequence[RowMapping]:
    its = select(movement).where(movement.c.entry == entry).order_by(movement.c.number)
    return connection.execute(its).mappings().all()
