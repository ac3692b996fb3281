"""The invented shelf that comes with the worked job: read, put up once, put away again."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import Final

from counterhoop.bench.workshop import Workshop
from counterhoop.parts.piece import Piece

SHELF_FILE: Final = "shelf.csv"
LOT: Final = "worked job"
"""Every piece of it came with a lot of this name, or one that begins with it."""


def demo_rows() -> bytes:
    """Return the shelf as the rows that a workshop would take in."""
    return files("counterhoop.bench").joinpath("demonstration", SHELF_FILE).read_bytes()


@cache
def demo_pieces() -> tuple[Piece, ...]:
    """Return its pieces, read as a user's own sheet is; the store gives them their keys."""
    from counterhoop.parts.rows.dry_run import dry_run
    from counterhoop.parts.rows.mapping import map_columns
    from counterhoop.parts.rows.open_sheet import open_sheet
    from counterhoop.parts.rows.shelf_layout import piece_of, shelf_layout

    layout = shelf_layout()
    sheet = open_sheet(demo_rows(), where=SHELF_FILE)
    run = dry_run(sheet, map_columns(sheet.header, layout), layout, kept=lambda _key: None)
    return tuple(piece_of(row.values, id="") for row in run.new)


def put_demo_shelf(shop: Workshop, *, by: str) -> int:
    """Put its pieces on the shelf and return how many came new.

    A number that is taken stays what it is: pressed twice, nothing is there twice.
    """
    from counterhoop.store.shelf.numbers import is_number_taken
    from counterhoop.store.shelf.put import put_new_pieces

    stamp = shop.stamp(by)
    with shop.store.writing() as connection:
        new = [one for one in demo_pieces() if not is_number_taken(connection, one.number)]
        return put_new_pieces(connection, new, stamp=stamp)
