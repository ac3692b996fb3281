"""What a part in hand is, with a workshop behind it. Truth: worked by hand from what is kept."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from counterhoop.bench.folders.write_own_book import write_entry
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.shelf import known
from counterhoop.bench.shelf.cards import card_of, move_piece, write_piece
from counterhoop.bench.shelf.known import candidates_for, known_pieces, left_out
from counterhoop.bench.shelf.unknown import FIRST, it_is, what_is_it
from counterhoop.bench.workshop import Workshop, open_workshop
from counterhoop.errors import BadInput
from counterhoop.fittings.read_book import packaged_book
from counterhoop.parts.dimension import Dimension, Measured, read_measured
from counterhoop.parts.piece import Piece
from counterhoop.parts.unknown.odds import Seen
from counterhoop.store.shelf.look_up import Kept
from counterhoop.store.shelf.put import PieceConflict, put_new_pieces
from counterhoop.store.shelf.put_away import bring_back_piece, hide_piece

BY = "window bench"
APART, HIGH, OUT = Dimension.HOLES_APART, Dimension.BASE_HIGH, Dimension.REACH
ODD = (read_measured(APART, "47.5 mm"), read_measured(HIGH, "71 mm"), read_measured(OUT, "9 mm"))
OWN = {
    "name": "Quennick pin lug", "kind": "lug", "source": "measured, caliper, two of them",
    "base": {"shape": "rounded", "width": "22 mm", "height": "71 mm", "corner": "11 mm"},
    "holes": [{"down": "-23.75 mm", "hole": "6 mm", "screw": "4.8 mm"},
              {"down": "23.75 mm", "hole": "6 mm", "screw": "4.8 mm"}],
    "reach": "9 mm", "mouth": "-28 mm", "rod_line": "6 mm", "free_depth": "28 mm",
    "thread": "12-24",
}  # fmt: skip


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Workshop]:
    with open_workshop(data=tmp_path / "data", works=WorksAtOnce()) as opened:
        yield opened


def put(shop: Workshop, **fields: object) -> Kept:
    kept = write_piece(shop, None, fields, based_on=0, by=BY)
    assert not isinstance(kept, PieceConflict)
    return kept


def test_what_is_in_no_book_is_known_again_once_its_like_lies_on_the_shelf(shop: Workshop) -> None:
    before = what_is_it(shop, ODD, seen=Seen(kind="lug"))
    assert before.odds.nothing_fits
    assert (before.fitting, before.offered) == (None, ())
    kept = put(shop, number="0001", kind="lug", says="flat lug, blue box", measured=ODD)
    after = what_is_it(shop, ODD, seen=Seen(kind="lug"))
    assert after.odds.says == "It is almost surely flat lug, blue box."
    assert after.leader is not None
    assert after.leader.candidate.piece_id == kept.piece.id
    # Asked about itself, a piece is no answer.
    itself = what_is_it(shop, ODD, seen=Seen(kind="lug"), without=kept.piece.id)
    assert itself.odds.nothing_fits


def test_an_entry_of_ones_own_answers_and_is_drawn(shop: Workshop) -> None:
    assert what_is_it(shop, ODD, seen=Seen(kind="lug")).odds.nothing_fits
    write_entry(shop, None, dict(OWN), based_on=0, by=BY)
    told = what_is_it(shop, ODD, seen=Seen(kind="lug"))
    assert told.odds.says == "It is almost surely Quennick pin lug."
    assert told.fitting is not None
    assert told.fitting.name == "Quennick pin lug"


def test_what_is_offered_next_is_not_taken_yet_and_of_the_kind(shop: Workshop) -> None:
    nothing = what_is_it(shop, (), seen=Seen())
    assert (nothing.offered, nothing.usual) == ((), FIRST)
    told = what_is_it(shop, (read_measured(APART, "42.1 mm"),), seen=Seen(kind="lug"))
    assert told.offered
    assert APART not in {one.dimension for one in told.offered}
    assert APART in told.usual
    assert Dimension.EARS not in told.usual
    # Three lugs in four of the packaged book say how high their base is: counted by hand.
    rod = what_is_it(shop, (), seen=Seen(kind="rod"))
    assert Dimension.LENGTH in rod.usual
    assert APART not in rod.usual


def test_the_shelf_is_read_anew_only_where_it_changed(shop: Workshop) -> None:
    first, second = (put(shop, number=f"000{n}", kind="lug", measured=ODD) for n in (1, 2))
    once = known_pieces(shop)
    assert [one.piece.number for one in once] == ["0001", "0002"]
    candidates = candidates_for(shop)
    assert candidates_for(shop) is candidates
    move_piece(shop, first.piece.id, "scrapped", count=1, by=BY)
    moved = known_pieces(shop)
    assert [one.on_shelf for one in moved] == [0, 1]
    assert moved[1] is once[1]
    # Where it lies says nothing of what it is.
    assert candidates_for(shop) is candidates
    write_piece(shop, second.piece.id, {"says": "with a chip"}, based_on=1, by=BY)
    assert candidates_for(shop).each[-1].name == "with a chip"


def test_a_piece_that_was_put_away_is_no_answer(shop: Workshop) -> None:
    kept = put(shop, number="0001", kind="lug", says="flat lug, blue box", measured=ODD)
    assert not what_is_it(shop, ODD, seen=Seen(kind="lug")).odds.nothing_fits
    for hide_or_bring, fits in ((hide_piece, False), (bring_back_piece, True)):
        with shop.store.writing() as connection:
            hide_or_bring(connection, kept.piece.id, stamp=shop.stamp(BY))
        assert what_is_it(shop, ODD, seen=Seen(kind="lug")).odds.nothing_fits is not fits


def test_of_a_shelf_that_is_too_long_the_oldest_are_left_out(
    shop: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(known, "MOST_KNOWN", 2)
    for n in (1, 2, 3):
        put(shop, number=f"000{n}", kind="lug", measured=ODD)
    assert [one.piece.number for one in known_pieces(shop)] == ["0002", "0003"]
    assert left_out(shop) == what_is_it(shop, ODD, seen=Seen()).left_out == 1


def test_a_card_is_told_what_it_is_and_loses_nothing(shop: Workshop) -> None:
    kept = put(shop, number="0001", measured=(read_measured(APART, "42.1 mm"),))
    more = (*kept.piece.measured, read_measured(HIGH, "61.8 mm"))
    name = "corvane  round bass LUG"
    done = it_is(shop, kept.piece.id, name=name, measured=more, based_on=1, by=BY)
    assert not isinstance(done, PieceConflict)
    assert (done.piece.fitting, done.piece.kind) == ("Corvane round bass lug", "lug")
    assert done.piece.measured == more
    # Readings that were not looked at this time stay on the card.
    again = it_is(shop, kept.piece.id, name="Corvane round lug", measured=(), based_on=2, by=BY)
    assert not isinstance(again, PieceConflict)
    assert again.piece.measured == more
    assert [one.number for one in card_of(shop, kept.piece.id).history] == [1, 2, 3]
    with pytest.raises(BadInput, match="no such fitting in the book"):
        it_is(shop, kept.piece.id, name="Corvane rond lugg", measured=(), based_on=3, by=BY)


def test_two_who_name_a_piece_at_once_hear_of_each_other(shop: Workshop) -> None:
    kept = put(shop, number="0001", measured=(read_measured(APART, "42.1 mm"),))
    it_is(shop, kept.piece.id, name="Corvane round lug", measured=(), based_on=1, by="other bench")
    mine = it_is(shop, kept.piece.id, name="Corvane round bass lug", measured=(), based_on=1, by=BY)
    assert isinstance(mine, PieceConflict)
    assert mine.theirs.piece.fitting == "Corvane round lug"
    assert card_of(shop, kept.piece.id).kept.piece.fitting == "Corvane round lug"


def test_two_thousand_pieces_are_held_against_a_part_at_once(shop: Workshop) -> None:
    """The design's bound is 100 ms; others may use the machine: the quickest of five counts."""
    alike = [one for one in candidates_for(shop).each if len(one.dims) > 3]
    pieces = [
        Piece(
            id="", number=f"{n:04}", kind=like.kind,
            measured=tuple(
                Measured(
                    dimension=what, doubt=0.0 if what.unit == "count" else 0.1,
                    value=size if what.unit == "count" else size * (1.0 + 0.001 * (n % 97)),
                )
                for what, size in [*like.dims.items()][:4]
            ),
        )
        for n in range(2000)
        for like in (alike[n % len(alike)],)
    ]  # fmt: skip
    with shop.store.writing() as connection:
        put_new_pieces(connection, pieces, stamp=shop.stamp(BY))
    assert len(candidates_for(shop)) == len(packaged_book()) + 2000
    read = [read_measured(APART, "42.1 mm")]

    def seconds() -> float:
        began = time.process_time()
        what_is_it(shop, [replace(read[0])], seen=Seen(kind="lug"))
        return time.process_time() - began

    assert min(seconds() for _ in range(5)) < 0.1
