"""Files that are there whole or not at all, also after the power went."""

from __future__ import annotations

import os
from pathlib import Path


def flush_file(file: Path) -> None:
    """Wait until what was written to a file is on the disk."""
    with file.open("rb+") as opened:
        os.fsync(opened.fileno())


def flush_folder(folder: Path) -> None:
    """Wait until the names in a folder are on the disk, where the system can tell."""
    if os.name == "nt":
        return
    held = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(held)
    finally:
        os.close(held)


def move_into_place(part: Path, *, to: Path) -> None:
    """Give a finished file its name, on the disk, in one step."""
    flush_file(part)
    part.replace(to)
    flush_folder(to.parent)
