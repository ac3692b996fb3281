"""The pieces on the shelf that are certain entries of the fittings book, and how each moved."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from counterhoop.parts.movement import Movement
from counterhoop.parts.stock import Stock, stock
from counterhoop.store.shelf.by_fitting import pieces_by_fitting
from counterhoop.store.shelf.look_up import Kept
from counterhoop.store.shelf.move import movements_of
from counterhoop.store.store import Connection

SCHEME: Final = "scheme"
"""Why a piece was set aside, or put back: the drum's scheme asked for it, not a person."""


@dataclass(frozen=True, kw_only=True)
class Lying:
    """A piece, and everything that ever moved of it."""

    kept: Kept
    moved: tuple[Movement, ...]

    @cached_property
    def stock(self) -> Stock:
        """How many there are, and for whom."""
        return stock(self.moved, owner=self.kept.piece.owner)

    def used_for(self, key: str) -> int:
        """Return how many were used for this key already."""
        return sum(one.count for one in self.moved if one.kind == "used" and one.job == key)

    def by_scheme(self, key: str) -> int:
        """Return how many of those set aside for this key a scheme asked for.

        What a person puts back is taken from what people set aside first; what is used, sold or
        scrapped from what the scheme asked for.
        """
        scheme = hand = 0
        for one in self.moved:
            if one.job != key:
                continue
            if one.kind == "set aside":
                scheme, hand = (
                    (scheme + one.count, hand) if one.why == SCHEME else (scheme, hand + one.count)
                )
            elif one.kind == "put back" and one.why != SCHEME:
                first = min(one.count, hand)
                scheme, hand = scheme - (one.count - first), hand - first
            elif one.kind in ("put back", "used", "sold", "scrapped", "given back"):
                first = min(one.count, scheme)
                scheme, hand = scheme - first, max(0, hand - (one.count - first))
        return scheme


def lying(connection: Connection, kept: Kept) -> Lying:
    """Return a piece with its movements."""
    return Lying(kept=kept, moved=movements_of(connection, kept.piece.id))


def pieces_that_are(
    connection: Connection, names: Iterable[str], *, client: str
) -> Mapping[str, tuple[Lying, ...]]:
    """Return the pieces of certain entries of the book that may be offered to a client's job.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.reading`` or ``Store.writing``.
    names : iterable of str
        Of the entries.
    client : str
        Whose job it is; empty for the shop's own. Other clients' pieces are left out.

    Returns
    -------
    mapping of str to tuple of Lying
        By ``name_key`` of the entry, in the order in which they came; entries of which the shelf
        never had any are not in it. Pieces of which none is left are.
    """
    found = pieces_by_fitting(connection, names, client=client)
    return {key: tuple(lying(connection, one) for one in pieces) for key, pieces in found.items()}
