"""What fits a place, with the pieces on the shelf that it is: those first."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from counterhoop.bench.shelf.known import known_pieces
from counterhoop.bench.shelf.of_fittings import pieces_that_are
from counterhoop.bench.workshop import Workshop
from counterhoop.fittings.book import name_key
from counterhoop.store.shelf.look_up import Kept

if TYPE_CHECKING:
    from counterhoop.parts.piece import Piece
    from counterhoop.parts.places.serves import Serves

MOST_MEASURED: Final = 200
"""Pieces that were only measured, the newest: more would make a person wait."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """A fitting held against a place, and what the shelf has of it.

    ``lies`` are the pieces of which one is free.
    """

    serves: Serves
    lies: tuple[Kept, ...] = ()


def measured_pieces(shop: Workshop, *, client: str) -> tuple[Piece, ...]:
    """Return the pieces that were only measured and may be offered to a client, newest first."""
    found = [
        one.piece
        for one in reversed(known_pieces(shop))
        if one.free and one.piece.number and not one.piece.fitting and one.piece.measured
        and one.piece.may_serve(client)
    ]  # fmt: skip
    return tuple(found[:MOST_MEASURED])


def offered(
    shop: Workshop, serves: Sequence[Serves], *, client: str, measured: Iterable[Piece]
) -> tuple[Offered, ...]:
    """Return what serves with its pieces: in the order given, what lies on the shelf first.

    Parameters
    ----------
    serves : sequence of Serves
        All of one standing: as they are, or after a change.
    measured : iterable of Piece
        That were held against the place too.
    """
    ids = {f"number {one.number}": one.id for one in measured}
    by_id = {one.piece.id: one for one in known_pieces(shop)} if ids else {}
    names = [one.fitting.name for one in serves if one.fitting.name not in ids]
    with shop.store.reading() as connection:
        lie = pieces_that_are(connection, names, client=client)
        found = []
        for one in serves:
            name = one.fitting.name
            if name in ids:
                lies = [by_id[ids[name]]] if ids[name] in by_id else []
            else:
                lies = [each.kept for each in lie.get(name_key(name), ())]
            found.append(Offered(serves=one, lies=tuple(each for each in lies if each.free)))
    return tuple(sorted(found, key=lambda one: not one.lies))
