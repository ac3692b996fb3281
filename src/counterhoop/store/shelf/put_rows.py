"""Put the rows of a sheet on the shelf: new pieces, changed ones, counts; all of them or none."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import islice
from typing import Any, TypeVar

from sqlalchemy import Connection, Row, select

from counterhoop.errors import BadInput, CannotDo
from counterhoop.parts.movement import Movement
from counterhoop.parts.piece import Piece
from counterhoop.store.shelf.body_of_piece import Written
from counterhoop.store.shelf.mark import take_the_shelf
from counterhoop.store.shelf.move import move_together
from counterhoop.store.shelf.put import AT_ONCE, put_new_pieces, write_over
from counterhoop.store.stamp import Stamp
from counterhoop.store.tables import piece

_ASKED_AT_ONCE = 500
_Any = TypeVar("_Any")


def put_rows(
    connection: Connection, new: Iterable[Piece | Written], changed: Iterable[tuple[Piece, int]],
    counted: Iterable[Movement], *, stamp: Stamp,
    progress: Callable[[int], None] = lambda _done: None,
) -> int:  # fmt: skip
    """Put new pieces in, write others over, write movements down; return how many rows they were.

    In this order, a few thousand at a time, so that a sheet of any length takes little memory.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.writing``: killed or stopped half-way, nothing of it is kept.
    new : iterable of Piece or Written
        As for ``put_new_pieces``.
    changed : iterable of Piece and int
        What is to stand there, and the ``head`` that it is based on; each piece once.
    counted : iterable of Movement
        As for ``move``.
    stamp : Stamp
        When and where.
    progress : callable
        Called with how many rows are done; when it raises, nothing is kept.

    Raises
    ------
    BadInput
        As ``put_new_pieces``, ``put_piece`` and ``move`` do.
    CannotDo
        When somebody wrote on one of these pieces since.
    """
    take_the_shelf(connection)
    done = put_new_pieces(connection, new, stamp=stamp, progress=progress)
    for some in _parted(changed):
        _change(connection, some, stamp=stamp)
        done += len(some)
        progress(done)
    for moved in _parted(counted):
        move_together(connection, moved, marks=[""] * len(moved))
        done += len(moved)
        progress(done)
    return done


def _parted(coming: Iterable[_Any]) -> Iterator[list[_Any]]:
    left = iter(coming)
    while some := [*islice(left, AT_ONCE)]:
        yield some


def _change(connection: Connection, some: Sequence[tuple[Piece, int]], *, stamp: Stamp) -> None:
    rows = _rows_of(connection, [given.id for given, _ in some])
    changes = {}
    for given, based_on in some:
        row = rows.get(given.id)
        if row is None:
            raise BadInput("no such piece", where="shelf", given=given.id)
        if row.head != based_on or row.entry in changes:
            raise CannotDo(
                f"Piece {row.number or row.id} was written on by {row.bench} meanwhile:"
                " nothing of these rows was kept. Try them again."
            )
        changes[row.entry] = (row, given)
    write_over(connection, [*changes.values()], stamp=stamp)


def _rows_of(connection: Connection, piece_ids: Sequence[str]) -> dict[str, Row[Any]]:
    found: dict[str, Row[Any]] = {}
    for first in range(0, len(piece_ids), _ASKED_AT_ONCE):
        its = piece.c.id.in_(piece_ids[first : first + _ASKED_AT_ONCE])
        found.update((row.id, row) for row in connection.execute(select(piece).where(its)))
    return found
