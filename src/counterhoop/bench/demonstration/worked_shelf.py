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
    """Put its pieces on the shelf and return how many were not in sight before.

    One that was put away comes back; one that is there, or whose number another piece has, stays
    what it is: pressed twice, nothing is there twice.
    """
    from counterhoop.store.shelf.by_number import pieces_by_number
    from counterhoop.store.shelf.put import put_new_pieces
    from counterhoop.store.shelf.put_away import bring_back_piece

    stamp = shop.stamp(by)
    with shop.store.writing() as connection:
        there = pieces_by_number(connection, [one.number for one in demo_pieces()])
        back = [one for one in there.values() if one.hidden and _is_demo(one.piece)]
        for one in back:
            bring_back_piece(connection, one.piece.id, stamp=stamp)
        new = [one for one in demo_pieces() if one.number not in there]
        return len(back) + put_new_pieces(connection, new, stamp=stamp)


def demo_in_sight(shop: Workshop) -> int:
    """Return how many pieces of it are in sight."""
    from counterhoop.store.shelf.by_number import pieces_by_number
    from counterhoop.store.shelf.mark import shelf_mark

    with shop.store.reading() as connection:

        def counted() -> int:
            there = pieces_by_number(connection, [one.number for one in demo_pieces()])
            return sum(_is_demo(one.piece) and not one.hidden for one in there.values())

        found: int = shop.remembered.get(("the worked shelf", shelf_mark(connection)), counted)
    return found


def put_demo_away(shop: Workshop, *, by: str) -> tuple[Piece, ...]:
    """Put all its pieces out of sight, and return those that stay: they are promised to a job.

    A piece of one's own stays, also one that has got a number of these.
    """
    from counterhoop.store.shelf.by_number import pieces_by_number
    from counterhoop.store.shelf.put_away import hide_piece

    stamp, stay = shop.stamp(by), []
    with shop.store.writing() as connection:
        there = pieces_by_number(connection, [one.number for one in demo_pieces()])
        for one in there.values():
            if not _is_demo(one.piece) or one.hidden:
                continue
            if one.free < one.on_shelf:
                stay.append(one.piece)
            else:
                hide_piece(connection, one.piece.id, stamp=stamp)
    return tuple(stay)


def _is_demo(piece: Piece) -> bool:
    return piece.lot.startswith(LOT)
