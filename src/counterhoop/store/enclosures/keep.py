"""Keep a file that comes in pieces: under its hash, beside the database, whole or not at all."""

from __future__ import annotations

import hashlib
import secrets
import shutil
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.enclosures.media_type import ENOUGH, media_type_of
from counterhoop.store.enclosures.position import take_out_position
from counterhoop.store.faults import plain_faults
from counterhoop.store.store import Store
from counterhoop.store.to_disk import flush_folder, move_into_place

LARGEST_BYTES = 50_000_000
INCOMING = "incoming"
_PIECE = 1 << 20


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptFile:
    """A file that lies beside the database.

    Attributes
    ----------
    sha256 : str
        Its hash, which is also its name.
    size : int
        Bytes.
    media_type : str
        What it is, by its content.
    position_removed : bool
        Whether it told where it was taken.
    """

    sha256: str
    size: int
    media_type: str
    position_removed: bool


def place_of(store_files: Path, sha256: str) -> Path:
    """Return where a file lies below the folder of files."""
    return store_files / sha256[:2] / sha256


def keep_file(
    store: Store, pieces: Iterable[bytes], *, largest_bytes: int = LARGEST_BYTES
) -> KeptFile:
    """Keep a file; it is on the disk when this returns, but belongs nowhere until ``enclose``.

    Raises
    ------
    BadInput
        When it is too large, empty, of no known type, or no readable photograph.
    CannotDo
        When the disk is full.
    """
    folder = store.address.files / INCOMING
    with plain_faults():
        folder.mkdir(exist_ok=True)
        part = folder / f"{secrets.token_hex(8)}.part"
        try:
            media_type = _write_capped(part, pieces, largest_bytes=largest_bytes)
            removed = _without_position(part, media_type=media_type)
            sha256 = hash_of_file(part)
            size = part.stat().st_size
            _put_in_place(part, store=store, sha256=sha256)
        finally:
            part.unlink(missing_ok=True)
    return KeptFile(sha256=sha256, size=size, media_type=media_type, position_removed=removed)


def keep_exactly(store: Store, file: Path, *, sha256: str) -> None:
    """Keep a file that was kept before, in this store or another, just as it is."""
    folder = store.address.files / INCOMING
    folder.mkdir(exist_ok=True)
    part = folder / f"{secrets.token_hex(8)}.part"
    try:
        shutil.copyfile(file, part)
        if hash_of_file(part) != sha256:
            raise CannotDo(f"The file {file.name} is not what was kept.")
        _put_in_place(part, store=store, sha256=sha256)
    finally:
        part.unlink(missing_ok=True)


def _put_in_place(part: Path, *, store: Store, sha256: str) -> None:
    to = place_of(store.address.files, sha256)
    to.parent.mkdir(exist_ok=True)
    flush_folder(to.parent.parent)
    move_into_place(part, to=to)


def hash_of_file(file: Path) -> str:
    """Return the hash of a file's content."""
    with file.open("rb") as opened:
        return hashlib.file_digest(opened, "sha256").hexdigest()


def read_pieces(file: Path) -> Iterator[bytes]:
    """Yield a file in pieces."""
    with file.open("rb") as opened:
        while piece := opened.read(_PIECE):
            yield piece


def _write_capped(part: Path, pieces: Iterable[bytes], *, largest_bytes: int) -> str:
    start, size, media_type = b"", 0, ""
    with part.open("xb") as out:
        for piece in pieces:
            size += len(piece)
            if size > largest_bytes:
                raise BadInput(
                    "too large to keep",
                    where="file",
                    wanted=f"at most {largest_bytes / 1e6:g} MB",
                    step="Send a smaller picture or a shorter recording",
                )
            out.write(piece)
            if not media_type:
                start += piece[:ENOUGH]
                if len(start) >= ENOUGH:
                    media_type = media_type_of(start)
        if not size:
            raise BadInput("empty", where="file", wanted="a photograph or a sound")
    return media_type or media_type_of(start)


def _without_position(part: Path, *, media_type: str) -> bool:
    data = bytearray(part.read_bytes())
    removed = take_out_position(data, media_type=media_type)
    if removed:
        part.write_bytes(data)
    return removed
