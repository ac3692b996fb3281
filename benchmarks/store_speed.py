"""Speed of what the pages ask of a store after years: 300 jobs, 1,500 drums, 20,000 revisions."""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from _timing import Table, timed

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "store"))

from large_store import fill_large_store
from sqlalchemy import Connection
from store_samples import saved, stamp

from counterhoop.store.address import address_of
from counterhoop.store.copies.verify import verify
from counterhoop.store.drum_tab import tabs_by_job
from counterhoop.store.enclosures.enclose import enclosures_of
from counterhoop.store.hide import hidden_things
from counterhoop.store.job_folder import job_folders
from counterhoop.store.newest import folder_documents, newest_bodies
from counterhoop.store.revision import find_document, history_of, newest
from counterhoop.store.save import save
from counterhoop.store.store import Store, open_store

TIMES = 40
LIMIT_S = 0.010


def searched(connection: Connection, word: str) -> list[str]:
    """Return the folders with a word in their title."""
    found = job_folders(connection)
    return [one.id for one in found if word.casefold() in one.title.casefold()]


def reads(store: Store, names: tuple[str, ...]) -> dict[str, Callable[[Connection], object]]:
    """Return what is asked, by what it is called in the table."""
    with store.reading() as r:
        longest = find_document(r, job_id=names[0], kind="survey", name="0000")
        assert longest is not None
        versions = len(history_of(r, longest.id))
    open_ones = names[-25:]
    on_the_bench = ("choice", "approval", "ticks")
    return {
        "the list of folders": job_folders,
        "search of a title": lambda r: searched(r, "hallmere band 2"),
        "all that one folder says": lambda r: folder_documents(r, names[7]),
        "the workshop's own documents": lambda r: folder_documents(r, None),
        f"history of a document, {versions} versions": lambda r: history_of(r, longest.id),
        "one survey, newest version": lambda r: newest(r, longest),
        "the tabs of all folders": tabs_by_job,
        "what is hidden": hidden_things,
        "photographs of one folder": lambda r: enclosures_of(r, job_id=names[7]),
        "one small document of every folder": lambda r: newest_bodies(r, kinds=("handover",)),
        "the job's tables of every folder": lambda r: newest_bodies(r, kinds=("job",)),
        "choices, yeses and ticks of 25 folders": lambda r: newest_bodies(
            r, kinds=on_the_bench, job_ids=open_ones
        ),
    }


def read_once(store: Store, ask: Callable[[Connection], object]) -> Callable[[], object]:
    """Return the reading of one thing, as a page does it."""

    def read() -> object:
        with store.reading() as connection:
            return ask(connection)

    return read


def save_once(store: Store, job_id: str) -> Callable[[], object]:
    """Return the saving of one more version of a note."""
    number = 0

    def write() -> object:
        nonlocal number
        with store.writing() as w:
            done = save(
                w, job_id=job_id, kind="notes", body={"says": number}, based_on=number,
                stamp=stamp(number),
            )  # fmt: skip
        number = saved(done).number
        return number

    return write


def main() -> None:
    """Print the table."""
    table = Table("A store after years: 300 jobs, 1,500 drums, 20,000 revisions, SQLite")
    with (
        tempfile.TemporaryDirectory() as folder,
        open_store(address_of(data=Path(folder))) as store,
    ):
        began = time.perf_counter()
        names = fill_large_store(store)
        print(f"(filled in {time.perf_counter() - began:.1f} s)")
        for what, ask in reads(store, names).items():
            read = read_once(store, ask)
            read()
            table.row(what, timed(read, times=TIMES), limit_s=LIMIT_S)
        table.row("save one version", timed(save_once(store, names[7]), times=TIMES), limit_s=0.05)
        table.row("look all of it over", timed(lambda: verify(store), times=3), limit_s=5.0)
    table.close()


if __name__ == "__main__":
    main()
