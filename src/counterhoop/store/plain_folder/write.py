"""Write the whole store as a folder."""

from __future__ import annotations

import csv
import datetime as dt
import io
import secrets
import shutil
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Table, select

from counterhoop.errors import CannotDo
from counterhoop.store.body import read_body
from counterhoop.store.enclosures.keep import hash_of_file, place_of
from counterhoop.store.enclosures.media_type import SUFFIXES
from counterhoop.store.faults import plain_faults
from counterhoop.store.plain_folder.layout import (
    FORMAT,
    HASHES,
    HEAD,
    HIDDEN,
    PHOTOGRAPHS,
    READ_ME,
    VERSION,
    folder_of,
    name_of_original,
    read_me,
    write_record,
)
from counterhoop.store.plain_folder.running_books import write_running_books
from counterhoop.store.plain_folder.shelf_lines import SHELF, write_shelf
from counterhoop.store.stamp import write_time
from counterhoop.store.store import Store
from counterhoop.store.tables import (
    correction,
    document,
    drum,
    enclosure,
    hiding,
    job,
    kept_file,
    piece,
    piece_photograph,
    revision,
)


def write_folder(store: Store, *, to: Path, made_at: dt.datetime) -> None:
    """Write everything that a store holds into a new folder that needs no program to be read.

    The same store gives the same bytes, besides the time in ``export.json``.

    Raises
    ------
    CannotDo
        When the folder is there already, or the store has lost a file.
    """
    if to.exists():
        raise CannotDo(f"{to} is there already: give another name, nothing is overwritten.")
    with plain_faults():
        to.parent.mkdir(parents=True, exist_ok=True)
        work = to.with_name(f".{to.name}.{secrets.token_hex(4)}.part")
        work.mkdir()
        try:
            with store.reading() as connection:
                _write_all(connection, store=store, to=work)
            head = {"format": FORMAT, "version": VERSION, "made_at": write_time(made_at)}
            (work / HEAD).write_bytes(write_record(head))
            (work / HASHES).write_text(_hashes(work), encoding="ascii", newline="")
            work.replace(to)
        finally:
            shutil.rmtree(work, ignore_errors=True)


def _write_all(connection: Connection, *, store: Store, to: Path) -> None:
    (to / READ_ME).write_bytes(read_me())
    (to / HIDDEN).write_bytes(write_record(_rows(connection, hiding)))
    write_shelf(connection, to / SHELF)
    write_running_books(connection, to=to)
    photographs = _photographs(connection)
    (to / PHOTOGRAPHS).write_bytes(write_record(photographs))
    _copy_files(store, photographs, to=to)
    _write_documents(connection, job_id=None, to=to / "workshop")
    for row in _rows(connection, job):
        folder = to / "jobs" / row["id"]
        folder.mkdir(parents=True)
        drums = _rows(connection, drum, job_id=row["id"])
        drums.sort(key=lambda one: int(one["place"]))
        (folder / "job.json").write_bytes(write_record({**row, "drums": drums}))
        enclosures = _enclosures(connection, job_id=row["id"])
        (folder / "enclosures.json").write_bytes(write_record(enclosures))
        _copy_files(store, enclosures, to=to)
        _write_documents(connection, job_id=row["id"], to=folder)


def _write_documents(connection: Connection, *, job_id: str | None, to: Path) -> None:
    for row in _rows(connection, document, job_id=job_id):
        folder = to / "documents" / folder_of(row["kind"], row["id"])
        folder.mkdir(parents=True)
        # Its newest revision says when.
        del row["changed_at"]
        (folder / "document.json").write_bytes(write_record(row))
        corrections = {
            one["number"]: one for one in _rows(connection, correction, document_id=row["id"])
        }
        for one in _rows(connection, revision, document_id=row["id"]):
            _write_revision(one, corrected=corrections.get(one["number"]), to=folder)


def _write_revision(row: dict[str, Any], *, corrected: dict[str, Any] | None, to: Path) -> None:
    record = {name: value for name, value in row.items() if name != "document_id"}
    body, original = record.pop("body"), record.pop("original")
    if corrected is not None:
        record["correction"] = {
            "pointer": corrected["pointer"],
            **{
                side: read_body(corrected[side])
                for side in ("old", "new")
                if corrected[side] is not None
            },
            "why": corrected["why"],
        }
    if original is not None:
        record["original"] = name_of_original(row["number"], original)
        (to / record["original"]).write_bytes(original)
    record["body"] = read_body(body)
    (to / f"{row['number']:04}.json").write_bytes(write_record(record))


def _enclosures(connection: Connection, *, job_id: str) -> list[dict[str, Any]]:
    return _with_files(connection, _rows(connection, enclosure, job_id=job_id))


def _photographs(connection: Connection) -> list[dict[str, Any]]:
    keys = select(piece_photograph.c.id, piece.c.id).join(piece)
    piece_ids = dict(tuple(row) for row in connection.execute(keys))
    rows = _rows(connection, piece_photograph)
    for row in rows:
        del row["entry"]
        row["piece_id"] = piece_ids[row["id"]]
    return _with_files(connection, rows)


def _with_files(connection: Connection, rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    kinds = {row["sha256"]: row for row in _rows(connection, kept_file)}
    found = []
    for row in rows:
        kept = kinds[row["sha256"]]
        file = f"files/{row['sha256']}{SUFFIXES.get(kept['media_type'], '')}"
        found.append({**row, **kept, "file": file})
    return found


def _copy_files(store: Store, enclosed: list[dict[str, Any]], *, to: Path) -> None:
    for one in enclosed:
        _copy_file(store, sha256=one["sha256"], to=to / one["file"])


def _copy_file(store: Store, *, sha256: str, to: Path) -> None:
    source = place_of(store.address.files, sha256)
    if not source.is_file() or hash_of_file(source) != sha256:
        raise CannotDo(
            f"The store has lost a file ({sha256[:12]}...), so nothing was exported."
            " Look the store over, and restore a backup that still has it."
        )
    to.parent.mkdir(exist_ok=True)
    shutil.copyfile(source, to)


def _rows(connection: Connection, table: Table, **where: str | None) -> list[dict[str, Any]]:
    """Return rows as tables, in the order of their keys on either database."""
    wanted = select(table)
    for name, value in where.items():
        column = table.c[name]
        wanted = wanted.where(column.is_(None) if value is None else column == value)
    rows = [dict(row) for row in connection.execute(wanted).mappings()]
    keys = [column.name for column in table.primary_key]
    return sorted(rows, key=lambda row: tuple(row[key] for key in keys))


def _hashes(folder: Path) -> str:
    out = io.StringIO()
    lines = csv.writer(out, lineterminator="\n")
    lines.writerow(["path", "bytes", "sha256"])
    for file in sorted(folder.rglob("*"), key=lambda one: one.relative_to(folder).as_posix()):
        if file.is_file():
            path = file.relative_to(folder).as_posix()
            lines.writerow([path, file.stat().st_size, hash_of_file(file)])
    return out.getvalue()
