"""What a job lacks: each piece once, and the shelf's pieces for one each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

from counterhoop.bench.demo import open_demo
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.parts import wants_of_job
from counterhoop.bench.parts.goes_back import goes_back, spares_of
from counterhoop.bench.parts.stripped import Stripped, counted_of, expected_of
from counterhoop.bench.parts.wants_of_job import (
    NEW,
    DrumLacks,
    SortLacking,
    lacking,
    put_by,
    wants_of_drum,
)
from counterhoop.bench.plan_job import JobPlan, plan_job
from counterhoop.bench.shelf.cards import move_piece
from counterhoop.bench.shelf.known import known_pieces
from counterhoop.bench.shelf.out_of_sight import put_piece_away
from counterhoop.bench.shelf.whose import key_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.parts.comes_apart import Sort
from counterhoop.parts.ticked import Stage
from counterhoop.parts.wants import Want, Wants
from counterhoop.store.shelf.look_up import Kept

Put = Callable[..., Kept]
Now = Callable[[], tuple[KeptJob, KeptDrum]]
PLANNED = ("small tom", "marching snare", "old snare")
SCREW = "screw 10-24 x 5/8 in"


@cache
def plan() -> JobPlan:
    """Three drums of the demonstration: a lost part, other lugs, a second head."""
    opened = open_demo()
    drums = tuple(one for one in opened.job.drums if one.drum.key in PLANNED)
    return plan_job(replace(opened, job=replace(opened.job, drums=drums, match=())))


def stripped(drum: str, *, short: dict[tuple[str, str], int]) -> Stripped:
    """All counted and there but so many; what the survey says is gone stays gone."""
    one = plan().drum(drum)
    expected = expected_of(one.wanted.drum, one.found, shop=plan().opened.shop)
    table: dict[str, dict[str, dict[str, int]]] = {}
    for line in expected.lines:
        if not line.lost:
            lacks = short.get((line.place, line.sort.piece), 0)
            at = table.setdefault(line.place, {})
            at[line.sort.piece] = {Stage.FOUND.value: line.count - lacks}
    return counted_of(expected, {"counted": table})


def wants(drum: str, *, short: dict[tuple[str, str], int]) -> dict[str, Want]:
    one = plan().drum(drum)
    found = wants_of_drum(stripped(drum, short=short), one.chosen, book=plan().opened.shop.book)
    assert not found.uncounted
    assert len(found.lines) == len({want.sort for want in found.lines})
    return {want.sort.piece: want for want in found.lines}


def test_a_lost_strainer_that_the_scheme_puts_back_is_wanted_once() -> None:
    """By hand: the scheme lists the strainer, the count its two screws and two washers.

    The later strainer and the damper go: nothing that lacks of them is looked for.
    """
    found = wants("old snare", short={("later strainer", "screw 8-32 x 5/8 in"): 2})
    assert {piece: want.count for piece, want in found.items()} == {
        SCREW: 2,
        "screw washer 14": 2,
        "Corvane lever strainer": 1,
    }
    assert found["Corvane lever strainer"].places == ((NEW, 1),)


def test_rods_of_heads_with_new_lugs_are_the_schemes() -> None:
    """By hand: 16 new short lugs, 16 new rods; strainer and butt go on again, the leg rest not."""
    lacks = {
        ("batter head", "rod 12-24 x 42 mm"): 3,
        ("batter lug 2", SCREW): 2,
        ("leg rest", SCREW): 4,
        ("strainer", SCREW): 1,
        ("batter head", "rod washer"): 1,
    }
    found = wants("marching snare", short=lacks)
    assert {piece: want.count for piece, want in found.items()} == {
        "Corvane round short lug": 16,
        "rod 12-24 x 38 mm": 16,
        SCREW: 1,
        "rod washer": 1,
    }


def test_the_head_that_stays_keeps_its_rods() -> None:
    """By hand: a second head gets its six rods from the scheme, the first lacks one of its own."""
    found = wants("small tom", short={("batter head", "rod 12-24 x 42 mm"): 1})
    assert found["rod 12-24 x 42 mm"].count == 1
    assert found["rod 12-24 x 38 mm"].count == 6


def test_without_a_scheme_everything_goes_back() -> None:
    one = stripped("old snare", short={})
    assert goes_back(one.counted, None) == one.counted


def test_the_spares_bag_leaves_out_what_goes() -> None:
    """By hand: the later strainer's screws go with it."""
    one = stripped("old snare", short={})
    pieces = {
        spare.sort.piece: spare.count for spare in spares_of(one, plan().drum("old snare").chosen)
    }
    assert pieces[SCREW] == 2
    assert "screw 8-32 x 5/8 in" not in pieces
    assert "screw 8-32 x 5/8 in" in {s.sort.piece for s in spares_of(one, None)}


# --- the shelf ----------------------------------------------------------------------------------


def want_of(count: int, piece: str = SCREW) -> Wants:
    want = Want(sort=Sort(piece=piece, kind="screw"), count=count, places=(("lug 1", count),))
    return Wants(lines=(want,))


def looked(shop: Workshop, now: Now, *counts: int, piece: str = SCREW) -> SortLacking:
    """The first drum is the job's own; more are made up."""
    job, drum = now()
    drums = [
        DrumLacks(
            drum=drum.id if n == 0 else f"other{n}", name=f"drum {n}", wants=want_of(c, piece)
        )
        for n, c in enumerate(counts)
    ]
    (found,) = lacking(shop, job, drums, stock={piece: 5})
    return found


def test_from_wanted_to_set_aside_to_fitted(shop: Workshop, now: Now, put: Put) -> None:
    """By hand, step by step; what was fitted is not wanted again."""
    job, drum = now()
    nothing = looked(shop, now, 4)
    assert (nothing.stock, nothing.free, nothing.to_find) == (5, 4, 0)  # the workshop's figures
    kept = put(fitting=SCREW, kind="screw", count=3, bin="B3")
    on_shelf = looked(shop, now, 4)
    assert (on_shelf.stock, on_shelf.free, on_shelf.to_find) == (0, 3, 1)  # a card holds
    key = key_of(job.id, drum.id)
    move_piece(shop, kept.piece.id, "set aside", count=2, job=key, by="b")
    aside = looked(shop, now, 4)
    (lack,) = aside.lacks
    assert (lack.aside, aside.short, aside.free, aside.to_find) == (2, 2, 1, 1)
    assert aside.bins == ("B3",)
    assert [(one.says, one.count) for one in put_by(shop, job)] == [(drum.name, 2)]
    move_piece(shop, kept.piece.id, "used", count=2, job=key, by="b")
    used = looked(shop, now, 4)
    assert (used.lacks[0].used, used.lacks[0].aside, used.to_find) == (2, 0, 1)
    assert put_by(shop, job) == ()


def test_what_is_set_aside_for_the_job_serves_one_drum_only(
    shop: Workshop, now: Now, put: Put
) -> None:
    """By hand: two for the job as a whole, wanted by two drums that lack two each."""
    job, _ = now()
    kept = put(fitting=SCREW, kind="screw", count=2)
    move_piece(shop, kept.piece.id, "set aside", count=2, job=key_of(job.id), by="b")
    found = looked(shop, now, 2, 2)
    assert [lack.aside for lack in found.lacks] == [2, 0]
    assert found.to_find == 2


def test_for_whom_others_are_set_aside_is_named(shop: Workshop, now: Now, put: Put) -> None:
    """By hand: two of three are promised to a drum of another job."""
    kept = put(fitting=SCREW, kind="screw", count=3)
    other = open_folder(shop, job={"number": "214"}, by="b")
    tom = add_drum(shop, other, name="small tom", survey={}, by="b")
    move_piece(shop, kept.piece.id, "set aside", count=2, job=key_of(other, tom), by="b")
    found = looked(shop, now, 4)
    assert (found.elsewhere, found.to_find) == ((("job 214, small tom", 2),), 3)


def test_another_clients_piece_is_no_answer(shop: Workshop, now: Now, put: Put) -> None:
    put(fitting=SCREW, kind="screw", count=9, owner="Somebody Else")
    mine = put(fitting=SCREW, kind="screw", count=1, owner="Tobin Ashgrove")
    found = looked(shop, now, 4)
    assert [one.kept.piece.id for one in found.offered] == [mine.piece.id]
    assert found.to_find == 3


def test_a_piece_without_an_entry_is_found_by_what_it_says(
    shop: Workshop, now: Now, put: Put
) -> None:
    """Heads and nuts have no entry in the book."""
    put(says="14 in Head", kind="head", count=1)
    assert looked(shop, now, 1, piece="14 in head").to_find == 0


def test_the_last_one_goes_once(shop: Workshop, now: Now, put: Put) -> None:
    job, drum = now()
    kept = put(fitting=SCREW, kind="screw", count=1)
    key = key_of(job.id, drum.id)
    move_piece(shop, kept.piece.id, "set aside", count=1, job=key, mark="m", by="b")
    move_piece(shop, kept.piece.id, "set aside", count=1, job=key, mark="m", by="b")  # sent twice
    with pytest.raises(BadInput, match="only 0 free"):
        move_piece(shop, kept.piece.id, "set aside", count=1, job=key, mark="n", by="b")


def test_a_matched_set_goes_whole_or_is_left_to_find(shop: Workshop, now: Now, put: Put) -> None:
    """By hand: a set of four gives nothing to who lacks three, nor to two drums that lack two."""
    put(fitting=SCREW, kind="screw", count=4, matched_set=True)
    three = looked(shop, now, 3)
    assert (three.free, three.to_find, three.parts_a_set(three.offered[0])) == (0, 3, True)
    both = looked(shop, now, 2, 2)
    assert (both.free, both.to_find, both.parts_a_set(both.offered[0])) == (0, 4, True)
    whole = looked(shop, now, 2, 5)
    assert [(one.name, one.count) for one in whole.to_set_aside] == [("drum 1", 4)]
    assert (whole.free, whole.to_find, whole.parts_a_set(whole.offered[0])) == (4, 3, False)


def test_a_sort_that_one_drum_wants_under_two_kinds_is_served_once(
    shop: Workshop, now: Now, put: Put
) -> None:
    """By hand: three fitted, one set aside, for two lines of two each: all four, and no more."""
    job, drum = now()
    kept = put(fitting=SCREW, kind="screw", count=4)
    key = key_of(job.id, drum.id)
    move_piece(shop, kept.piece.id, "used", count=3, job=key, by="b")
    move_piece(shop, kept.piece.id, "set aside", count=1, job=key, by="b")
    lines = (
        Want(sort=Sort(piece=SCREW, kind="screw"), count=2, places=(("lug 1", 2),)),
        Want(sort=Sort(piece=SCREW, kind="insert"), count=3, places=(("lug 2", 3),)),
    )
    lacks = DrumLacks(drum=drum.id, name=drum.name, wants=Wants(lines=lines))
    (found,) = lacking(shop, job, [lacks], stock={})
    assert [(one.used, one.aside) for one in found.lacks] == [(2, 0), (1, 1)]
    assert found.short == 1


def test_a_piece_put_away_while_a_page_is_made_stops_no_page(
    shop: Workshop, now: Now, put: Put, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another bench puts a head away between two looks at the shelf."""
    kept = put(says="14 in Head", kind="head", count=1)

    def then_put_away(asked: Workshop) -> tuple[Kept, ...]:
        found = known_pieces(asked)
        if found:
            put_piece_away(asked, kept.piece.id, by="other bench")
        return found

    monkeypatch.setattr(wants_of_job, "known_pieces", then_put_away)
    looked(shop, now, 1, piece="14 in head")
    assert looked(shop, now, 1, piece="14 in head").offered == ()
