"""Look the shelf over: what is written by its hash, what is reckoned by what is written."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from sqlalchemy import ColumnElement, Connection, Row, Table, func, select

from counterhoop.parts.piece import Piece
from counterhoop.parts.stock import stock
from counterhoop.store.hide import Thing, hidden_things
from counterhoop.store.shelf.body_of_piece import hash_of_piece, read_piece
from counterhoop.store.shelf.movement_row import read_movement
from counterhoop.store.shelf.reckoned import measure_rows
from counterhoop.store.shelf.words import words_of
from counterhoop.store.tables import (
    movement,
    piece,
    piece_before,
    piece_measure,
    piece_stock,
    piece_word,
    word,
)

AT_ONCE = 1000
Rows = dict[int, list[Row[Any]]]


def shelf_faults(
    connection: Connection, *, progress: Callable[[int], None] = lambda _done: None
) -> Iterator[str]:
    """Yield what is wrong with the shelf, a line each; nothing is changed.

    ``progress`` is called with how many pieces were looked at; when it raises, that is the end.
    """
    last = connection.execute(select(func.coalesce(func.max(piece.c.entry), 0))).scalar_one()
    away = {one.thing_id for one in hidden_things(connection, thing=Thing.PIECE)}
    # Readings are sorted by these first: named, they are found without a look at all of them.
    dimensions = [*connection.execute(select(piece_measure.c.dimension).distinct()).scalars()]
    # Of each word, how many pieces say it and the sum of their entries.
    said: dict[str, tuple[int, int]] = defaultdict(lambda: (0, 0))
    for first in range(1, last + 1, AT_ONCE):
        progress(first - 1)
        beside = {
            table: _rows(connection, table, first=first)
            for table in (piece, piece_before, movement, piece_stock)
        }
        its = piece_measure.c.dimension.in_(dimensions)
        beside[piece_measure] = _rows(connection, piece_measure, its, first=first)
        for entry in range(first, min(first + AT_ONCE, last + 1)):
            rows_of = {table: rows.get(entry, []) for table, rows in beside.items()}
            if not rows_of[piece]:
                yield f"entry {entry} of the shelf is lost"
                continue
            row = rows_of[piece][0]
            called = f"piece {row.number or row.id}"
            try:
                yield from (f"{called} {fault}" for fault in _written(row, rows_of[piece_before]))
                read = read_piece(row.body, piece_id=row.id)
            except (ValueError, KeyError, TypeError, AttributeError):
                yield f"{called} can no longer be read"
                continue
            yield from (
                f"{called} {fault}" for fault in _reckoned(read, rows_of, away=row.id in away)
            )
            for text in words_of(read):
                count, entries = said[text]
                said[text] = (count + 1, entries + entry)
    yield from _words(connection, said)


def _rows(connection: Connection, table: Table, *also: ColumnElement[bool], first: int) -> Rows:
    found: Rows = defaultdict(list)
    within = table.c.entry.between(first, first + AT_ONCE - 1)
    for row in connection.execute(select(table).where(within, *also)):
        found[row.entry].append(row)
    return found


def _written(row: Row[Any], before: Sequence[Row[Any]]) -> Iterator[str]:
    for one in (*before, row):
        if hash_of_piece(one.body) != one.sha256:
            yield "is not what was written"
    if [one.number for one in before] != list(range(1, row.head)):
        yield f"has {len(before)} of the {row.head - 1} things that it said before"
    if read_piece(row.body, piece_id=row.id).number != row.number:
        yield "is kept under another number"


def _reckoned(read: Piece, its: dict[Table, list[Row[Any]]], *, away: bool) -> Iterator[str]:
    moved = its[movement]
    if [row.number for row in moved] != list(range(1, len(moved) + 1)):
        yield "has lost a movement"
    try:
        there = stock(
            (read_movement(row._mapping, piece_id=read.id) for row in moved), owner=read.owner
        )
    except ValueError as fault:
        yield f"has moved as it could not: {fault}"
    else:
        kept = (read.owner, len(moved), there.on_shelf, there.free)
        found = [(row.owner, row.movements, row.on_shelf, row.free) for row in its[piece_stock]]
        if found != [kept]:
            yield "has another stock than its movements come to"
        if any(bool(row.hidden) != away for row in its[piece_stock]):
            yield "is out of sight and found, or in sight and not found"
    entry = its[piece][0].entry
    measures = [dict(row._mapping) for row in its[piece_measure]]
    if _sorted(measures) != _sorted(measure_rows(read, entry=entry)):
        yield "is found by other measurements than are written on it"


def _sorted(rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return sorted(rows, key=lambda row: int(row["dimension"]))


def _words(connection: Connection, said: dict[str, tuple[int, int]]) -> Iterator[str]:
    leads = {
        text: (count, int(entries))
        for text, count, entries in connection.execute(
            select(word.c.word, func.count(), func.sum(piece_word.c.entry))
            .join(piece_word, piece_word.c.word_id == word.c.id)
            .group_by(word.c.word)
        )
    }
    for text in sorted(said.keys() | leads.keys()):
        if said.get(text) != leads.get(text):
            count = leads.get(text, (0, 0))[0]
            yield f'the word "{text}" leads to {count} pieces, not to those that say it'
