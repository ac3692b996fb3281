"""Pieces put in, changed, moved: nothing is lost, nothing goes twice, on either database."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from shelf_samples import (
    HOLES,
    SHELF,
    changed,
    fill_shelf,
    holds_the_shelf,
    holds_what_was_put_away,
    kept,
    moved,
    put_some_away,
    shelf_rows,
)
from sqlalchemy import delete, update
from store_samples import START, files_of, fill, stamp

from counterhoop.errors import BadInput
from counterhoop.parts.dimension import Measured
from counterhoop.parts.piece import Piece
from counterhoop.store.address import Address
from counterhoop.store.copies.backup import back_up
from counterhoop.store.copies.restore import restore
from counterhoop.store.copies.verify import verify
from counterhoop.store.plain_folder.read import read_folder
from counterhoop.store.plain_folder.write import write_folder
from counterhoop.store.shelf.look_up import history_of_piece, piece_by_id, piece_by_number
from counterhoop.store.shelf.move import move, movements_of, set_aside_for
from counterhoop.store.shelf.put import PieceConflict, put_new_pieces, put_piece
from counterhoop.store.store import Store, open_store
from counterhoop.store.tables import METADATA

Addresses = Callable[[str], Address]
TOO_LONG = Measured(dimension=HOLES, value=2e9, doubt=0.1)


def test_what_was_put_in_comes_back(store: Store) -> None:
    fill_shelf(store)
    holds_the_shelf(store, there=True)
    assert verify(store).sound
    with store.reading() as r:
        by_number = piece_by_number(r, "7")
        assert by_number is not None
        assert by_number.piece == SHELF[0]
        assert piece_by_number(r, "") is None
        assert piece_by_number(r, "77") is None
        (promised,) = set_aside_for(r, "hall-1")
        assert (promised.kept.piece.id, promised.count) == ("lug-a", 2)
        assert set_aside_for(r, "") == ()


def test_the_second_of_two_writers_is_shown_both(store: Store) -> None:
    fill_shelf(store)
    mine, theirs = changed(SHELF[0], bin="D 1"), changed(SHELF[0], bin="E 9")
    with store.writing() as w:
        first = kept(put_piece(w, theirs, based_on=1, stamp=stamp(40, "laptop")))
        assert (first.head, first.piece, first.bench) == (2, theirs, "laptop")
    with store.writing() as w:
        told = put_piece(w, mine, based_on=1, stamp=stamp(41, "phone"))
        assert told == PieceConflict(mine=mine, theirs=first)
        # The answer to the first was lost on its way: it is not doubled.
        again = put_piece(w, theirs, based_on=1, stamp=stamp(42, "laptop"))
        assert again == first
        assert kept(put_piece(w, mine, based_on=2, stamp=stamp(43, "phone"))).head == 3
        assert [one.piece.bin for one in history_of_piece(w, "lug-a")] == ["C 4", "E 9", "D 1"]
    assert verify(store).sound


def test_a_new_piece_gets_a_key_and_is_not_doubled(store: Store) -> None:
    new = changed(SHELF[0], id="", number="70")
    with store.writing() as w:
        first = kept(put_piece(w, new, based_on=0, stamp=stamp()))
        assert first.piece == changed(new, id=first.piece.id)
        assert kept(put_piece(w, first.piece, based_on=0, stamp=stamp())) == first
        assert len(movements_of(w, first.piece.id)) == 1


@pytest.mark.parametrize(
    ("given", "based_on", "says"),
    [
        (changed(SHELF[2], number="7"), 1, "number: this number is another piece's"),
        (changed(SHELF[0], id="", count=1), 0, "number: this number is another piece's"),
        (changed(SHELF[0], count=7), 1, "how many came is not written over"),
        (changed(SHELF[0], owner="A. Dunmarrow"), 1, "whose it is is not written over"),
        (changed(SHELF[0], id="nobody", number=""), 1, "no such piece"),
        (changed(SHELF[0], bin="two\nlines"), 1, "bin: a sign that cannot be printed"),
        (changed(SHELF[0], lot="x" * 201), 1, "lot: too long"),
        (changed(SHELF[0], says="x" * 2001), 1, "too long"),
        (changed(SHELF[0], measured=SHELF[0].measured * 30), 1, "more readings than"),
        (changed(SHELF[0], id="", number="", count=10**10), 0, "more than a shelf holds"),
        (changed(SHELF[0], measured=(TOO_LONG,)), 1, "no part measures that"),
    ],
)
def test_what_cannot_be_kept_is_said(
    file_store: Store, given: Piece, based_on: int, says: str
) -> None:
    fill_shelf(file_store)
    before = shelf_rows(file_store)
    with pytest.raises(BadInput, match=says) as told, file_store.writing() as w:
        put_piece(w, given, based_on=based_on, stamp=stamp())
    assert "\n" not in str(told.value)
    assert shelf_rows(file_store) == before


def test_many_come_in_whole_or_not_at_all(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("counterhoop.store.shelf.put.AT_ONCE", 20)
    fill_shelf(store)
    before = shelf_rows(store)
    many = [Piece(id="", number=f"n{place}") for place in range(45)]
    done: list[int] = []

    def stop(count: int) -> None:
        done.append(count)
        if count == 40:
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError), store.writing() as w:
        put_new_pieces(w, many, stamp=stamp(), progress=stop)
    assert done == [20, 40]
    with pytest.raises(BadInput, match="another piece's: found 'n0', wanted one that nobody has"):
        put_in(store, [*many, changed(many[0])])
    with pytest.raises(BadInput, match="found 'a', wanted one that stands there once"):
        put_in(store, [Piece(id="", number="a"), Piece(id="", number="a")])
    assert shelf_rows(store) == before
    assert put_in(store, many) == 45


def put_in(store: Store, pieces: list[Piece]) -> int:
    with store.writing() as w:
        return put_new_pieces(w, pieces, stamp=stamp())


def test_what_is_not_there_does_not_go(store: Store) -> None:
    fill_shelf(store)
    before = shelf_rows(store)
    for given, says in (
        (moved("lug-a", "used", 4, job="other"), "only 3 free"),
        (moved("lug-a", "put back", 3, job="hall-1"), "only 2 set aside"),
        (moved("lug-a", "counted", 1, corrects="x"), "fewer than are promised"),
        (moved("lug-b", "sold", 1), "this piece is A. Dunmarrow's"),
        (moved("nobody", "sold", 1), "no such piece"),
        (moved("lug-a", "sold", 1, why="\x00"), "cannot be kept"),
        (moved("lug-a", "came in", 10**10), "more than a shelf holds"),
    ):
        with pytest.raises(BadInput, match=says), store.writing() as w:
            move(w, given)
    assert shelf_rows(store) == before


def test_a_form_that_is_sent_twice_moves_once(store: Store) -> None:
    fill_shelf(store)
    for _ in range(2):
        with store.writing() as w:
            there = move(w, moved("screw", "sold", 30), mark="form 2")
            assert (there.on_shelf, there.free) == (7, 7)
    with store.reading() as r:
        assert piece_by_id(r, "screw").free == 7


def test_a_shelf_comes_back_from_a_backup(
    store: Store, new_address: Addresses, tmp_path: Path
) -> None:
    """Exact law: every row is what it was, also from PostgreSQL by way of an SQLite file."""
    fill_shelf(store)
    put_some_away(store)
    back_up(store, to=tmp_path / "drums.zip", made_at=START)
    to = new_address("again")
    restore(tmp_path / "drums.zip", to=to)
    with open_store(to) as again:
        assert shelf_rows(again) == shelf_rows(store)
        holds_what_was_put_away(again)
        assert verify(again).sound
        # And it goes on from there.
        assert put_in(again, [Piece(id="", number="9", says="lug, brand new")]) == 1
        assert verify(again).sound


def test_a_shelf_is_made_of_the_folder_again(
    store: Store, new_address: Addresses, tmp_path: Path
) -> None:
    """Exact law: the same rows, and the same folder again, byte for byte."""
    fill(store)
    fill_shelf(store)
    put_some_away(store)
    write_folder(store, to=tmp_path / "drums", made_at=START)
    with open_store(new_address("again")) as again:
        read_folder(again, tmp_path / "drums")
        assert shelf_rows(again) == shelf_rows(store)
        holds_what_was_put_away(again)
        assert verify(again).sound
        write_folder(again, to=tmp_path / "twice", made_at=START)
    assert files_of(tmp_path / "twice") == files_of(tmp_path / "drums")


DAMAGE = [
    ("piece", {"body": '{"number":"7"}'}, "piece 7 is not what was written"),
    ("piece", {"body": "[]"}, "can no longer be read"),
    ("piece", {"number": "70"}, "is kept under another number"),
    ("piece", {"head": 3}, "has 0 of the 2 things that it said before"),
    ("piece_before", {"body": "{}"}, "is not what was written"),
    ("piece_before", None, "has 0 of the 2 things"),
    ("piece_stock", {"free": 0}, "has another stock than its movements come to"),
    ("piece_stock", None, "has another stock"),
    ("piece_stock", {"hidden": 1}, "piece 7 is out of sight and found"),
    ("movement", {"count": 1}, "has another stock"),
    ("movement", None, "has another stock"),
    ("piece_measure", {"value_nm": 1}, "is found by other measurements"),
    ("piece_measure", None, "is found by other measurements"),
    ("piece_word", None, 'the word "lug" leads to 0 pieces'),
    ("word", {"word": "xyz"}, 'the word "xyz" leads to'),
]


@pytest.mark.parametrize(("name", "values", "says"), DAMAGE)
def test_a_damaged_shelf_is_seen(
    file_store: Store, name: str, values: dict[str, object] | None, says: str
) -> None:
    fill_shelf(file_store)
    table = METADATA.tables[name]
    with file_store.writing() as w:
        if values is None:
            w.execute(delete(table))
        else:
            one = table.c.id if name == "word" else table.c.entry
            first = 2 if name == "piece_before" else 1
            w.execute(update(table).where(one == first).values(**values))
    faults = verify(file_store).faults
    assert any(says in fault for fault in faults), faults
