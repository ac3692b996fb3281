"""What the shelf takes from the workshop's own drawer: its fittings book and its currency."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import BOOK, RULES
from counterhoop.bench.folders.own_book import own_book
from counterhoop.bench.folders.own_figures import open_with
from counterhoop.bench.workshop import Workshop
from counterhoop.fittings.book import Book


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkshopsOwn:
    """The book with the workshop's own entries over it, and what its prices are in (ISO 4217)."""

    book: Book
    currency: str


def workshops_own(shop: Workshop) -> WorkshopsOwn:
    """Return book and currency; read anew only when the drawer says something else."""
    lies = drawer(shop)
    written = tuple((kind, lies.get(kind, Kept()).number) for kind in (BOOK, RULES))

    def made() -> WorkshopsOwn:
        return WorkshopsOwn(book=own_book(lies).book, currency=open_with(lies).job.figures.currency)

    found: WorkshopsOwn = shop.remembered.get(("workshop's own", written), made)
    return found
