"""Bring a backup back: whole, into an empty place, or not at all."""

from __future__ import annotations

import hashlib
import secrets
import shutil
from pathlib import Path
from zipfile import ZipFile

from sqlalchemy import Engine

from counterhoop.errors import CannotDo
from counterhoop.store.address import Address
from counterhoop.store.copies.manifest import DATABASE, MANIFEST, Piece, read_manifest
from counterhoop.store.copy_database import copy_rows, faults_of_file
from counterhoop.store.engine import engine_for, for_migrating, for_reading, sqlite_engine
from counterhoop.store.faults import plain_faults
from counterhoop.store.migrate import move_to, shape_of
from counterhoop.store.to_disk import flush_file, flush_folder

_PIECE = 1 << 20
_HALF = (
    "This backup is not whole (it broke off, or was changed): nothing was touched."
    " Take an older one, and look why this one is not whole."
)


def restore(archive: Path, *, to: Address) -> None:
    """Make a store from a backup; everything is looked over before anything is put in place.

    Parameters
    ----------
    archive : pathlib.Path
        From ``back_up``.
    to : Address
        Where nothing is yet: an absent or empty folder, and for PostgreSQL an empty database.

    Raises
    ------
    CannotDo
        When something is there already, when the archive is not whole, or of a newer Counterhoop.
    """
    with plain_faults():
        _need_empty(to)
        to.folder.parent.mkdir(parents=True, exist_ok=True)
        work = to.folder.with_name(f".{to.folder.name}.{secrets.token_hex(4)}.restoring")
        work.mkdir()
        try:
            _unpack(archive, into=work)
            _look_over(work / DATABASE)
            (work / "files").mkdir(exist_ok=True)
            if to.in_a_file:
                _put_folder(work, to=to.folder)
            else:
                _fill_database(work, to=to)
        finally:
            shutil.rmtree(work, ignore_errors=True)


def _need_empty(to: Address) -> None:
    if to.folder.exists() and (not to.folder.is_dir() or any(to.folder.iterdir())):
        raise CannotDo(
            f"There is something in {to.folder} already, and a restore overwrites nothing."
            " Give an empty folder with --data."
        )
    if to.in_a_file:
        return
    engine = engine_for(to)
    try:
        with for_reading(engine) as connection, connection.begin():
            if shape_of(connection):
                raise CannotDo(
                    "There is a store in this database already, and a restore overwrites nothing."
                    " Give the address of an empty database."
                )
    finally:
        engine.dispose()


def _unpack(archive: Path, *, into: Path) -> None:
    try:
        with ZipFile(archive) as opened:
            names = opened.namelist()
            if MANIFEST not in names:
                raise CannotDo(_HALF)
            if opened.getinfo(MANIFEST).file_size > 100_000_000:
                raise CannotDo(_HALF)
            pieces = read_manifest(opened.read(MANIFEST))
            if sorted(names) != sorted([MANIFEST, *(one.name for one in pieces)]):
                raise CannotDo(_HALF)
            for piece in pieces:
                _unpack_piece(opened, piece, into=into)
    except (CannotDo, OSError):
        raise
    except Exception as fault:  # Each sort of packing fails on broken bytes in ways of its own.
        raise CannotDo(_HALF) from fault


def _unpack_piece(archive: ZipFile, piece: Piece, *, into: Path) -> None:
    file = into / piece.name
    file.parent.mkdir(parents=True, exist_ok=True)
    digest, left = hashlib.sha256(), piece.size
    with archive.open(piece.name) as packed, file.open("xb") as out:
        # Never more than the list says, whatever the archive would unpack to.
        while left >= 0 and (part := packed.read(min(_PIECE, left + 1))):
            left -= len(part)
            digest.update(part)
            out.write(part)
    if left != 0 or digest.hexdigest() != piece.sha256:
        raise CannotDo(_HALF)
    flush_file(file)
    flush_folder(file.parent)


def _look_over(database: Path) -> None:
    if faults_of_file(database):
        raise CannotDo(_HALF)
    engine = sqlite_engine(str(database))
    try:
        with for_reading(engine) as connection, connection.begin():
            shape_of(connection)
    finally:
        engine.dispose()


def _put_folder(work: Path, *, to: Path) -> None:
    if to.exists():
        to.rmdir()
    work.replace(to)
    flush_folder(to.parent)


def _fill_database(work: Path, *, to: Address) -> None:
    to.folder.mkdir(exist_ok=True)
    # The files first: rows that name a file come only when it is there.
    (work / "files").replace(to.files)
    flush_folder(to.folder)
    source_engine, engine = sqlite_engine(str(work / DATABASE)), engine_for(to)
    try:
        _copy_all(source_engine, engine)
    except BaseException:
        shutil.rmtree(to.files, ignore_errors=True)
        raise
    finally:
        source_engine.dispose()
        engine.dispose()


def _copy_all(source_engine: Engine, engine: Engine) -> None:
    with (
        for_reading(source_engine) as source,
        for_migrating(engine) as target,
        source.begin(),
        target.begin(),
    ):
        move_to(target, shape_of(source))
        copy_rows(source, target)
