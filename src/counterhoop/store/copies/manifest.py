"""The list inside a backup of what must be there, and how each piece hashes."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass

from counterhoop.errors import CannotDo

MANIFEST = "manifest.json"
DATABASE = "counterhoop.sqlite3"
FORMAT = "counterhoop backup"
VERSION = 1

_NAME = re.compile(r"counterhoop\.sqlite3|files/([0-9a-f]{2})/\1[0-9a-f]{62}")
_HASH = re.compile(r"[0-9a-f]{64}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One file of a backup."""

    name: str
    size: int
    sha256: str


def write_manifest(pieces: list[Piece], *, made_at: str, shape: str) -> bytes:
    """Return the list as JSON that a person can read."""
    listed = {one.name: {"size": one.size, "sha256": one.sha256} for one in pieces}
    head = {"format": FORMAT, "version": VERSION, "made_at": made_at, "shape": shape}
    return json.dumps({**head, "pieces": listed}, indent=1).encode()


def read_manifest(text: bytes) -> list[Piece]:
    """Return what the list names; names that would lead out of the folder are refused.

    Raises
    ------
    CannotDo
        When it is no such list, or of a newer Counterhoop.
    """
    try:
        raw = json.loads(text)
        if raw["format"] != FORMAT:
            raise CannotDo("This archive is not a Counterhoop backup: nothing was touched.")
        if raw["version"] > VERSION:
            raise CannotDo(
                "This backup was written by a newer Counterhoop: nothing was touched."
                " Install the newer one and restore with that."
            )
        pieces = [
            Piece(name=name, size=int(one["size"]), sha256=one["sha256"])
            for name, one in raw["pieces"].items()
        ]
    except (ValueError, KeyError, TypeError, AttributeError) as fault:
        raise CannotDo("The list in this backup cannot be read: nothing was touched.") from fault
    if not all(_NAME.fullmatch(one.name) and _HASH.fullmatch(one.sha256) for one in pieces):
        raise CannotDo("This backup names files that no backup holds: nothing was touched.")
    if DATABASE not in {one.name for one in pieces}:
        raise CannotDo("There is no database in this backup: nothing was touched.")
    return pieces
