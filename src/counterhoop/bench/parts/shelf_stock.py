"""What the shelf has of the parts that a job's schemes may ask for: its stock for the planner.

A part that is kept on the shelf is counted there: what is written of its stock, for the workshop or
for a job, counts no longer, for the shelf knows what is promised to whom.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any, Final

from counterhoop.bench.folders.folder import Kept, KeptJob
from counterhoop.bench.folders.kinds import BOOK, JOB, SURVEY, WISH
from counterhoop.bench.folders.own_book import own_book
from counterhoop.bench.shelf.whose import client_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book, name_key
from counterhoop.fittings.entry import Kind
from counterhoop.fittings.read_book import read_book
from counterhoop.store.body import Json
from counterhoop.store.shelf.by_fitting import free_by_fitting, used_in
from counterhoop.store.shelf.mark import shelf_mark
from counterhoop.store.shelf.move import set_aside_in

STOCK: Final = "stock"
CHOSEN_BY_ITSELF: Final = (Kind.LONG_LUG, Kind.HOOP, Kind.ROD, Kind.T_ROD)
"""Kinds of which the planner takes an entry that nobody named."""
MOST = 100_000


def shelf_stock(shop: Workshop, job: KeptJob, *, held: Mapping[str, Kept]) -> Mapping[str, int]:
    """Return how many of each part the shelf has for a job, by the entry's name.

    Counted are only the parts that a scheme of this job may ask for, so that a movement of any
    other piece plans nothing anew; and what is free, set aside for this job or used for it, so
    that neither taking a scheme nor fitting its parts changes what was planned.

    Parameters
    ----------
    held : mapping of str to Kept
        What the workshop's drawer holds.
    """
    with shop.store.reading() as connection:
        mark = shelf_mark(connection)
        versions = (
            job.kept(JOB).number,
            tuple((one.id, one.kept(SURVEY).number, one.kept(WISH).number) for one in job.drums),
            held.get(BOOK, Kept()).number,
            tuple(job.books.items()),
        )

        def counted() -> dict[str, int]:
            named, client = _may_be_asked_for(job, held), client_of(job)
            lie = shop.remembered.get(
                ("free on the shelf", mark), lambda: free_by_fitting(connection)
            )
            its: Counter[str] = Counter(used_in(connection, job.id))
            for one in set_aside_in(connection, job.id):
                its[name_key(one.kept.piece.fitting)] += one.count
            for owner in {"", client}:
                its.update({key: lie[key, owner] for key in named if (key, owner) in lie})
            return {name: min(MOST, its[key]) for key, name in sorted(named.items()) if key in its}

        found: dict[str, int] = shop.remembered.get(
            ("shelf stock", mark, job.id, versions), counted
        )
    return found


def with_shelf(written: Any, on_shelf: Mapping[str, int]) -> Any:
    """Return a table of stock with what the shelf has in place of what is written of it.

    Parameters
    ----------
    written : Any
        The table as job and workshop have it; what is no table is handed on.
    on_shelf : mapping of str to int
        From ``shelf_stock``.

    Examples
    --------
    >>> with_shelf({"Rod 50": 4, "hoop": 1}, {"rod 50": 9})
    {'hoop': 1, 'rod 50': 9}
    """
    if not isinstance(written, dict):
        return written
    keys = {name_key(name) for name in on_shelf}
    return {name: n for name, n in written.items() if name_key(name) not in keys} | {**on_shelf}


def _may_be_asked_for(job: KeptJob, held: Mapping[str, Kept]) -> dict[str, str]:
    """Return the entries' names by their keys."""
    try:
        book = book_of(job, held)
    except BadInput:
        # The planner says what is wrong with it.
        return {}
    texts = {
        name_key(text)
        for drum in job.drums
        for kind in (SURVEY, WISH)
        for text in _texts(drum.kept(kind).body)
    }
    return {
        key: entry.name
        for entry in book
        if (key := name_key(entry.name)) in texts or entry.kind in CHOSEN_BY_ITSELF
    }


def book_of(job: KeptJob, held: Mapping[str, Kept]) -> Book:
    """Return the book that a job is planned by.

    Raises
    ------
    BadInput
        When a book that came with the job cannot be read.
    """
    book = own_book(held).book
    for name, text in job.books.items():
        book = book.merged(read_book(text, name=name))
    return book


def _texts(body: Json) -> Iterator[str]:
    if isinstance(body, str):
        yield body
    elif isinstance(body, dict):
        for value in body.values():
            yield from _texts(value)
    elif isinstance(body, list):
        for value in body:
            yield from _texts(value)
