"""The copy that is made before a store changes its shape."""

from __future__ import annotations

from itertools import count
from pathlib import Path

from sqlalchemy import Engine

from counterhoop.store.address import Address
from counterhoop.store.copy_database import copy_database


def copy_before_migration(engine: Engine, *, address: Address, shape: str) -> Path:
    """Copy the database beside the store and return the copy's file.

    The files need no copy: no migration touches them.
    """
    folder = address.folder / "before-migration"
    folder.mkdir(exist_ok=True)
    names = (folder / f"shape-{shape}-copy-{number}.sqlite3" for number in count(1))
    file = next(name for name in names if not name.exists())
    copy_database(engine, to=file)
    return file
