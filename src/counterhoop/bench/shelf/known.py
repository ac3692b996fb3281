"""The shelf as it is held against a part in hand, remembered until something on it changes.

Of a very large shelf only the newest pieces are held: `left_out` says how many are not.
"""

from __future__ import annotations

from typing import Final

from counterhoop.bench.folders.folder import drawer
from counterhoop.bench.folders.own_book import own_book
from counterhoop.bench.workshop import Workshop
from counterhoop.fittings.book import Book
from counterhoop.parts.unknown.candidate import Candidates, candidates_of
from counterhoop.store.shelf.look_up import Kept
from counterhoop.store.shelf.mark import shelf_mark
from counterhoop.store.shelf.newest import how_many_pieces, newest_pieces

MOST_KNOWN: Final = 50_000
"""So many pieces take about a quarter of a gigabyte; older ones of a larger shelf are found by the
search, which asks the store."""
_PIECES, _ALL, _WITHOUT = "the shelf's pieces", "what it may be", "what it may be, without one"


def known_pieces(shop: Workshop) -> tuple[Kept, ...]:
    """Return the pieces in sight, the newest `MOST_KNOWN` of them, in the order they came."""
    then, before = shop.remembered.find(_PIECES) or (None, ())
    with shop.store.reading() as connection:
        mark = shelf_mark(connection)
        if mark == then:
            same: tuple[Kept, ...] = before
            return same
        found = newest_pieces(connection, most=MOST_KNOWN, before=before)
    shop.remembered.keep(_PIECES, (mark, found))
    return found


def left_out(shop: Workshop) -> int:
    """Return how many pieces are too many to be held."""
    with shop.store.reading() as connection:
        return max(0, how_many_pieces(connection) - MOST_KNOWN)


def candidates_for(shop: Workshop, *, without: str = "") -> Candidates:
    """Return what a part in hand may be: the workshop's book and the pieces on its shelf.

    Parameters
    ----------
    shop : Workshop
        Its own entries lie over the packaged book.
    without : str
        The key of a piece that is asked about, and is no answer to itself.
    """
    pieces, own = known_pieces(shop), own_book(drawer(shop))
    made_from = (own.text, without, hash(tuple((one.piece.id, one.head) for one in pieces)))
    place = _WITHOUT if without else _ALL
    kept = shop.remembered.find(place)
    if kept is not None and kept[0] == made_from:
        candidates: Candidates = kept[1]
        return candidates
    book: Book = own.book
    made = candidates_of(book, (one.piece for one in pieces if one.piece.id != without))
    shop.remembered.keep(place, (made_from, made))
    return made
