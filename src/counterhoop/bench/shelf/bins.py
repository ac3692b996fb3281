"""The bins of the shelf, and what lies in each."""

from __future__ import annotations

from collections.abc import Mapping

from counterhoop.bench.workshop import Workshop
from counterhoop.store.shelf.bins import bins, pieces_in_bin
from counterhoop.store.shelf.look_up import Kept
from counterhoop.store.shelf.mark import shelf_mark
from counterhoop.store.shelf.newest import how_many_pieces

MOST_IN_BIN = 500
MOST_GONE_THROUGH = 200_000
"""Going through so many for their bins takes the better part of a second."""
_BINS = "the bins"


def bins_of(shop: Workshop) -> Mapping[str, int]:
    """Return how many pieces are written for each bin; read anew only when the shelf changed.

    None are listed of a shelf of more than `MOST_GONE_THROUGH` pieces.
    """
    with shop.store.reading() as connection:
        if how_many_pieces(connection) > MOST_GONE_THROUGH:
            return {}
        mark = shelf_mark(connection)
        known = shop.remembered.find(_BINS)
        if known is None or known[0] != mark:
            known = (mark, bins(connection))
            shop.remembered.keep(_BINS, known)
    found: Mapping[str, int] = known[1]
    return found


def bin_of(shop: Workshop, name: str) -> tuple[Kept, ...]:
    """Return the pieces of a bin, at most `MOST_IN_BIN`, in the order in which they came."""
    with shop.store.reading() as connection:
        return pieces_in_bin(connection, name, limit=MOST_IN_BIN)
