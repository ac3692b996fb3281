"""Pieces written, moved, found.

Truth: worked by hand from what was written; laws of two writers by Hypothesis, held against a plain
dictionary; numbers by a look at all of them.
"""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from counterhoop.bench.shelf import bins
from counterhoop.bench.shelf.bins import bins_of
from counterhoop.bench.shelf.cards import (
    card_of,
    find_pieces,
    move_piece,
    next_number,
    write_piece,
)
from counterhoop.bench.shelf.for_whom import for_whom
from counterhoop.bench.shelf.nothing_found import found_without
from counterhoop.bench.shelf.out_of_sight import pieces_away, put_piece_away, take_piece_out
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.parts.dimension import Dimension, read_measured
from counterhoop.store.shelf.look_up import Kept
from counterhoop.store.shelf.put import PieceConflict

BY, OTHER = "window bench", "router bench"


def put(shop: Workshop, **fields: object) -> Kept:
    kept = write_piece(shop, None, fields, based_on=0, by=BY)
    assert not isinstance(kept, PieceConflict)
    return kept


LINES = ("says", "kind", "bin", "material")
TEXTS = st.fixed_dictionaries({}, optional={n: st.sampled_from("ab") for n in LINES})


@settings(max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(mine=TEXTS, theirs=TEXTS)
def test_two_who_write_at_once_lose_nothing(jobs, mine, theirs):
    shop, before = jobs.shop, dict.fromkeys(LINES, "a")
    piece = put(shop, number="", **before).piece.id
    first = write_piece(shop, piece, theirs, based_on=1, by=OTHER)
    assert isinstance(first, Kept)
    second = write_piece(shop, piece, mine, based_on=1, by=BY)
    now = card_of(shop, piece).kept.piece
    # Each value is "a" or "b" and all were "a": two who changed the same line changed it alike.
    wanted = {n: "b" if "b" in (mine.get(n), theirs.get(n)) else "a" for n in LINES}
    assert not isinstance(second, PieceConflict)
    assert {n: getattr(now, n) for n in LINES} == wanted


def test_the_same_line_written_otherwise_is_shown_to_both(jobs):
    piece = put(jobs.shop, number="7", says="lug", bin="B 7").piece.id
    write_piece(jobs.shop, piece, {"says": "long lug", "finish": "chrome"}, based_on=1, by=OTHER)
    done = write_piece(jobs.shop, piece, {"says": "short lug", "bin": "C"}, based_on=1, by=BY)
    assert isinstance(done, PieceConflict)
    assert (done.mine.says, done.mine.bin, done.mine.finish) == ("short lug", "C", "chrome")
    assert (done.theirs.piece.says, done.theirs.piece.bin) == ("long lug", "B 7")
    assert card_of(jobs.shop, piece).kept.head == 2
    again = write_piece(
        jobs.shop, piece, {"says": "short lug", "bin": "C"}, based_on=done.theirs.head, by=BY
    )
    assert isinstance(again, Kept)
    assert [one.piece.says for one in card_of(jobs.shop, piece).history] == [
        "lug", "long lug", "short lug",
    ]  # fmt: skip


def test_what_was_not_changed_is_not_written_again(jobs):
    piece = put(jobs.shop, number="7", says="lug").piece.id
    assert write_piece(jobs.shop, piece, {"says": "lug"}, based_on=1, by=BY).head == 1
    with pytest.raises(BadInput, match="whose it is"):
        write_piece(jobs.shop, piece, {"owner": "A. Hale"}, based_on=1, by=BY)
    with pytest.raises(BadInput, match="versions"):
        write_piece(jobs.shop, piece, {"says": "x"}, based_on=7, by=BY)


def test_a_piece_is_moved_once_and_for_its_own_client_only(jobs):
    shop, piece = jobs.shop, put(jobs.shop, number="7", says="hoop", owner="A. Hale").piece.id
    with pytest.raises(BadInput, match=r"A\. Hale's"):
        move_piece(shop, piece, "set aside", count=1, job=jobs.rowe, by=BY)
    for _ in range(2):
        moved = move_piece(shop, piece, "set aside", count=1, job=jobs.hale, mark="m", by=BY)
        assert (moved.free, dict(moved.set_aside)) == (0, {jobs.hale: 1})
    with pytest.raises(BadInput, match="only 0 free"):
        move_piece(shop, piece, "set aside", count=1, job=jobs.hale_whole, by=OTHER)
    with pytest.raises(BadInput, match="release"):
        move_piece(shop, piece, "sold", count=1, by=BY)
    with pytest.raises(BadInput, match="no such drum"):
        move_piece(shop, piece, "used", count=1, job=f"{jobs.hale_whole}/none", by=BY)
    move_piece(shop, piece, "put back", count=1, job=jobs.hale, by=BY)
    # Given back: to whom is not asked, for it can only be the one whose it is.
    assert move_piece(shop, piece, "given back", count=1, by=BY).on_shelf == 0
    assert card_of(shop, piece).movements[-1].client == "A. Hale"


def test_only_jobs_that_may_have_it_are_offered(jobs):
    assert [one.says for one in for_whom(jobs.shop)] == [
        "job 215, snare", "job 215", "job 214, small tom", "job 214",
    ]  # fmt: skip
    assert [one.key for one in for_whom(jobs.shop, owner="A. Hale")] == [
        jobs.hale, jobs.hale_whole,
    ]  # fmt: skip
    assert for_whom(jobs.shop, owner="N. Body") == ()


@pytest.mark.parametrize(
    ("there", "wanted"),
    [
        ((), "0001"),
        (("L-0412", "0099"), "0100"),
        (("0099", "L-0412"), "L-0413"),
        (("0050", "10", "9"), "11"),
        (("loft",), "0001"),
    ],
)
def test_the_next_number_follows_the_shops_own(jobs, there, wanted):
    for number in there:
        put(jobs.shop, number=number, says="x")
    assert next_number(jobs.shop) == wanted


def test_the_number_offered_is_nobodys(jobs):
    for number in ("8", "10", "11", "9"):
        put(jobs.shop, number=number, says="x")
    for taken in range(5):
        number = next_number(jobs.shop)
        kept = put(jobs.shop, number=number, says="x")  # Refused if it were taken.
        if taken % 2:
            put_piece_away(jobs.shop, kept.piece.id, by=BY)


def test_what_is_found_and_what_to_leave_out_where_nothing_is(jobs):
    holes = read_measured(Dimension.HOLES_APART, "42.1 mm")
    put(jobs.shop, number="1", says="single-ended lug", measured=(holes,), owner="A. Hale")
    put(jobs.shop, number="2", says="single-ended lug, brass")
    look = find_pieces(jobs.shop, "lugs, holes 42 +- 0.5", units="mm")
    assert [one.kept.piece.number for one in look.found] == ["1", "2"]
    assert look.asked.read_as == ("holes apart 42 mm, give or take 0.5 mm",)
    others = find_pieces(jobs.shop, "the lug", units="mm", client="B. Rowe")
    assert [one.kept.piece.number for one in others.found] == ["2"]
    assert [f.kept.piece.number for f in find_pieces(jobs.shop, "", units="mm").found] == ["2", "1"]
    # On the brass one nothing was measured, so that nothing rules it out.
    ruled_out = find_pieces(jobs.shop, "lug holes 30 mm", units="mm")
    assert [one.kept.piece.number for one in ruled_out.found] == ["2"]
    for line, left_out in (
        ("iron single-ended", ("iron",)),
        ("lug 17 mm", ("17 mm",)),
        ("single-ended chrome lug holes 42", ("chrome",)),
    ):
        asked = find_pieces(jobs.shop, line, units="mm")
        assert not asked.found
        assert found_without(jobs.shop, asked.asked, only_free=False) == left_out, line


def test_put_away_and_taken_out_again(jobs):
    shop, piece = jobs.shop, put(jobs.shop, number="7", says="hoop").piece.id
    move_piece(shop, piece, "set aside", count=1, job=jobs.hale, by=BY)
    with pytest.raises(BadInput, match="promised"):
        put_piece_away(shop, piece, by=BY)
    move_piece(shop, piece, "put back", count=1, job=jobs.hale, by=BY)
    put_piece_away(shop, piece, by=BY)
    assert not find_pieces(shop, "hoop", units="mm").found
    ((away,), count) = pieces_away(shop)
    assert (away.kept.piece.id, away.hidden.hidden_by, count) == (piece, BY, 1)
    take_piece_out(shop, piece, by=BY)
    assert pieces_away(shop) == ((), 0)
    assert find_pieces(shop, "hoop", units="mm").found


def test_bins_are_counted_anew_when_something_changed_and_left_out_of_a_vast_shelf(
    jobs, monkeypatch
):
    kept = put(jobs.shop, number="1", says="x", bin="B 7")
    assert bins_of(jobs.shop) == {"B 7": 1}
    write_piece(jobs.shop, kept.piece.id, {"bin": "C"}, based_on=1, by=BY)
    assert bins_of(jobs.shop) == {"C": 1}
    put_piece_away(jobs.shop, kept.piece.id, by=BY)
    assert bins_of(jobs.shop) == {}
    take_piece_out(jobs.shop, kept.piece.id, by=BY)
    monkeypatch.setattr(bins, "MOST_GONE_THROUGH", 0)
    assert bins_of(jobs.shop) == {}
    assert [one.piece.number for one in bins.bin_of(jobs.shop, "C")] == ["1"]
