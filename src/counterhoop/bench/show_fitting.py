"""Show an entry of the fittings book, or list them."""

from __future__ import annotations

from itertools import groupby
from pathlib import Path

from counterhoop.bench.open_job import read_bytes
from counterhoop.fittings.book import Book
from counterhoop.fittings.read_book import packaged_book, read_book
from counterhoop.fittings.show import describe
from counterhoop.shell.survey_file.gate import survey_bytes


def show_fitting(name: str, *, book_path: Path | None = None) -> str:
    """Return what the book says of a fitting, a list of near names, or the whole list.

    Raises
    ------
    BadInput
        When no entry's name holds the word.
    """
    book = packaged_book()
    if book_path is not None:
        content = read_bytes(book_path, what="fittings book")
        book = book.merged(
            read_book(survey_bytes(content, name=book_path.name), name=book_path.name)
        )
    words = name.strip().casefold()
    if not words:
        return _list(book)
    like = Book(tuple(entry for entry in book if words in entry.name.casefold()))
    exact = any(entry.name.casefold() == words for entry in like)
    if len(like.entries) > 1 and not exact:
        return _list(like)
    entry = like.entries[0] if len(like.entries) == 1 else book.find(name, where="fitting")
    lines = [entry.name]
    lines += [f"  {label}: {value}" for label, value in describe(entry)]
    return "\n".join(lines)


def _list(book: Book) -> str:
    entries = sorted(book, key=lambda entry: (entry.kind, entry.name))
    lines = []
    for kind, group in groupby(entries, key=lambda entry: entry.kind):
        lines.append(f"{kind}:")
        lines += [f"  {entry.name}" for entry in group]
    return "\n".join(lines)
