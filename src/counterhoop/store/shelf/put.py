"""Put pieces on the shelf, and change what is written on them: never over what one has not seen."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import islice
from typing import Any

from sqlalchemy import Connection, Row, bindparam, func, select, update

from counterhoop.errors import BadInput
from counterhoop.parts.movement import Movement
from counterhoop.parts.piece import Piece
from counterhoop.parts.stock import Stock
from counterhoop.store.body import new_id
from counterhoop.store.insert_many import insert_many
from counterhoop.store.plain_text import plain_text
from counterhoop.store.shelf.body_of_piece import Written, hash_of_piece, read_piece, write_piece
from counterhoop.store.shelf.look_up import HAS_NUMBER, Kept, piece_by_id
from counterhoop.store.shelf.mark import take_the_shelf
from counterhoop.store.shelf.movement_row import movement_row
from counterhoop.store.shelf.reckoned import reckon, reckon_anew, stock_row
from counterhoop.store.stamp import Stamp
from counterhoop.store.tables import (
    movement,
    piece,
    piece_before,
    piece_stock,
)

AT_ONCE = 2000
ASKED_AT_ONCE = 500


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceConflict:
    """Somebody else wrote on it first: nothing was kept, and the person chooses.

    Attributes
    ----------
    mine : Piece
        What was to be written.
    theirs : Kept
        What is there now; a change that is based on its ``head`` goes through.
    """

    mine: Piece
    theirs: Kept


def put_new_pieces(
    connection: Connection, pieces: Iterable[Piece | Written], *, stamp: Stamp,
    progress: Callable[[int], None] = lambda _done: None,
) -> int:  # fmt: skip
    """Put many new pieces on the shelf, all or none, and return how many they were.

    Each comes in with its ``count``; one without a key is given one.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.writing``.
    pieces : iterable of Piece or Written
        A few thousand are held at a time.
    stamp : Stamp
        When and where.
    progress : callable
        Called with how many are in; when it raises, nothing is kept.

    Raises
    ------
    BadInput
        When a number or a key is taken already, or stands there twice.
    """
    take_the_shelf(connection)
    last = connection.execute(select(func.coalesce(func.max(piece.c.entry), 0))).scalar_one()
    done, coming = 0, iter(pieces)
    while some := [*islice(coming, AT_ONCE)]:
        _put_in(connection, some, first_entry=last + done + 1, stamp=stamp)
        done += len(some)
        progress(done)
    return done


def put_piece(
    connection: Connection, given: Piece, *, based_on: int, stamp: Stamp
) -> Kept | PieceConflict:
    """Put one piece on the shelf, or change what is written on it.

    What it said before is kept. How many there are and whose it is change by movements alone.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.writing``.
    given : Piece
        Without a key it is a new one.
    based_on : int
        The ``head`` that the writer saw; 0 for a new piece.
    stamp : Stamp
        When and where.

    Raises
    ------
    BadInput
        When its number is another piece's, there is no such piece, or its count or owner is not
        what it was.
    """
    take_the_shelf(connection)
    if not given.id:
        given = replace(given, id=new_id())
    row = connection.execute(select(piece).where(piece.c.id == given.id)).first()
    if row is None:
        if based_on:
            raise BadInput("no such piece", where="shelf", given=given.id)
        put_new_pieces(connection, [given], stamp=stamp)
        return piece_by_id(connection, given.id)
    body = write_piece(given)
    if row.head == based_on + 1 and (row.body, row.bench) == (body, stamp.bench):
        # The answer to the first try was lost on its way.
        return piece_by_id(connection, given.id)
    if row.head != based_on:
        return PieceConflict(mine=given, theirs=piece_by_id(connection, given.id))
    write_over(connection, [(row, given)], stamp=stamp)
    return piece_by_id(connection, given.id)


def write_over(
    connection: Connection, changes: Sequence[tuple[Row[Any], Piece]], *, stamp: Stamp
) -> None:
    """Write pieces over: their rows of ``piece`` as they are, and what is to stand there.

    Only for this room, once the shelf is taken and nobody wrote on them since they were seen.

    Raises
    ------
    BadInput
        When a number is another piece's, or a count or an owner is not what it was.
    """
    was = {row.entry: read_piece(row.body, piece_id=row.id) for row, _ in changes}
    for row, given in changes:
        _need_same_stock(was[row.entry], given)
    _need_free(
        connection, [replace(one, id="") for row, one in changes if row.number != one.number]
    )
    before = [
        {
            "entry": row.entry,
            "number": row.head,
            "made_at": row.changed_at,
            "bench": row.bench,
            "body": row.body,
            "sha256": row.sha256,
        }
        for row, _ in changes
    ]
    insert_many(connection, piece_before, before)
    here = _here(stamp)
    says = [
        {"at": row.entry, **_says(_written(one), head=row.head + 1), **here} for row, one in changes
    ]
    connection.execute(update(piece).where(piece.c.entry == bindparam("at")), says)
    reckon_anew(connection, [(row.entry, was[row.entry], one) for row, one in changes])


def _put_in(
    connection: Connection, some: list[Piece | Written], *, first_entry: int, stamp: Stamp
) -> None:
    given = [_with_key(one if isinstance(one, Written) else _written(one)) for one in some]
    for one, _ in given:
        plain_text(one.id, where="piece")
    _need_free(connection, [one for one, _ in given])
    entries = [*enumerate((one for one, _ in given), first_entry)]
    here = _here(stamp)
    rows = [
        {"entry": at, "id": one.piece.id, **_says(one, head=1), **here}
        for at, one in enumerate(given, first_entry)
    ]
    insert_many(connection, piece, rows)
    there = [
        stock_row(one, Stock(on_shelf=one.count), entry=entry, movements=min(one.count, 1))
        for entry, one in entries
    ]
    insert_many(connection, piece_stock, there)
    came_in = {
        count: _came_in(count, stamp=stamp) for count in {one.count for _, one in entries} - {0}
    }
    came = [{**came_in[one.count], "entry": entry} for entry, one in entries if one.count]
    insert_many(connection, movement, came)
    reckon(connection, entries)


def _written(one: Piece) -> Written:
    return Written(one, write_piece(one))


def _with_key(one: Written) -> Written:
    return one if one.piece.id else Written(replace(one.piece, id=new_id()), one.body)


def _here(stamp: Stamp) -> dict[str, Any]:
    return {"changed_at": stamp.written, "bench": stamp.bench}


def _says(one: Written, *, head: int) -> dict[str, Any]:
    return {
        "number": one.piece.number,
        "head": head,
        "body": one.body,
        "sha256": hash_of_piece(one.body),
    }


def _came_in(count: int, *, stamp: Stamp) -> dict[str, Any]:
    """Return the row of a first movement of so many; its entry is not known yet."""
    first = Movement(piece_id="", kind="came in", count=count, on=stamp.when, bench=stamp.bench)
    return movement_row(first, entry=0, number=1)


def _need_same_stock(was: Piece, given: Piece) -> None:
    if given.count != was.count:
        raise BadInput(
            "how many came is not written over",
            where=f"piece {was.number}",
            given=given.count,
            wanted=str(was.count),
            step="Write a movement: came in, or counted.",
        )
    if given.owner != was.owner:
        raise BadInput(
            "whose it is is not written over",
            where=f"piece {was.number}",
            given=given.owner,
            wanted=was.owner or "the shop's own",
            step="Write that it left, and take it in anew.",
        )


def _need_free(connection: Connection, given: list[Piece]) -> None:
    """See that no key and no number is another piece's."""
    for column, conditions in ((piece.c.id, ()), (piece.c.number, (HAS_NUMBER,))):
        wanted = [value for one in given if (value := getattr(one, column.name))]
        says = f"this {'key' if column is piece.c.id else 'number'} is another piece's"
        twice = next((value for value, times in Counter(wanted).items() if times > 1), None)
        if twice is not None:
            where = column.name
            raise BadInput(says, where=where, given=twice, wanted="one that stands there once")
        for first in range(0, len(wanted), ASKED_AT_ONCE):
            its = column.in_(wanted[first : first + ASKED_AT_ONCE])
            taken = connection.execute(select(column).where(its, *conditions)).scalars().first()
            if taken is not None:
                raise BadInput(says, where=column.name, given=taken, wanted="one that nobody has")
