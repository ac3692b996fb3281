"""Move pieces: looked over and written down in one go, so that the last one goes only once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from sqlalchemy import ColumnElement, Connection, RowMapping, insert, select, text, update

from counterhoop.errors import BadInput
from counterhoop.parts.movement import Movement
from counterhoop.parts.stock import Stock, after, stock
from counterhoop.store.shelf.look_up import Kept, pieces_at
from counterhoop.store.shelf.mark import take_the_shelf
from counterhoop.store.shelf.movement_row import movement_row, read_movement
from counterhoop.store.tables import movement, piece, piece_stock


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAside:
    """Pieces that are promised to a job, or to one of its drums.

    Attributes
    ----------
    kept : Kept
        The piece.
    count : int
        How many of it.
    job : str
        For which job and drum, as the movement names them.
    """

    kept: Kept
    count: int
    job: str


def move(connection: Connection, given: Movement, *, mark: str = "") -> Stock:
    """Write a movement down, if there is the stock for it, and return what there is now.

    Two benches that do so at once do it one after the other, on either database: the second sees
    what the first has left. A piece that is out of sight does not move.

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
        When there is no such piece, when it is put away, when fewer are free, or its owner bars it.
    """
    take_the_shelf(connection)
    its = piece_stock.c.entry == _entry(connection, given.piece_id)
    held = connection.execute(select(piece_stock).where(its)).one()
    so_far = _rows(connection, held.entry)
    moved = [read_movement(row, piece_id=given.piece_id) for row in so_far]
    now = stock(moved, owner=held.owner)
    if mark and any(row["mark"] == mark for row in so_far):
        return now
    if held.hidden:
        raise BadInput("this piece is put away", where=given.kind, step="Bring it back first")
    then = after(now, given, owner=held.owner)
    number = held.movements + 1
    connection.execute(
        insert(movement).values(movement_row(given, entry=held.entry, number=number, mark=mark))
    )
    there = {"movements": number, "on_shelf": then.on_shelf, "free": then.free}
    connection.execute(update(piece_stock).where(its).values(**there))
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
    """Return what is promised to a job or a drum by its whole key, first what came first."""
    return _promised(connection, [movement.c.job == job], wanted=lambda key: key == job)


def set_aside_in(connection: Connection, job_id: str) -> tuple[SetAside, ...]:
    """Return what is promised to a job as a whole and to each of its drums.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.reading``.
    job_id : str
        Keys of its drums begin with it and a stroke.

    Returns
    -------
    tuple of SetAside
        First what came to the shelf first; a piece that several drums have a share of stands there
        once for each.
    """
    drums = f"{job_id}/"
    if connection.dialect.name == "postgresql":
        its = movement.c.job.startswith(drums, autoescape=True)
    else:
        # In the order of the index there: what begins so lies between these two.
        its = (movement.c.job >= drums) & (movement.c.job < f"{job_id}0")
    return _promised(
        connection,
        [movement.c.job == job_id, its],
        wanted=lambda key: key == job_id or key.startswith(drums),
    )


def _promised(
    connection: Connection, moved: Sequence[ColumnElement[bool]], *, wanted: Callable[[str], bool]
) -> tuple[SetAside, ...]:
    # Said in the same words as in the index, which is looked through only then.
    for_a_job = text("movement.job <> ''")
    entries: set[int] = set()
    for its in moved:
        asked = select(movement.c.entry).where(its, for_a_job).distinct()
        entries.update(connection.execute(asked).scalars())
    kept = pieces_at(connection, sorted(entries))
    found = []
    for _, one in sorted(kept.items()):
        promised = stock(movements_of(connection, one.piece.id), owner=one.piece.owner).set_aside
        found += [
            SetAside(kept=one, count=count, job=key)
            for key, count in sorted(promised.items())
            if wanted(key)
        ]
    return tuple(found)


def _entry(connection: Connection, piece_id: str) -> int:
    asked = select(piece.c.entry).where(piece.c.id == piece_id)
    entry: int | None = connection.execute(asked).scalar_one_or_none()
    if entry is None:
        raise BadInput("no such piece", where="shelf", given=piece_id)
    return entry


def _rows(connection: Connection, entry: int) -> Sequence[RowMapping]:
    its = select(movement).where(movement.c.entry == entry).order_by(movement.c.number)
    return connection.execute(its).mappings().all()
