"""The fittings book: entries by name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Fitting, Kind


@dataclass(frozen=True, slots=True)
class Book:
    """All entries a job may name."""

    entries: tuple[Fitting, ...]

    def __iter__(self) -> Iterator[Fitting]:
        return iter(self.entries)

    def find(self, name: str, *, where: str = "") -> Fitting:
        """Return the entry of that name, upper and lower case alike.

        Raises
        ------
        BadInput
            When there is none; says the nearest spelling.
        """
        wanted = name.strip().casefold()
        for entry in self.entries:
            if entry.name.casefold() == wanted:
                return entry
        raise BadInput("no such fitting in the book", where=where, given=name)

    def of_kind(self, *kinds: Kind) -> tuple[Fitting, ...]:
        """Return the entries of these kinds, in the book's order."""
        return tuple(entry for entry in self.entries if entry.kind in kinds)

    def merged(self, other: Book) -> Book:
        """Return this book with the other's entries over it, by name."""
        over = {entry.name.casefold(): entry for entry in other.entries}
        kept = tuple(over.pop(e.name.casefold(), e) for e in self.entries)
        return Book((*kept, *over.values()))
