"""Write everything that a store holds into one archive."""

from __future__ import annotations

import datetime as dt
import hashlib
import secrets
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

from counterhoop.errors import CannotDo
from counterhoop.store.copies.manifest import DATABASE, MANIFEST, Piece, write_manifest
from counterhoop.store.copy_database import copy_database
from counterhoop.store.enclosures.keep import place_of, read_pieces
from counterhoop.store.faults import plain_faults
from counterhoop.store.migrate import NEWEST
from counterhoop.store.stamp import write_time
from counterhoop.store.store import Store
from counterhoop.store.to_disk import move_into_place


@dataclass(frozen=True, slots=True, kw_only=True)
class Backup:
    """What went into an archive.

    Attributes
    ----------
    archive : pathlib.Path
        The file.
    files : int
        Photographs and sounds in it.
    missing, changed : tuple of str
        Hashes of files that the store has lost, or that are no longer what they were. The archive
        is made all the same: it holds the rest.
    """

    archive: Path
    files: int
    missing: tuple[str, ...]
    changed: tuple[str, ...]


def back_up(
    store: Store, *, to: Path, made_at: dt.datetime,
    progress: Callable[[float], None] = lambda _share: None,
) -> Backup:  # fmt: skip
    """Write one archive: a copy of the database, the files, and the list of their hashes.

    Saving may go on meanwhile: the archive holds one state of the store.

    Parameters
    ----------
    progress : callable
        Called with the share done, 0 to 1; when it raises, nothing is left behind.

    Raises
    ------
    CannotDo
        When a file of that name is there, or the disk is full.
    """
    if to.exists():
        raise CannotDo(f"{to} is there already: give another name, nothing is overwritten.")
    mark = secrets.token_hex(4)
    part, copy = (to.with_name(f".{to.name}.{mark}.{end}") for end in ("part", "sqlite3"))
    with plain_faults():
        to.parent.mkdir(parents=True, exist_ok=True)
        try:
            copy_database(store.engine, to=copy)
            backup = _write(part, copy, store=store, to=to, made_at=made_at, progress=progress)
            move_into_place(part, to=to)
        finally:
            part.unlink(missing_ok=True)
            copy.unlink(missing_ok=True)
    return backup


def _write(
    part: Path, copy: Path, *, store: Store, to: Path, made_at: dt.datetime,
    progress: Callable[[float], None],
) -> Backup:  # fmt: skip
    missing, changed, pieces = [], [], []
    with ZipFile(part, "x") as archive:
        pieces.append(_put(archive, copy, name=DATABASE, packing=ZIP_DEFLATED))
        named = tuple(_files_named_in(copy))
        for done, sha256 in enumerate(named):
            progress(done / len(named))
            file = place_of(store.address.files, sha256)
            if not file.exists():
                missing.append(sha256)
                continue
            name = place_of(Path("files"), sha256).as_posix()
            # Photographs and sounds are packed already.
            pieces.append(_put(archive, file, name=name, packing=ZIP_STORED))
            if pieces[-1].sha256 != sha256:
                changed.append(sha256)
        # Last, so that an archive that broke off has none.
        archive.writestr(
            ZipInfo(MANIFEST), write_manifest(pieces, made_at=write_time(made_at), shape=NEWEST)
        )
    return Backup(
        archive=to, files=len(pieces) - 1, missing=tuple(missing), changed=tuple(changed)
    )  # fmt: skip


def _put(archive: ZipFile, file: Path, *, name: str, packing: int) -> Piece:
    info = ZipInfo(name)
    info.compress_type = packing
    info.file_size = file.stat().st_size
    digest, size = hashlib.sha256(), 0
    with archive.open(info, "w") as out:
        for piece in read_pieces(file):
            out.write(piece)
            digest.update(piece)
            size += len(piece)
    return Piece(name=name, size=size, sha256=digest.hexdigest())


def _files_named_in(copy: Path) -> Iterator[str]:
    with closing(sqlite3.connect(copy)) as connection:
        rows = connection.execute("SELECT sha256 FROM kept_file ORDER BY sha256").fetchall()
    return (str(row[0]) for row in rows)
