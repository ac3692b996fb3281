"""Copies of everything in the data folder: backups to carry away, and plain folders."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from pathlib import Path

from counterhoop.bench.chores import Outcome, Share
from counterhoop.bench.keep_safe import look_over_store, write_backup, write_plain_folder
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput

BACKUPS, PLAIN = "backups", "plain"
MOST_SAID = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """One backup.

    Attributes
    ----------
    name : str
        Of the archive.
    size_bytes : int
    made_at : datetime
        When it was done.
    """

    name: str
    size_bytes: int
    made_at: dt.datetime

    @property
    def size_says(self) -> str:
        """How large it is.

        Examples
        --------
        >>> Copy(name="", size_bytes=1_234_567, made_at=dt.datetime.min).size_says
        '1.2 MB'
        """
        return size_words(self.size_bytes)


def size_words(size_bytes: int) -> str:
    """Return a size as one speaks of it.

    Examples
    --------
    >>> size_words(900), size_words(640_000), size_words(2_500_000_000)
    ('1 kB', '640 kB', '2.5 GB')
    """
    for unit, one in (("GB", 1e9), ("MB", 1e6)):
        if size_bytes >= one:
            return f"{size_bytes / one:.1f} {unit}"
    return f"{max(1, round(size_bytes / 1e3))} kB"


def copies(shop: Workshop) -> tuple[Copy, ...]:
    """Return the backups in the data folder, the newest first."""
    folder = shop.store.address.folder / BACKUPS
    files = folder.glob("*.zip") if folder.is_dir() else ()
    found = [(one, one.stat()) for one in files if not one.name.startswith(".")]
    made = [
        Copy(
            name=one.name, size_bytes=stat.st_size,
            made_at=dt.datetime.fromtimestamp(stat.st_mtime, dt.UTC),
        )
        for one, stat in found
    ]  # fmt: skip
    return tuple(sorted(made, key=lambda one: (one.made_at, one.name), reverse=True))


def copy_file(shop: Workshop, name: str) -> Path:
    """Return the file of a backup.

    Raises
    ------
    BadInput
        When there is none of that name; no name leads out of the folder.
    """
    if name not in {one.name for one in copies(shop)}:
        raise BadInput("no such backup", where="backup", given=name)
    return shop.store.address.folder / BACKUPS / name


def plain_folders(shop: Workshop) -> tuple[Path, ...]:
    """Return the plain folders in the data folder, the newest first."""
    folder = shop.store.address.folder / PLAIN
    found = [one for one in folder.iterdir() if one.is_dir()] if folder.is_dir() else []
    return tuple(sorted((one for one in found if not one.name.startswith(".")), reverse=True))


# --- chores ------------------------------------------------------------------------------------


def make_copy(shop: Workshop, share: Share) -> Outcome:
    """Write a backup into the data folder."""
    folder = shop.store.address.folder / BACKUPS
    folder.mkdir(exist_ok=True)
    made = write_backup(shop, to=folder, progress=share)
    photographs = {0: "no photograph or sound is kept yet", 1: "one photograph or sound"}.get(
        made.files, f"{made.files} photographs and sounds"
    )
    holds = photographs if not made.files else f"it holds {photographs}"
    says = [f"The backup is made: {made.archive.name}; {holds}."]
    lost = len(made.missing) + len(made.changed)
    if lost:
        says.append(
            f"{lost} {'file is' if lost == 1 else 'files are'} missing from the store or no longer"
            " what was kept; the backup holds the rest. Look the store over."
        )
    return Outcome(says=tuple(says), sound=not lost)


def look_over(shop: Workshop, share: Share) -> Outcome:
    """Hash everything anew, and say in words what came of it."""
    found = look_over_store(shop, progress=share)
    counted = f"{found.revisions} saved versions and {found.files} photographs and sounds were read"
    left = (
        (f"{len(found.leftovers)} files belong to nothing; they do no harm.",)
        if found.leftovers
        else ()
    )
    if found.sound:
        return Outcome(
            says=(
                "Everything that was saved is there, and is what was saved.",
                f"{counted}.",
                *left,
            )
        )
    more = len(found.faults) - MOST_SAID
    return Outcome(
        says=(
            "Something is damaged. Stop writing here: restore the last backup into a new folder"
            " and compare.",
            f"{counted}.",
            *(f"{line[:1].upper()}{line[1:]}." for line in found.faults[:MOST_SAID]),
            *((f"And {more} more.",) if more > 0 else ()),
            *left,
        ),
        sound=False,
    )


def write_plain(shop: Workshop, _share: Share) -> Outcome:
    """Write everything as plain files into the data folder."""
    folder = shop.store.address.folder / PLAIN
    folder.mkdir(exist_ok=True)
    to = folder / f"{shop.now().astimezone():%Y-%m-%d %H.%M.%S}"
    write_plain_folder(shop, to=to)
    return Outcome(says=(f"Everything lies as plain files in {to}.",))
