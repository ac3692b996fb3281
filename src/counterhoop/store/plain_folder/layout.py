"""How the folder is laid out: names of files, and texts of records."""

from __future__ import annotations

import json
import re
import tomllib
from importlib.resources import files
from typing import Any

FORMAT = "counterhoop folder"
VERSION = 4

HEAD = "export.json"
HASHES = "hashes.csv"
READ_ME = "READ-ME.txt"
HIDDEN = "hidden.json"
PHOTOGRAPHS = "shelf-photographs.json"


def read_me() -> bytes:
    """Return the page that explains the folder."""
    return (files("counterhoop.store.plain_folder") / "read_me.txt").read_bytes()


def write_record(record: Any) -> bytes:
    """Return a record as JSON that a person can read; half a surrogate pair as an escape."""
    try:
        return (json.dumps(record, ensure_ascii=False, indent=1) + "\n").encode()
    except UnicodeEncodeError:
        return (json.dumps(record, ensure_ascii=True, indent=1) + "\n").encode()


def folder_of(kind: str, document_id: str) -> str:
    """Return the name of a document's folder; only plain signs of its kind go into it.

    Examples
    --------
    >>> folder_of("hole ticks", "6f1a"), folder_of("../..", "6f1a")
    ('hole-ticks-6f1a', '-6f1a')
    """
    return f"{re.sub(r'[^a-z0-9]+', '-', kind.lower())[:40].strip('-')}-{document_id}"


def name_of_original(number: int, original: bytes) -> str:
    """Return the name under which the file behind a revision is written.

    Examples
    --------
    >>> name_of_original(3, b"[drums]"), name_of_original(3, b"[drums")
    ('0003.original.toml', '0003.original')
    """
    try:
        tomllib.loads(original.decode("utf-8"))
    except ValueError:
        return f"{number:04}.original"
    return f"{number:04}.original.toml"
