"""A small shelf for the tests, with something of everything, and what a search of it must find."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Any

from store_samples import START, photograph, rows_of, stamp

from counterhoop.parts.dimension import Dimension, Measured, read_measured
from counterhoop.parts.movement import Movement, MovementKind
from counterhoop.parts.piece import Piece
from counterhoop.store.enclosures.keep import keep_file, place_of
from counterhoop.store.enclosures.picture import preview
from counterhoop.store.hide import Thing, hidden_things, hide
from counterhoop.store.shelf.look_up import Kept, all_pieces, history_of_piece
from counterhoop.store.shelf.move import move, movements_of
from counterhoop.store.shelf.photographs import enclose_for_piece, photographs_of_piece
from counterhoop.store.shelf.put import put_new_pieces, put_piece
from counterhoop.store.shelf.put_away import bring_back_piece, hide_piece
from counterhoop.store.shelf.words import words_in, words_of
from counterhoop.store.store import Store

HOLES, PITCH, REACH, COUNT = (
    *(Dimension.HOLES_APART, Dimension.PITCH, Dimension.REACH),
    Dimension.HOLE_COUNT,
)


def read(dimension: Dimension, text: str, *, instrument: str = "") -> Measured:
    return read_measured(dimension, text, instrument=instrument)


SHELF = (
    Piece(
        id="lug-a", number="7", kind="lug", says="Single-ended LUGS off a tom", count=6,
        measured=(
            read(HOLES, "1 5/8 in", instrument="rule"), read(HOLES, "41.3 mm"),
            read(PITCH, "24 tpi"), read(COUNT, "2"),
        ),
        plating="nickel", finish="polished", condition=("one ear bent", "pitted\nunder the base"),
        bin="C 4", lot="Hallmere loft", lot_share=0.25, price_minor=1250, currency="EUR",
        came_on=dt.date(2026, 3, 2), fitting="Corvane round lug", matched_set=True,
    ),
    Piece(
        id="lug-b", number="8", kind="lug", says="single-ended lug, ½ in deep", count=1,
        measured=(read(HOLES, "42.1 mm"),), plating="chromé", owner="A. Dunmarrow",
    ),
    Piece(id="screw", number="", kind="screw", says="odd \udc80 \x00 signs", count=40),
    Piece(
        id="rod", number="X-1", kind="rod", says="rods", count=0,
        measured=(read(PITCH, "24 tpi"), read(Dimension.LENGTH, "60 mm")),
    ),
)  # fmt: skip


def moved(
    piece_id: str, kind: MovementKind, count: int, *, minutes: int = 0, **more: str
) -> Movement:
    on = START + dt.timedelta(minutes=minutes)
    return Movement(piece_id=piece_id, kind=kind, count=count, on=on, bench="phone", **more)


def fill_shelf(store: Store) -> None:
    """Put the pieces in, change one twice, and move some."""
    with store.writing() as w:
        put_new_pieces(w, SHELF, stamp=stamp(20))
        for turn, says in enumerate(("double-ended lug", "double-ended lug, after all"), 1):
            kept(put_piece(w, changed(SHELF[1], says=says), based_on=turn, stamp=stamp(20 + turn)))
        move(w, moved("lug-a", "set aside", 2, job="hall-1", minutes=1), mark="form 1")
        move(w, moved("lug-a", "counted", 5, corrects="6 written, 5 there", minutes=2))
        move(w, moved("screw", "used", 3, job="hall-1", why="=1+1", minutes=3))
        move(w, moved("lug-b", "given back", 1, client="A. Dunmarrow", minutes=4))


def put_some_away(store: Store) -> tuple[str, str]:
    """Photograph two pieces, put one of them away, and return the photographs' names."""
    picture = keep_file(store, [photograph(shade=70)])
    with store.writing() as w:
        names = [
            enclose_for_piece(
                w, piece_id=one, file=picture, name_given=f"{one}.jpg", stamp=stamp(30)
            )
            for one in ("lug-a", "lug-b")
        ]
        hide(w, thing=Thing.PHOTOGRAPH, thing_id=names[0], stamp=stamp(31))
        hide_piece(w, "lug-b", stamp=stamp(32))
        hide_piece(w, "rod", stamp=stamp(33))
        bring_back_piece(w, "rod", stamp=stamp(34, "laptop"))
    return names[0], names[1]


def holds_what_was_put_away(store: Store) -> None:
    """Hold a store against what ``put_some_away`` did."""
    with store.reading() as r:
        assert [one.piece.id for one in all_pieces(r)] == ["lug-a", "screw", "rod"]
        assert photographs_of_piece(r, "lug-a") == ()
        (one,) = photographs_of_piece(r, "lug-a", with_hidden=True)
        (other,) = photographs_of_piece(r, "lug-b")
        (away,) = hidden_things(r, thing=Thing.PIECE)
    assert (one.name_given, one.hidden, one.added_at) == ("lug-a.jpg", True, stamp(30).when)
    assert (other.name_given, other.hidden, other.file.position_removed) == (
        "lug-b.jpg", False, True,
    )  # fmt: skip
    assert (away.thing_id, away.hidden_at) == ("lug-b", stamp(32).when)
    content = place_of(store.address.files, one.file.sha256).read_bytes()
    assert preview(content, longest_px=16).startswith(b"\xff\xd8")


def holds_the_shelf(store: Store, *, there: bool) -> None:
    """Hold a store against what ``fill_shelf`` did."""
    with store.reading() as r:
        found = [*all_pieces(r, with_hidden=True)]
        if not there:
            assert found == []
            return
        last = changed(SHELF[1], says="double-ended lug, after all")
        assert [one.piece for one in found] == [SHELF[0], last, *SHELF[2:]]
        assert [(one.on_shelf, one.free) for one in found] == [(5, 3), (0, 0), (37, 37), (0, 0)]
        said = history_of_piece(r, "lug-b")
        assert [one.piece.says for one in said] == [
            "single-ended lug, ½ in deep", "double-ended lug", "double-ended lug, after all",
        ]  # fmt: skip
        assert [one.made_at for one in said] == [stamp(20 + turn).when for turn in range(3)]
        assert [one.kind for one in movements_of(r, "lug-a")] == ["came in", "set aside", "counted"]
        assert movements_of(r, "screw")[1] == moved(
            "screw", "used", 3, job="hall-1", why="=1+1", minutes=3
        )


def kept(outcome: Any) -> Kept:
    assert isinstance(outcome, Kept), outcome
    return outcome


def changed(piece: Piece, **more: Any) -> Piece:
    from dataclasses import replace

    return replace(piece, **more)


def shelf_rows(store: Store) -> dict[str, list[tuple[Any, ...]]]:
    """Return every row but how often was written; words by what they say, not by their numbers."""
    rows = rows_of(store)
    del rows["shelf_turn"]
    named = dict(rows.pop("word"))
    rows["piece_word"] = sorted((named[number], entry) for number, entry in rows["piece_word"])
    return rows


def scan(
    pieces: Sequence[Kept], *, words: Sequence[str], measures: Sequence[Measured],
    client: str | None, only_free: bool, with_hidden: bool, limit: int,
) -> list[tuple[str, int, int]]:  # fmt: skip
    """Find by looking at every piece: its key, how many measurements fit, how far off they are."""
    ranked = []
    for place, one in enumerate(pieces):
        if client is not None and one.piece.owner not in ("", client):
            continue
        if (only_free and one.free == 0) or (one.hidden and not with_hidden):
            continue
        if not set(words_in(" ".join(words))) <= set(words_of(one.piece)):
            continue
        fits = off = 0
        ruled_out = False
        for asked in measures:
            best = one.piece.best(asked.dimension)
            if best is None:
                continue
            apart, room = (
                abs(round(best.value * 10**6) - round(asked.value * 10**6)),
                round(best.doubt * 10**6) + round(asked.doubt * 10**6),
            )
            ruled_out |= apart > room
            fits += 1
            off += 1000 * apart // (room + 1)
        if ruled_out or (measures and not words and not fits):
            continue
        ranked.append((-fits, off, -place, one.piece.id))
    return [(piece_id, -fits, off) for fits, off, _, piece_id in sorted(ranked)[:limit]]
