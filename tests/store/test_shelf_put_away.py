"""Pieces out of sight: not found, not moved, not lost; and the mark that tells of every write."""

from __future__ import annotations

import pytest
from shelf_samples import (
    SHELF,
    changed,
    fill_shelf,
    holds_what_was_put_away,
    kept,
    moved,
    put_some_away,
    shelf_rows,
)
from store_samples import sound, stamp

from counterhoop.errors import BadInput
from counterhoop.parts.piece import Piece
from counterhoop.store.copies.verify import verify
from counterhoop.store.enclosures.keep import keep_file
from counterhoop.store.hide import Thing, bring_back, hidden_things
from counterhoop.store.shelf.find import find
from counterhoop.store.shelf.look_up import piece_by_number
from counterhoop.store.shelf.mark import shelf_mark
from counterhoop.store.shelf.move import move, set_aside_for, set_aside_in
from counterhoop.store.shelf.newest import how_many_pieces, newest_pieces
from counterhoop.store.shelf.photographs import enclose_for_piece, photographs_of_piece
from counterhoop.store.shelf.put import put_piece
from counterhoop.store.shelf.put_away import bring_back_piece, hide_piece
from counterhoop.store.store import Store


def test_what_is_put_away_is_not_found_and_does_not_move(store: Store) -> None:
    fill_shelf(store)
    _, photograph = put_some_away(store)
    holds_what_was_put_away(store)
    assert verify(store).sound
    with store.reading() as r:
        assert [one.kept.piece.id for one in find(r, words=["lug"])] == ["lug-a"]
        both = find(r, words=["lug"], with_hidden=True)
        assert [(one.kept.piece.id, one.kept.hidden) for one in both] == [
            ("lug-b", True), ("lug-a", False),
        ]  # fmt: skip
        assert [one.piece.id for one in newest_pieces(r, most=9)] == ["lug-a", "screw", "rod"]
        assert how_many_pieces(r) == 3
        by_number = piece_by_number(r, "8")
        assert by_number is not None
        assert by_number.hidden
    # Its number stays taken, and what is written on it can still be put right.
    with pytest.raises(BadInput, match="another piece's"), store.writing() as w:
        put_piece(w, Piece(id="", number="8"), based_on=0, stamp=stamp(50))
    with store.writing() as w:
        last = changed(by_number.piece, bin="Z 1")
        assert kept(put_piece(w, last, based_on=3, stamp=stamp(51))).hidden
    before = shelf_rows(store)
    with pytest.raises(BadInput, match="this piece is put away") as told, store.writing() as w:
        move(w, moved("lug-b", "came in", 1))
    assert "Bring it back first" in str(told.value)
    assert shelf_rows(store) == before
    with store.writing() as w:
        bring_back_piece(w, "lug-b", stamp=stamp(52))
        assert move(w, moved("lug-b", "came in", 1)).free == 1
        assert [one.kept.piece.id for one in find(w, words=["lug"])] == ["lug-b", "lug-a"]
        assert hidden_things(w, thing=Thing.PIECE) == ()
        bring_back(w, thing=Thing.PHOTOGRAPH, thing_id=photograph, stamp=stamp(53))
        (shown,) = photographs_of_piece(w, "lug-b")
        assert shown.piece_id == "lug-b"
    assert verify(store).sound


def test_what_is_promised_is_not_put_away(store: Store) -> None:
    fill_shelf(store)
    before = shelf_rows(store)
    with pytest.raises(BadInput, match="promised to a job: found 2"), store.writing() as w:
        hide_piece(w, "lug-a", stamp=stamp())
    with pytest.raises(BadInput, match="no such piece"), store.writing() as w:
        hide_piece(w, "nobody", stamp=stamp())
    with pytest.raises(BadInput, match="no such piece"), store.writing() as w:
        bring_back_piece(w, "nobody", stamp=stamp())
    assert shelf_rows(store) == before


def test_what_is_set_aside_in_a_job_is_of_it_and_of_its_drums(store: Store) -> None:
    """Hand-worked; the other jobs' names begin so, or are patterns where a search has such."""
    fill_shelf(store)
    keys = ("j", "j/tom", "j/bass", "j2", "j2/tom", "j0", "J/tom", "%", "%/tom", "j.", "_/tom")
    with store.writing() as w:
        for key in keys:
            move(w, moved("screw", "set aside", 1, job=key))
        move(w, moved("lug-a", "set aside", 2, job="j/tom"))
        move(w, moved("screw", "put back", 1, job="j/bass"))

    with store.reading() as r:

        def said(job_id: str) -> list[tuple[str, str, int]]:
            return [(one.kept.piece.id, one.job, one.count) for one in set_aside_in(r, job_id)]

        assert said("j") == [("lug-a", "j/tom", 2), ("screw", "j", 1), ("screw", "j/tom", 1)]
        assert said("%") == [("screw", "%", 1), ("screw", "%/tom", 1)]
        assert said("_") == [("screw", "_/tom", 1)]
        assert said("") == []
        assert [one.job for one in set_aside_for(r, "j/tom")] == ["j/tom", "j/tom"]


def test_a_mark_tells_of_every_write(store: Store) -> None:
    marks = []

    def look() -> None:
        with store.reading() as r:
            marks.append(shelf_mark(r))

    look()
    fill_shelf(store)
    look()
    with store.writing() as w:
        put_piece(w, changed(SHELF[2], bin="A 1"), based_on=1, stamp=stamp())
    look()
    with store.writing() as w:
        move(w, moved("screw", "sold", 1))
    look()
    with store.writing() as w:
        hide_piece(w, "screw", stamp=stamp())
    look()
    with store.writing() as w:
        bring_back_piece(w, "screw", stamp=stamp())
    look()
    assert len(set(marks)) == len(marks)
    # Nothing was written: nothing is told.
    with pytest.raises(BadInput), store.writing() as w:
        move(w, moved("screw", "sold", 99))
    look()
    assert marks[-1] == marks[-2]


def test_a_piece_has_photographs_and_no_sounds(file_store: Store) -> None:
    fill_shelf(file_store)
    tap = keep_file(file_store, [sound()])
    with pytest.raises(BadInput, match="no photograph"), file_store.writing() as w:
        enclose_for_piece(w, piece_id="screw", file=tap, name_given="tap.wav", stamp=stamp())
    assert photographs(file_store, "screw") == photographs(file_store, "nobody") == 0


def test_looking_over_tells_how_far_it_is_and_can_be_stopped(
    file_store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Hand-worked: four pieces, two at a time, are as much work as the one file."""
    monkeypatch.setattr("counterhoop.store.shelf.look_over.AT_ONCE", 2)
    monkeypatch.setattr("counterhoop.store.copies.verify.PIECES_A_FILE", 4)
    fill_shelf(file_store)
    put_some_away(file_store)
    told: list[float] = []
    assert verify(file_store, progress=told.append).sound
    assert told == [0.0, 0.25, 0.5]

    def stop(share: float) -> None:
        if share == told[1]:
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        verify(file_store, progress=stop)


def photographs(store: Store, piece_id: str) -> int:
    with store.reading() as r:
        return len(photographs_of_piece(r, piece_id, with_hidden=True))
