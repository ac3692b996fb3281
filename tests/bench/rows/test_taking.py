"""Taking the rows of a file: stopped, cut off, begun twice; truth: worked by hand."""

from __future__ import annotations

import threading

import pytest

from counterhoop.bench.chores import Stopped
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.rows import take_rows
from counterhoop.bench.rows.row_sorts import row_sort
from counterhoop.bench.rows.take_rows import (
    CUT_OFF,
    begin_taking,
    being_taken,
    settled,
    take_now,
)
from counterhoop.bench.rows.taken import Taken, find_taken, taken_files
from counterhoop.bench.rows.try_rows import last_try, try_rows
from counterhoop.bench.rows.waiting import (
    change_waiting,
    find_waiting,
    put_rows_in,
    read_anew,
    waiting_files,
)
from counterhoop.bench.workshop import open_workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.shelf.look_up import all_pieces

FIELDS = {0: "number", 1: "kind"}


@pytest.fixture(params=["sqlite", "postgresql"])
def shop(request, tmp_path):
    store = ""
    if request.param == "postgresql":
        store = request.getfixturevalue("cluster").new_database()
    with open_workshop(store=store, data=tmp_path / "data", works=WorksAtOnce()) as opened:
        yield opened


def tried(shop, *, rows=("A1,lug", "A2,rod")):
    data = "\n".join(("number,kind", *rows)).encode()
    one = put_rows_in(shop, sort="shelf", name="drawers.csv", pieces=[data], by="bench")
    one = read_anew(one, chosen=FIELDS, mapped=True)
    sort = row_sort("shelf")
    with shop.store.reading() as connection:
        try_rows(
            one, sort.layout(), sort.trying(shop, connection, one), progress=lambda _share: None
        )
    return one


def numbers(shop):
    with shop.store.reading() as connection:
        return [one.piece.number for one in all_pieces(connection)]


def test_stopped_in_the_middle_nothing_is_there_and_the_file_still_waits(shop):
    one = tried(shop)

    def stop(_share):
        raise Stopped("now")

    with pytest.raises(Stopped):
        take_now(shop, one, by="bench", share=stop)
    assert (numbers(shop), taken_files(shop)) == ([], ())
    assert waiting_files(shop) == (one,)
    taken = take_now(shop, one, by="bench", share=lambda _share: None)
    assert (numbers(shop), taken_files(shop), waiting_files(shop)) == (["A1", "A2"], (taken,), ())


def test_a_press_on_stop_is_said_where_the_file_waits(shop, monkeypatch):
    one = tried(shop)
    under_way, go_on = threading.Event(), threading.Event()
    whole = take_rows.take_now

    def slowly(*given, share, **said):
        def told(done):
            under_way.set()
            assert go_on.wait(30)
            share(done)

        return whole(*given, share=told, **said)

    monkeypatch.setattr(take_rows, "take_now", slowly)
    begin_taking(shop, one, by="window bench")
    assert under_way.wait(30)
    now = find_waiting(shop, one.id)
    assert now.taking
    assert being_taken(shop, now).by == "window bench"
    # Under way, it is not taken for one that the program left behind.
    assert settled(shop, now) == now
    with pytest.raises(CannotDo, match="One thing after another"):
        begin_taking(shop, tried(shop), by="bench")
    shop.chores.stop()
    go_on.set()
    assert not shop.chores.wait(30).outcome.says[0].startswith("This broke off")
    now = settled(shop, find_waiting(shop, one.id))
    assert (now.taking, now.said) == (
        False, ("Stopped before it was done. Nothing of these rows was taken.",),
    )  # fmt: skip
    assert numbers(shop) == []


def test_what_was_being_taken_when_the_program_was_ended_is_looked_for(shop):
    one = change_waiting(tried(shop), taking=True)
    left = settled(shop, one)
    assert (left.said, left.taking, numbers(shop)) == ((CUT_OFF,), False, [])
    # Ended after the last moment at which it could have been undone: the rows are there.
    taken = row_sort("shelf").take(shop, one, last_try(one), "bench", lambda _share: None)
    assert settled(shop, change_waiting(one, taking=True)) == taken
    assert isinstance(taken, Taken)
    assert (waiting_files(shop), numbers(shop)) == ((), ["A1", "A2"])
    assert find_taken(shop, one.id) == taken


def test_a_count_a_change_and_a_new_row_come_together(shop):
    take_now(shop, tried(shop), by="bench", share=lambda _share: None)
    rows = b"number,kind,count,bin\nA1,lug,3,4\nA2,rod,,7\nA3,claw,5,\n"
    one = put_rows_in(shop, sort="shelf", name="more.csv", pieces=[rows], by="bench")
    fields = {0: "number", 1: "kind", 2: "count", 3: "bin"}
    one = read_anew(one, chosen=fields, mapped=True)
    sort = row_sort("shelf")
    with shop.store.reading() as connection:
        trying = sort.trying(shop, connection, one)
        found = try_rows(one, sort.layout(), trying, progress=lambda _share: None)
    assert (found.new, found.changed, found.lines) == (1, 2, 4)
    take_now(shop, one, by="bench", share=lambda _share: None)
    with shop.store.reading() as connection:
        said = [(one.piece.number, one.on_shelf, one.piece.bin) for one in all_pieces(connection)]
    assert said == [("A1", 3, "4"), ("A2", 1, "7"), ("A3", 5, "")]


def test_what_was_not_tried_or_changes_nothing_is_not_taken(shop):
    one = put_rows_in(shop, sort="shelf", name="a.csv", pieces=[b"number,kind\nA1,lug\n"], by="b")
    with pytest.raises(BadInput, match="not tried yet"):
        begin_taking(shop, one, by="bench")
    with pytest.raises(BadInput, match="nothing to take"):
        begin_taking(shop, tried(shop, rows=(",lug",)), by="bench")


def test_a_file_that_came_half_leaves_nothing(shop):
    def breaks():
        yield b"number,kind\n"
        raise OSError("the line broke")

    with pytest.raises(CannotDo):
        put_rows_in(shop, sort="shelf", name="a.csv", pieces=breaks(), by="bench")
    assert not any((shop.store.address.folder / "rows").iterdir())
