"""The fittings book: entries by name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.quantities.nearest import did_you_mean


@dataclass(frozen=True, slots=True)
class Book:
    """All entries a job may name.

    Attributes
    ----------
    entries : tuple of Fitting
        In the book's order.
    without : tuple of str
        Names that it takes out of the books beneath it.
    """

    entries: tuple[Fitting, ...]
    without: tuple[str, ...] = ()

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
        if wanted in map(name_key, self.without):
            raise BadInput(
                "your own book takes this one out",
                where=where,
                given=name,
                step="Put its entry in your fittings book right, or choose another fitting",
            )
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
        """Return this book with the other's entries over it, by name, and without what it says.

        Examples
        --------
        >>> from counterhoop.fittings.read_book import packaged_book
        >>> book = packaged_book()
        >>> len(book) - len(book.merged(Book((), without=("Rod M6 x 42 mm",))))
        1
        """
        over = {name_key(entry.name): entry for entry in other.entries}
        gone = set(map(name_key, other.without)) - set(over)
        kept = tuple(
            over.pop(name_key(entry.name), entry)
            for entry in self.entries
            if name_key(entry.name) not in gone
        )
        return Book((*kept, *over.values()), without=(*self.without, *other.without))


def name_key(name: str) -> str:
    """Return what two spellings of one name have in common.

    Examples
    --------
    >>> name_key("Rod  12-24 x 42 MM")
    'rod 12-24 x 42 mm'
    """
    return " ".join(name.split()).casefold()
