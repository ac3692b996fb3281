"""What a sheet of rows asks of the shelf: many pieces by the numbers on their bags, at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sqlalchemy import Connection, select

from counterhoop.parts.dimension import Dimension
from counterhoop.store.shelf.dimension_numbers import DIMENSIONS
from counterhoop.store.shelf.look_up import HAS_NUMBER, Kept, kept_in_row, kept_rows
from counterhoop.store.tables import piece, piece_measure, piece_stock

_AT_ONCE = 500


def numbers_on_bags(connection: Connection) -> Iterator[tuple[str, bool]]:
    """Yield the number of each piece that has one, and whether the piece is out of sight."""
    asked = (
        select(piece.c.number, piece_stock.c.hidden)
        .join(piece_stock, piece_stock.c.entry == piece.c.entry)
        .where(HAS_NUMBER)
    )
    for number, hidden in connection.execute(asked, execution_options={"yield_per": 5000}):
        yield number, bool(hidden)


def pieces_by_number(connection: Connection, numbers: Sequence[str]) -> dict[str, Kept]:
    """Return the pieces with these numbers, those out of sight included."""
    found: dict[str, Kept] = {}
    for first in range(0, len(numbers), _AT_ONCE):
        asked = numbers[first : first + _AT_ONCE]
        its = kept_rows().where(piece.c.number.in_(asked), HAS_NUMBER)
        for row in connection.execute(its):
            kept = kept_in_row(row)
            found[kept.piece.number] = kept
    return found


def dimensions_in_use(connection: Connection) -> frozenset[Dimension]:
    """Return the dimensions that were measured on some piece."""
    numbers = connection.execute(select(piece_measure.c.dimension).distinct()).scalars()
    return frozenset(DIMENSIONS[number] for number in numbers if number in DIMENSIONS)
