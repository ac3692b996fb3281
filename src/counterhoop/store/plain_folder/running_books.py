"""Issued papers and the work log in the plain folder."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Table, insert, select

from counterhoop.store.body import read_body, write_body
from counterhoop.store.plain_folder.layout import folder_of, write_record
from counterhoop.store.row_hash import is_as_written
from counterhoop.store.running.issued import read_issued
from counterhoop.store.tables import in_hand, issued, work_log
from counterhoop.store.turn import Book, end_turn, take_turn
from counterhoop.store.work_log.look_over import in_hand_by

ISSUED = "issued"
WORK_LOG = "work-log.jsonl"

Row = dict[str, Any]


def write_running_books(connection: Connection, *, to: Path) -> None:
    """Write each issued paper as a file, and the log as a line for each row."""
    (to / ISSUED).mkdir()
    for row in _rows(connection, issued):
        called = folder_of(row["series"], folder_of(row["called"], "").strip("-"))
        row["body"] = read_body(row["body"])
        (to / ISSUED / f"{row['entry']:06}-{called}.json").write_bytes(write_record(row))
    with (to / WORK_LOG).open("wb") as out:
        for row in _rows(connection, work_log):
            out.write(json.dumps(row, ensure_ascii=True).encode() + b"\n")


def read_running_books(connection: Connection, folder: Path) -> None:
    """Put the papers and the log of a folder in; a folder from before there were any has none.

    Raises
    ------
    ValueError, KeyError, TypeError
        When one does not hold what it should.
    """
    papers = [json.loads(file.read_bytes()) for file in sorted((folder / ISSUED).glob("*.json"))]
    for row in papers:
        row["body"] = write_body(row["body"])
        read_issued(row)
    _put_in(connection, issued, papers, book="issued")
    log = folder / WORK_LOG
    lines = [json.loads(line) for line in log.read_bytes().splitlines()] if log.exists() else []
    _put_in(connection, work_log, lines, book="work log")
    for bench, working in in_hand_by(lines).items():
        connection.execute(insert(in_hand).values(bench=bench, working=working))


def _put_in(connection: Connection, table: Table, rows: list[Row], *, book: Book) -> None:
    if not rows:
        return
    wanted = set(table.c.keys())
    for entry, row in enumerate(sorted(rows, key=lambda one: int(one["entry"])), 1):
        if row.keys() != wanted:
            raise ValueError(f"{table.name} needs {', '.join(sorted(wanted))}")
        if row["entry"] != entry or not is_as_written(row):
            raise ValueError(f"row {entry} of {table.name} is not what was written")
        connection.execute(insert(table).values(row))
    take_turn(connection, book)
    end_turn(connection, book, last=len(rows))


def _rows(connection: Connection, table: Table) -> Iterator[Row]:
    rows = connection.execution_options(yield_per=500).execute(
        select(table).order_by(table.c.entry)
    )
    return (dict(row) for row in rows.mappings())
