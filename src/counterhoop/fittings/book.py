"""The fittings book: entries by name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.quantities.nearest import did_you_mean


@dataclass(frozen=True, slots=True)
class Book:
    """All entries a job may name."""

    entries: tuple[Fitting, ...]

    def __iter__(self) -> Iterator[Fitting]:
        return iter(self.entries)

    def __len__(self) -> int:
        return len(self.entries)

    def find(self, name: str, *, where: str = "") -> Fitting:
        """Return the entry of that name; capitals and the width of spaces do not matter.

        Raises
        ------
        BadInput
            When there is none; says the nearest spelling.
        """
        wanted = name_key(name)
        for entry in self.entries:
            if name_key(entry.name) == wanted:
                return entry
        raise BadInput(
            "no such fitting in the book",
            where=where,
            given=name,
            wanted="the name of an entry",
            step=did_you_mean(" ".join(name.split()), (entry.name for entry in self.entries)),
        )

    def of_kind(self, *kinds: Kind) -> tuple[Fitting, ...]:
        """Return the entries of these kinds, in the book's order."""
        return tuple(entry for entry in self.entries if entry.kind in kinds)

    def merged(self, other: Book) -> Book:
        """Return this book with the other's entries over it, by name."""
        over = {name_key(entry.name): entry for entry in other.entries}
        kept = tuple(over.pop(name_key(entry.name), entry) for entry in self.entries)
        return Book((*kept, *over.values()))


def name_key(name: str) -> str:
    """Return what two spellings of one name have in common.

    Examples
    --------
    >>> name_key("Rod  12-24 x 42 MM")
    'rod 12-24 x 42 mm'
    """
    return " ".join(name.split()).casefold()
