"""The shelf in the plain folder: one line for each piece, with all that it ever said and did."""

from __future__ import annotations

import json
from collections import defaultdict
from itertools import islice
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Table, func, select

from counterhoop.parts.piece import Piece
from counterhoop.parts.stock import stock
from counterhoop.store.body import read_body, write_body
from counterhoop.store.insert_many import insert_many
from counterhoop.store.shelf.body_of_piece import hash_of_piece, read_piece
from counterhoop.store.shelf.mark import take_the_shelf
from counterhoop.store.shelf.movement_row import read_movement
from counterhoop.store.shelf.reckoned import reckon, stock_row
from counterhoop.store.tables import movement, piece, piece_before, piece_stock

SHELF = "shelf.jsonl"
AT_ONCE = 1000

Row = dict[str, Any]


def write_shelf(connection: Connection, file: Path) -> None:
    """Write the shelf, the piece that came first first; what is reckoned is left out."""
    last = connection.execute(select(func.coalesce(func.max(piece.c.entry), 0))).scalar_one()
    with file.open("wb") as out:
        for first in range(1, last + 1, AT_ONCE):
            its = {
                table: _rows(connection, table, first=first)
                for table in (piece, piece_before, movement)
            }
            for entry, (row,) in its[piece].items():
                before = [_with_body(one) for one in its[piece_before][entry]]
                line = {**_with_body(row), "before": before, "movements": its[movement][entry]}
                out.write(json.dumps(line, ensure_ascii=True).encode() + b"\n")


def read_shelf(connection: Connection, file: Path) -> None:
    """Put the shelf of a folder in; a folder from before there was a shelf has none.

    Raises
    ------
    ValueError, KeyError, TypeError
        When a line does not hold what it should.
    """
    if not file.exists():
        return
    entry = 1
    with file.open("rb") as lines:
        while some := [json.loads(line) for line in islice(lines, AT_ONCE)]:
            _put_in(connection, [*enumerate(some, entry)])
            entry += len(some)


def _put_in(connection: Connection, lines: list[tuple[int, Row]]) -> None:
    take_the_shelf(connection)
    rows: dict[Table, list[Row]] = {piece: [], piece_before: [], movement: [], piece_stock: []}
    read: list[tuple[int, Piece]] = []
    for entry, line in lines:
        before, moved = line.pop("before"), line.pop("movements")
        for table, found in ((piece_before, before), (movement, moved)):
            rows[table] += [{"entry": entry, **row} for row in found]
        rows[piece].append({"entry": entry, **line})
        one = read_piece(write_body(line["body"]), piece_id=line["id"])
        read.append((entry, one))
        there = stock([read_movement(row, piece_id=one.id) for row in moved], owner=one.owner)
        rows[piece_stock].append(stock_row(one, there, entry=entry, movements=len(moved)))
    for row in (*rows[piece], *rows[piece_before]):
        row["body"] = write_body(row["body"])
        if hash_of_piece(row["body"]) != row["sha256"]:
            raise ValueError(f"piece {row['entry']} is not what was written")
    for table, found in rows.items():
        wanted = set(table.c.keys())
        if any(row.keys() != wanted for row in found):
            raise ValueError(f"{table.name} needs {', '.join(sorted(wanted))}")
        insert_many(connection, table, found)
    reckon(connection, read)


def _rows(connection: Connection, table: Table, *, first: int) -> dict[int, list[Row]]:
    found: dict[int, list[Row]] = defaultdict(list)
    within = table.c.entry.between(first, first + AT_ONCE - 1)
    rows = connection.execute(select(table).where(within).order_by(*table.primary_key))
    for row in rows.mappings():
        kept = dict(row)
        found[kept.pop("entry")].append(kept)
    return found


def _with_body(row: Row) -> Row:
    return {**row, "body": read_body(row["body"])}
