"""Make a store of a folder again."""

from __future__ import annotations

import csv
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Table, func, insert, select, update

from counterhoop.errors import CannotDo
from counterhoop.store.body import hash_of, write_body
from counterhoop.store.enclosures.keep import hash_of_file, keep_exactly
from counterhoop.store.faults import plain_faults
from counterhoop.store.hide import Thing, is_hidden
from counterhoop.store.insert_unless_there import insert_unless_there
from counterhoop.store.plain_folder.layout import (
    FORMAT,
    HASHES,
    HEAD,
    HIDDEN,
    PHOTOGRAPHS,
    VERSION,
)
from counterhoop.store.plain_folder.running_books import read_running_books
from counterhoop.store.plain_folder.shelf_lines import SHELF, read_shelf
from counterhoop.store.store import Store
from counterhoop.store.tables import (
    METADATA,
    correction,
    document,
    drum,
    enclosure,
    hiding,
    job,
    kept_file,
    piece,
    piece_photograph,
    piece_stock,
    revision,
)


def read_folder(store: Store, folder: Path) -> None:
    """Fill an empty store from a folder that ``write_folder`` wrote, now or years ago.

    Everything is held against its hash first; then all of it is put in, or nothing.

    Raises
    ------
    CannotDo
        When the store is not empty, or the folder is not whole, not one, or of a newer Counterhoop.
    """
    with plain_faults():
        _need_ours(folder)
        _need_whole(folder)
        with store.writing() as connection:
            _need_empty(connection)
            try:
                _read_all(connection, store=store, folder=folder)
            except (ValueError, KeyError, TypeError, AttributeError) as fault:
                raise CannotDo(
                    f"This folder does not hold what it should ({fault}): nothing was put in."
                ) from fault


def _need_ours(folder: Path) -> None:
    try:
        head = json.loads((folder / HEAD).read_bytes())
        known, version = head["format"] == FORMAT, int(head["version"])
    except (OSError, ValueError, KeyError, TypeError) as fault:
        raise CannotDo(f"There is no Counterhoop export in {folder}.") from fault
    if not known:
        raise CannotDo(f"There is no Counterhoop export in {folder}.")
    if version > VERSION:
        raise CannotDo(
            "This folder was written by a newer Counterhoop: nothing was put in."
            " Install the newer one and import with that."
        )


def _need_whole(folder: Path) -> None:
    with (folder / HASHES).open(encoding="utf-8", newline="") as opened:
        listed = {row["path"]: row["sha256"] for row in csv.DictReader(opened)}
    there = {
        file.relative_to(folder).as_posix(): file
        for file in folder.rglob("*")
        if file.is_file() and not file.is_symlink()
    }
    there.pop(HASHES, None)
    for path in sorted(listed.keys() ^ there.keys()):
        what = "is missing" if path in listed else "is not on its list"
        raise CannotDo(f"This folder is not whole: {path} {what}. Nothing was put in.")
    for path, file in there.items():
        if hash_of_file(file) != listed[path]:
            raise CannotDo(
                f"This folder is not what was exported: {path} was changed. Nothing was put in."
            )


def _need_empty(connection: Connection) -> None:
    for table in METADATA.sorted_tables:
        if connection.execute(select(func.count()).select_from(table)).scalar_one():
            raise CannotDo(
                "There is something in this store already, and an import overwrites nothing."
                " Give an empty folder with --data."
            )


def _read_all(connection: Connection, *, store: Store, folder: Path) -> None:
    for place in _folders(folder / "jobs"):
        row = _record(place / "job.json")
        drums = row.pop("drums")
        _put(connection, job, row)
        for one in drums:
            _put(connection, drum, one)
        for one in _record(place / "enclosures.json"):
            _put(connection, enclosure, _with_file(connection, one, store=store, folder=folder))
        _read_documents(connection, place / "documents")
    _read_documents(connection, folder / "workshop" / "documents")
    read_shelf(connection, folder / SHELF)
    read_running_books(connection, folder)
    _read_photographs(connection, store=store, folder=folder)
    for row in _record(folder / HIDDEN):
        _put(connection, hiding, row)
    away = select(piece.c.entry).where(is_hidden(Thing.PIECE, piece.c.id))
    hidden = update(piece_stock).where(piece_stock.c.entry.in_(away)).values(hidden=1)
    connection.execute(hidden)


def _read_photographs(connection: Connection, *, store: Store, folder: Path) -> None:
    file = folder / PHOTOGRAPHS
    # A folder from before pieces had photographs has none.
    for one in _record(file) if file.exists() else ():
        row = _with_file(connection, one, store=store, folder=folder)
        piece_id = row.pop("piece_id")
        row["entry"] = connection.execute(
            select(piece.c.entry).where(piece.c.id == piece_id)
        ).scalar()
        if row["entry"] is None:
            raise ValueError(f"there is no piece {piece_id}")
        _put(connection, piece_photograph, row)


def _with_file(
    connection: Connection, row: dict[str, Any], *, store: Store, folder: Path
) -> dict[str, Any]:
    """Keep the file that a record names, and return the row."""
    # Only the name: a path in the record leads nowhere else.
    file = folder / "files" / Path(row.pop("file")).name
    keep_exactly(store, file, sha256=row["sha256"])
    kept = {name: row[name] for name in ("sha256", "size", "media_type")}
    insert_unless_there(connection, kept_file, kept)
    del row["size"], row["media_type"]
    return row


def _read_documents(connection: Connection, folder: Path) -> None:
    for place in _folders(folder):
        row = _record(place / "document.json")
        changed_at = _record(place / f"{row['head']:04}.json")["made_at"] if row["head"] else None
        _put(connection, document, {**row, "changed_at": changed_at})
        for number in range(1, row["head"] + 1):
            _read_revision(connection, place, number=number, document_id=row["id"])


def _read_revision(connection: Connection, folder: Path, *, number: int, document_id: str) -> None:
    row = _record(folder / f"{number:04}.json")
    corrected = row.pop("correction", None)
    name = row.pop("original", None)
    row["original"] = None if name is None else (folder / Path(name).name).read_bytes()
    row["body"] = write_body(row["body"])
    if hash_of(row["body"], row["original"]) != row["sha256"]:
        raise CannotDo(f"Revision {number} in {folder.name} is not what was saved.")
    _put(connection, revision, {"document_id": document_id, **row})
    if corrected is not None:
        sides = {
            side: write_body(corrected[side]) if side in corrected else None
            for side in ("old", "new")
        }
        keys = {"document_id": document_id, "number": number}
        _put(connection, correction, {**keys, **corrected, **sides})


def _put(connection: Connection, table: Table, row: dict[str, Any]) -> None:
    unknown = row.keys() - table.c.keys()
    if unknown:
        raise ValueError(f"{table.name} knows no {', '.join(sorted(unknown))}")
    connection.execute(insert(table).values(row))


def _record(file: Path) -> Any:
    return json.loads(file.read_bytes())


def _folders(folder: Path) -> Iterator[Path]:
    if folder.is_dir():
        yield from sorted(place for place in folder.iterdir() if place.is_dir())
