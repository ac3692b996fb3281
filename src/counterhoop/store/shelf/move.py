"""Move pieces: looked over and written down in one go, so that the last one goes only once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import (
    ColumnElement,
    Connection,
    Row,
    RowMapping,
    Table,
    bindparam,
    select,
    text,
    update,
)

from counterhoop.errors import BadInput
from counterhoop.parts.movement import Movement
from counterhoop.parts.stock import Stock, after, stock
from counterhoop.store.insert_many import insert_many
from counterhoop.store.shelf.look_up import Kept, pieces_at
from counterhoop.store.shelf.mark import take_the_shelf
from counterhoop.store.shelf.movement_row import movement_row, read_movement
from counterhoop.store.tables import movement, piece, piece_stock

_AT_ONCE = 500


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
    (there,) = move_together(connection, [given], marks=[mark])
    return there


def move_together(
    connection: Connection, given: Sequence[Movement], *, marks: Sequence[str]
) -> list[Stock]:
    """Write movements down one after the other, all or none, and return the stock after each.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.writing``.
    given, marks : sequence
        As for ``move``, one mark for each; a few thousand at a time.

    Raises
    ------
    BadInput
        As ``move``.
    """
    take_the_shelf(connection)
    entries = _entries(connection, [one.piece_id for one in given])
    held = {row.entry: row for row in _rows_at(connection, piece_stock, [*entries.values()])}
    so_far: dict[int, list[RowMapping]] = {entry: [] for entry in held}
    for row in _rows_at(connection, movement, [*held]):
        so_far[row.entry].append(row._mapping)
    seen = {entry: {row["mark"] for row in rows} for entry, rows in so_far.items()}
    names = {entry: piece_id for piece_id, entry in entries.items()}
    now = {
        entry: stock(
            [read_movement(row, piece_id=names[entry]) for row in rows], owner=held[entry].owner
        )
        for entry, rows in so_far.items()
    }
    numbers = {entry: row.movements for entry, row in held.items()}
    written, told = [], []
    for one, mark in zip(given, marks, strict=True):
        entry = entries[one.piece_id]
        if not mark or mark not in seen[entry]:
            if held[entry].hidden:
                raise BadInput("this piece is put away", where=one.kind, step="Bring it back first")
            now[entry] = after(now[entry], one, owner=held[entry].owner)
            numbers[entry] += 1
            seen[entry].add(mark)
            written.append(movement_row(one, entry=entry, number=numbers[entry], mark=mark))
        told.append(now[entry])
    if written:
        insert_many(connection, movement, written)
        connection.execute(
            update(piece_stock).where(piece_stock.c.entry == bindparam("at")),
            [
                {
                    "at": entry,
                    "movements": numbers[entry],
                    "on_shelf": now[entry].on_shelf,
                    "free": now[entry].free,
                }
                for entry in {row["entry"]: None for row in written}
            ],
        )
    return told


def movements_of(connection: Connection, piece_id: str) -> tuple[Movement, ...]:
    """Return every movement of a piece, oldest first.

    Raises
    ------
    BadInput
        When there is no such piece.
    """
    entries = [*_entries(connection, [piece_id]).values()]
    rows = _rows_at(connection, movement, entries)
    return tuple(read_movement(row._mapping, piece_id=piece_id) for row in rows)


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


def _entries(connection: Connection, piece_ids: Sequence[str]) -> dict[str, int]:
    wanted = [*dict.fromkeys(piece_ids)]
    found: dict[str, int] = {}
    for first in range(0, len(wanted), _AT_ONCE):
        its = piece.c.id.in_(wanted[first : first + _AT_ONCE])
        rows = connection.execute(select(piece.c.id, piece.c.entry).where(its))
        found.update((row.id, row.entry) for row in rows)
    for piece_id in wanted:
        if piece_id not in found:
            raise BadInput("no such piece", where="shelf", given=piece_id)
    return found


def _rows_at(connection: Connection, table: Table, entries: Sequence[int]) -> Iterator[Row[Any]]:
    for first in range(0, len(entries), _AT_ONCE):
        its = table.c.entry.in_(entries[first : first + _AT_ONCE])
        yield from connection.execute(select(table).where(its).order_by(*table.primary_key))
