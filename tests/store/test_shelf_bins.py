"""Bins and the numbers on bags, on both databases.

Truth: a plain look at every piece (brute force), and what was put there (worked by hand).
"""

from __future__ import annotations

from collections import Counter

import pytest
from shelf_samples import fill_shelf
from store_samples import stamp

from counterhoop.parts.piece import Piece
from counterhoop.store.shelf.bins import bins, pieces_in_bin
from counterhoop.store.shelf.look_up import all_pieces
from counterhoop.store.shelf.numbers import is_number_taken, last_number_like, newest_number
from counterhoop.store.shelf.put import put_new_pieces
from counterhoop.store.shelf.put_away import hide_piece
from counterhoop.store.store import Store

ODD = ("B 7", "B/7", "7 B", "--", 'the "long" rail', "Kästchen 3", 'a \\ "bin":"B 7"', "%", "")


def put(store: Store, *pieces: Piece) -> None:
    with store.writing() as w:
        put_new_pieces(w, pieces, stamp=stamp())


def test_every_bin_is_counted_and_holds_what_is_written_for_it(store: Store) -> None:
    fill_shelf(store)  # One of its pieces says signs that no text of PostgreSQL can hold.
    put(store, *(
        Piece(id=f"p{n}-{k}", number="", says=f'it says "bin":"{name}"', bin=name)
        for n, name in enumerate(ODD) for k in range(n + 1)
    ))  # fmt: skip
    with store.writing() as w:
        hide_piece(w, "p0-0", stamp=stamp())
    with store.reading() as r:
        every = [one.piece for one in all_pieces(r)]
        counted = Counter(one.bin for one in every if one.bin)
        assert bins(r) == counted
        assert "B 7" not in counted
        assert set(counted) == {"C 4", *ODD[1:-1]}
        for name in (*ODD[:-1], "C 4", "none", "B", "' OR 1=1"):
            found = [one.piece.id for one in pieces_in_bin(r, name, limit=99)]
            assert found == [one.id for one in every if one.bin == name], name
        assert len(pieces_in_bin(r, "%", limit=2)) == 2


@pytest.mark.parametrize(
    ("front", "digits", "last"), [("", 4, "0107"), ("L-", 3, "412"), ("L-", 4, ""), ("X", 2, "")]
)
def test_the_last_number_of_a_kind(store: Store, front: str, digits: int, last: str) -> None:
    numbers = ("0041", "0107", "L-412", "L-41", "L-9x9", "1000000", "0106", "")
    put(store, *(Piece(id=f"p{n}", number=number) for n, number in enumerate(numbers)))
    with store.reading() as r:
        assert last_number_like(r, front, digits=digits) == last
        assert newest_number(r) == "0106"


def test_a_number_stays_taken_when_its_piece_is_put_away(store: Store) -> None:
    with store.reading() as r:
        assert newest_number(r) == ""
    put(store, Piece(id="p", number="0041"))
    with store.writing() as w:
        hide_piece(w, "p", stamp=stamp())
    with store.reading() as r:
        assert is_number_taken(r, "0041")
        assert not is_number_taken(r, "0042")
