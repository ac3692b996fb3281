"""Sheets of rows, worked on beside the pages: opened, tried, and the shelf written as one.

The store is opened anew here, and only read.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from counterhoop.bench.evidence.own_reference import own_reference
from counterhoop.bench.long_work.answers import Answer
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.rows.opened import Opened, opened
from counterhoop.bench.rows.row_sorts import row_sort
from counterhoop.bench.rows.rows_out import rows_out
from counterhoop.bench.rows.try_rows import try_rows
from counterhoop.bench.rows.waiting import Reading, Waiting, read_waiting
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.store.address import Address
from counterhoop.store.shelf.mark import shelf_mark
from counterhoop.store.store import open_store

Progress = Callable[[str, float], None]
LINE = "rows"


def ask_opened(shop: Workshop, one: Waiting) -> Answer[Opened]:
    """Open a file that waits, far enough to choose what its columns are."""
    arguments = (str(one.file), one.name, one.reading)
    return shop.works.ask(Asked(line=LINE, task=open_rows, source=_no_job(), arguments=arguments))


def ask_tried(shop: Workshop, one: Waiting) -> Answer[None]:
    """Try a file that waits; what comes of it lies beside it: see ``last_try``."""
    where = shop.store.address
    arguments = (where.database, str(where.folder), str(one.folder), one.tries)
    return shop.works.ask(Asked(line=LINE, task=try_waiting, source=_no_job(), arguments=arguments))


def ask_rows_out(shop: Workshop, sort: str, *, form: str, find: str, units: str) -> Answer[Paper]:
    """Write rows as a sheet; asked again while nothing was changed, it is the same sheet."""
    if sort == "shelf":
        with shop.store.reading() as connection:
            mark = repr(shelf_mark(connection))
    else:
        mark = repr(own_reference(shop).kept.number)
    where = shop.store.address
    arguments = (where.database, str(where.folder), sort, form, find, units, mark)
    return shop.works.ask(
        Asked(line=LINE, task=write_rows_out, source=_no_job(), arguments=arguments)
    )


# --- done in a process of its own --------------------------------------------------------------


def open_rows(
    _source: JobSource, file: str, name: str, reading: Reading, *, planned: bytes | None,
    progress: Progress,
) -> Opened:  # fmt: skip
    """Open a file and look at its first rows."""
    progress(f"{name} is being opened", 0.0)
    return opened(Path(file).read_bytes(), name="the file", reading=reading)


def try_waiting(
    _source: JobSource, database: str, folder: str, lies: str, tries: int, *,
    planned: bytes | None, progress: Progress,
) -> None:  # fmt: skip
    """Try a file that waits."""
    one = read_waiting(Path(lies))
    if one is None or one.tries != tries:
        raise CannotDo("This file was put aside, or is read in another way by now.")
    sort = row_sort(one.sort)
    with _workshop(database, folder) as shop, shop.store.reading() as connection:
        trying = sort.trying(shop, connection, one)
        try_rows(
            one, sort.layout(), trying,
            progress=lambda share: progress(f"the rows of {one.name} are being tried", share),
        )  # fmt: skip


def write_rows_out(
    _source: JobSource, database: str, folder: str, sort: str, form: str, find: str, units: str,
    _mark: str, *, planned: bytes | None, progress: Progress,
) -> Paper:  # fmt: skip
    """Write rows as a sheet."""
    with _workshop(database, folder) as shop:
        return rows_out(
            shop, sort, form=form, find=find, units="in" if units == "in" else "mm",
            progress=lambda share: progress("the sheet is being written", share),
        )  # fmt: skip


def _no_job() -> JobSource:
    return JobSource(tables_json=b"")


@contextmanager
def _workshop(database: str, folder: str) -> Iterator[Workshop]:
    from counterhoop.bench.long_work.at_once import WorksAtOnce

    with open_store(Address(database=database, folder=Path(folder))) as store:
        yield Workshop(store=store, works=WorksAtOnce())
