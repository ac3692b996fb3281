"""Keep the store safe: back up, look everything over, restore, write and read the plain folder."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path

from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.copies.backup import Backup, back_up
from counterhoop.store.copies.orphans import put_away_orphans
from counterhoop.store.copies.restore import restore
from counterhoop.store.copies.verify import Verdict, verify
from counterhoop.store.plain_folder.read import read_folder
from counterhoop.store.plain_folder.write import write_folder

Share = Callable[[float], None]


def unwatched(_share: float) -> None:
    """Tell nobody how far it is."""


LEFT_OVER_AFTER = dt.timedelta(days=1)
BACKUP = "counterhoop backup {day}.zip"


def write_backup(shop: Workshop, *, to: Path, progress: Share = unwatched) -> Backup:
    """Write one archive of everything: the database, the files, a hash of each.

    Parameters
    ----------
    to : Path
        The archive's name, or a folder for one named after the day.
    progress : callable
        Called with the share done, 0 to 1.
    """
    when = shop.now()
    path = to / BACKUP.format(day=f"{when:%Y-%m-%d %H.%M.%S}") if to.is_dir() else to
    return back_up(shop.store, to=path, made_at=when, progress=progress)


def look_over_store(shop: Workshop, *, progress: Share = unwatched) -> Verdict:
    """Hash everything anew and say what is missing, changed, or left over."""
    return verify(shop.store, progress=progress)


def put_leftovers_away(shop: Workshop) -> tuple[Path, ...]:
    """Move what belongs to nothing into a folder of its own, and return where it lies now.

    What is younger than a day stays: it may be about to be enclosed.
    """
    return put_away_orphans(shop.store, older_than=shop.now() - LEFT_OVER_AFTER)


def restore_backup(archive: Path, *, store: str = "", data: Path | None = None) -> Path:
    """Put an archive's store where there is none yet, and return its folder."""
    where = address_of(store, data=data)
    restore(archive, to=where)
    return where.folder


def write_plain_folder(shop: Workshop, *, to: Path) -> None:
    """Write everything as plain files that any program reads."""
    write_folder(shop.store, to=to, made_at=shop.now())


def read_plain_folder(shop: Workshop, *, folder: Path) -> None:
    """Fill an empty store from such a folder."""
    read_folder(shop.store, folder)
