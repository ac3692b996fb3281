"""An open workshop: its store, its clock, and who works for it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from counterhoop.bench.chores import Chores
from counterhoop.bench.long_work.works import Works, open_works
from counterhoop.bench.remembered import Remembered
from counterhoop.store.address import Address, address_of
from counterhoop.store.stamp import Stamp
from counterhoop.store.store import Store, open_store

MOST_REMEMBERED = 2000
"""What each job of many years shows on the first page, and room for those written in since."""


def utc_now() -> dt.datetime:
    """Return the time of day, with its zone."""
    return dt.datetime.now(dt.UTC)


@dataclass(frozen=True, slots=True, kw_only=True)
class Workshop:
    """What every page and command works with.

    Attributes
    ----------
    store : Store
        Open for as long as the workshop is.
    works : Works
        Who makes plans and papers, beside the pages.
    now : callable
        The time of day.
    chores : Chores
        What takes a while and needs the open store: backups, looking it over.
    remembered : Remembered
        What was read of this store, by the mark that it had then: another mark is read anew.
    """

    store: Store
    works: Works
    now: Callable[[], dt.datetime] = field(default=utc_now)
    chores: Chores = field(default_factory=Chores)
    remembered: Remembered = field(default_factory=lambda: Remembered(most=MOST_REMEMBERED))

    def stamp(self, by: str) -> Stamp:
        """Return time and bench for a save made now."""
        return Stamp(when=self.now(), bench=by)


@contextmanager
def open_workshop(
    *, store: str = "", data: Path | None = None, works: Works | None = None
) -> Iterator[Workshop]:
    """Open the store and keep a worker ready until the block is left.

    Parameters
    ----------
    store : str
        Address of a shared database; empty for a file in the data folder.
    data : Path, optional
        The data folder; the user's own where none is named.
    works : Works, optional
        Who makes plans and papers; a process of its own where none is given.

    Raises
    ------
    CannotDo
        When the store is newer, damaged, or out of reach.
    """
    where: Address = address_of(store, data=data)
    with open_store(where) as opened:
        own = works or open_works()
        workshop = Workshop(store=opened, works=own)
        try:
            yield workshop
        finally:
            workshop.chores.close()
            if works is None:
                own.close()
