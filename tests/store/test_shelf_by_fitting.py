"""Pieces by the book's entry that they are. Truth: a look at every piece; by hand."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from store_samples import stamp

from counterhoop.fittings.book import name_key
from counterhoop.parts.movement import Movement
from counterhoop.parts.piece import Piece
from counterhoop.store.shelf.by_fitting import free_by_fitting, pieces_by_fitting, used_in
from counterhoop.store.shelf.look_up import all_pieces
from counterhoop.store.shelf.move import move
from counterhoop.store.shelf.put import put_new_pieces
from counterhoop.store.shelf.put_away import hide_piece
from counterhoop.store.store import Store

NAMES = (
    "Corvane round lug", "corvane  ROUND lug", "Corvane round lug 2", "rod 12-24 x 42 mm",
    "100 % brass_lug", 'odd "quoted" lug', "Schlüsselhülse groß", "back\\slash lug", "",
    "SCHLÜSSELHÜLSE groß", "drum" + "\U0001f941" * 196,
)  # fmt: skip


def piece(number, fitting, **more):
    return Piece(id=f"p{number}", number=str(number), fitting=fitting, **more)


def by_a_look_at_all(store, names, client):
    """Return the same as ``pieces_by_fitting``, the slow way."""
    with store.reading() as r:
        every = [one for one in all_pieces(r) if one.piece.may_serve(client)]
    wanted = {name_key(name) for name in names}
    found: dict[str, list[str]] = {}
    for one in every:
        key = name_key(one.piece.fitting)
        if one.piece.fitting and key in wanted:
            found.setdefault(key, []).append(one.piece.id)
    return found


def test_they_are_found_as_a_look_at_every_piece_finds_them(store: Store) -> None:
    owners = ("", "A. Hale", "B. Rowe")
    pieces = [
        piece(n, NAMES[n % len(NAMES)], count=1 + n % 3, owner=owners[n // len(NAMES) % 3])
        for n in range(6 * len(NAMES))
    ]
    with store.writing() as w:
        put_new_pieces(w, pieces, stamp=stamp())
        hide_piece(w, "p0", stamp=stamp())
    for client in ("", "A. Hale", "nobody"):
        with store.reading() as r:
            found = pieces_by_fitting(r, [*NAMES, "no such part"], client=client)
        slow = by_a_look_at_all(store, NAMES, client)
        assert {key: [one.piece.id for one in its] for key, its in found.items()} == slow
        assert "p0" not in {one.piece.id for its in found.values() for one in its}
    with store.reading() as r:
        free = free_by_fitting(r)
        counted: dict[tuple[str, str], int] = {}
        for one in all_pieces(r):
            if one.piece.fitting:
                key = (name_key(one.piece.fitting), one.piece.owner)
                counted[key] = counted.get(key, 0) + one.free
    assert free == counted


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=25)
@given(name=st.text(st.characters(categories=("L", "N", "P", "S", "Zs")), min_size=1, max_size=30))
def test_whatever_an_entry_is_called_it_is_counted(file_store: Store, name: str) -> None:
    """Law: one piece more of any name is one more of it, and of no other."""
    if not name.strip():
        return
    with file_store.reading() as r:
        before = free_by_fitting(r)
    with file_store.writing() as w:
        put_new_pieces(w, [Piece(id="", number="", fitting=name, says=name)], stamp=stamp())
    with file_store.reading() as r:
        after = free_by_fitting(r)
    key = (name_key(name), "")
    assert after == {**before, key: before.get(key, 0) + 1}


def test_what_was_used_for_a_job_and_its_drums_is_added_up(store: Store) -> None:
    lug, rod = piece(1, "lug", count=9), piece(2, "rod", count=9)
    on = dt.datetime(2026, 11, 2, 9, 30, tzinfo=dt.UTC)
    with store.writing() as w:
        put_new_pieces(w, [lug, rod], stamp=stamp())
        for its, count, job in (
            (lug, 2, "j1/d1"), (lug, 1, "j1"), (lug, 1, "j2"), (rod, 3, "j1/d2"),
            (rod, 1, "j10/d1"),
        ):  # fmt: skip
            given_ = Movement(
                piece_id=its.id, kind="used", count=count, on=on, job=job, bench="bench"
            )
            move(w, given_)
    with store.reading() as r:
        assert used_in(r, "j1") == {"lug": 3, "rod": 3}
        assert used_in(r, "j9") == {}


@pytest.mark.parametrize("name", ["", "%", "_", "   "])
def test_a_name_without_words_finds_nothing(file_store: Store, name: str) -> None:
    with file_store.writing() as w:
        put_new_pieces(w, [piece(1, "Corvane round lug")], stamp=stamp())
    with file_store.reading() as r:
        assert pieces_by_fitting(r, [name], client="") == {}
