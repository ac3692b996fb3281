"""Put the rows of a sheet on the shelf in one go; say when it begins, and when all are in.

Run as a program: import_until_killed.py DATA ADDRESS ROWS TURN. A quarter of the rows change what
is there, a quarter count it, the others are new.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from shelf_samples import moved
from store_samples import stamp

from counterhoop.parts.dimension import Dimension, Measured
from counterhoop.parts.movement import Movement
from counterhoop.parts.piece import Piece
from counterhoop.store.address import address_of
from counterhoop.store.shelf.put_rows import put_rows
from counterhoop.store.store import open_store


def a_piece(place: int, *, turn: int) -> Piece:
    holes = Measured(dimension=Dimension.HOLES_APART, value=30.0 + place % 40, doubt=0.1)
    return Piece(
        id=f"{turn}-{place}", number=f"{turn}-{place}", says=f"lug, lot {place % 97}",
        measured=(holes,),
    )  # fmt: skip


def changes(count: int, *, turn: int) -> Iterator[tuple[Piece, int]]:
    """Yield the pieces of the first turn, written over once more."""
    for place in range(count):
        yield replace(a_piece(place, turn=0), says=f"lug, turn {turn}"), turn


def counts(count: int, *, turn: int) -> Iterator[Movement]:
    for place in range(count):
        yield moved(f"0-{place}", "counted", turn + 1, corrects=f"turn {turn}")


def main(data: str, address: str, rows: str, turn: str) -> None:
    quarter, at = int(rows) // 4, int(turn)
    with open_store(address_of(address, data=Path(data))) as store:
        print("ready", flush=True)
        with store.writing() as w:
            put_rows(
                w,
                (a_piece(place, turn=at) for place in range(2 * quarter)),
                changes(quarter, turn=at) if at else (),
                counts(quarter, turn=at) if at else (),
                stamp=stamp(at),
            )
        print("in", flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
