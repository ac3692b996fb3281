"""Files that belong to nothing, and how they are put away."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from itertools import count
from pathlib import Path

from sqlalchemy import select

from counterhoop.store.enclosures.keep import INCOMING, place_of
from counterhoop.store.faults import plain_faults
from counterhoop.store.store import Store
from counterhoop.store.tables import kept_file
from counterhoop.store.to_disk import flush_folder

ORPHANS = "orphans"
"""The folder beside the files in which those lie that were put away."""


def orphans_of(store: Store, *, kept: set[str]) -> Iterator[tuple[str, Path]]:
    """Yield the files that belong to nothing, and what each is.

    Parameters
    ----------
    store : Store
    kept : set of str
        Hashes of the files that the database knows.
    """
    top = store.address.files
    for file in sorted(top.rglob("*")):
        inside = file.relative_to(top)
        if file.is_dir():
            continue
        if inside.parts[0] == INCOMING:
            yield "half-written", file
        elif inside.name not in kept or file != place_of(top, inside.name):
            yield "orphaned", file


def put_away_orphans(store: Store, *, older_than: dt.datetime) -> tuple[Path, ...]:
    """Move the files that belong to nothing into a folder of their own; none is deleted.

    An upload that was broken off, or a photograph that was turned away after it was kept, leaves
    such a file. They do no harm but for their room on the disk.

    Parameters
    ----------
    store : Store
    older_than : datetime.datetime
        With its time zone. What was written since stays: it may be about to be enclosed.

    Returns
    -------
    tuple of pathlib.Path
        Where they lie now.
    """
    to = store.address.folder / ORPHANS
    away = []
    # Nobody encloses a file of an SQLite store while this goes on.
    with plain_faults(), store.writing() as connection:
        kept = set(connection.execute(select(kept_file.c.sha256)).scalars())
        for _, file in orphans_of(store, kept=kept):
            if file.stat().st_mtime >= older_than.timestamp():
                continue
            to.mkdir(exist_ok=True)
            places = (to / f"{file.name}{f'-{n}' if n > 1 else ''}" for n in count(1))
            place = next(one for one in places if not one.exists())
            file.rename(place)
            flush_folder(file.parent)
            away.append(place)
        if away:
            flush_folder(to)
    return tuple(away)
