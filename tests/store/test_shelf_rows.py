"""The rows of a sheet: what each does alone, together, stopped, and killed in the middle."""

from __future__ import annotations

import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from import_until_killed import a_piece, changes
from shelf_samples import SHELF, changed, fill_shelf, kept, moved, read, shelf_rows
from store_samples import stamp

from counterhoop.errors import BadInput, CannotDo
from counterhoop.parts.dimension import Dimension
from counterhoop.parts.movement import Movement
from counterhoop.parts.piece import Piece
from counterhoop.store.address import Address
from counterhoop.store.copies.verify import verify
from counterhoop.store.shelf.find import find
from counterhoop.store.shelf.look_up import all_pieces, piece_by_id
from counterhoop.store.shelf.move import move
from counterhoop.store.shelf.put import put_new_pieces, put_piece
from counterhoop.store.shelf.put_rows import put_rows
from counterhoop.store.store import Store, open_store

PROGRAM = Path(__file__).parent / "import_until_killed.py"

NEW = (Piece(id="new", number="70", says="a claw"), Piece(id="none", number="71", count=0))
CHANGED = (
    (changed(SHELF[0], says="a lug of brass", measured=(read(Dimension.REACH, "20 mm"),)), 1),
    (changed(SHELF[2], number="72"), 1),
)
COUNTED = (
    moved("screw", "counted", 30, corrects="37 written"),
    moved("screw", "sold", 5),
    moved("new", "scrapped", 1),
)


def test_rows_do_what_each_of_them_does_alone(
    new_address: Callable[[str], Address], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Independent implementation: piece by piece, movement by movement; every row the same."""
    monkeypatch.setattr("counterhoop.store.shelf.put.AT_ONCE", 1)
    monkeypatch.setattr("counterhoop.store.shelf.put_rows.AT_ONCE", 2)
    with open_store(new_address("one")) as one, open_store(new_address("other")) as other:
        for store in (one, other):
            fill_shelf(store)
        with one.writing() as w:
            done: list[int] = []
            assert put_rows(w, NEW, CHANGED, COUNTED, stamp=stamp(60), progress=done.append) == 7
            assert done == [1, 2, 4, 6, 7]
        with other.writing() as w:
            put_new_pieces(w, NEW, stamp=stamp(60))
            for given, based_on in CHANGED:
                kept(put_piece(w, given, based_on=based_on, stamp=stamp(60)))
            for each in COUNTED:
                move(w, each)
        assert shelf_rows(one) == shelf_rows(other)
        assert verify(one).sound
        with one.reading() as r:
            assert [each.kept.piece.id for each in find(r, words=["brass"])] == ["lug-a"]
            assert find(r, words=["tom"]) == ()


@pytest.mark.parametrize(
    ("new", "over", "counted", "says"),
    [
        ((), ((SHELF[0], 2),), (), "Piece 7 was written on by window bench meanwhile"),
        ((), (CHANGED[0], CHANGED[0]), (), "written on by window bench meanwhile"),
        ((), ((changed(SHELF[0], id="nobody"), 1),), (), "no such piece"),
        ((), ((changed(SHELF[0], count=9), 1),), (), "how many came is not written over"),
        (NEW, ((changed(SHELF[0], number="70"), 1),), (), "this number is another piece's"),
        (NEW, CHANGED, (moved("new", "sold", 1), moved("new", "sold", 1)), "only 0 free"),
        (NEW, CHANGED, (moved("nobody", "sold", 1),), "no such piece"),
    ],
)
def test_one_row_that_cannot_be_keeps_all_of_them_out(
    file_store: Store, new: tuple[Piece, ...], over: tuple[tuple[Piece, int], ...],
    counted: tuple[Movement, ...], says: str,
) -> None:  # fmt: skip
    fill_shelf(file_store)
    before = shelf_rows(file_store)
    with pytest.raises((BadInput, CannotDo), match=says), file_store.writing() as w:
        put_rows(w, new, over, counted, stamp=stamp(60))
    assert shelf_rows(file_store) == before


def test_rows_that_are_stopped_leave_nothing(store: Store) -> None:
    fill_shelf(store)
    before = shelf_rows(store)
    # 4 of 7 rows are in by then.
    stop_at = 4

    def stop(done: int) -> None:
        if done >= stop_at:
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError), store.writing() as w:
        put_rows(w, NEW, CHANGED, COUNTED, stamp=stamp(60), progress=stop)
    assert shelf_rows(store) == before


@pytest.mark.parametrize(
    ("rows", "times"), [(400, 1), pytest.param(20_000, 12, marks=pytest.mark.full)]
)
def test_killed_while_rows_come_in(
    new_address: Callable[[str], Address], rows: int, times: int
) -> None:
    """Brute force: kill -9 at a random moment; the shelf is as it was before, or has them all.

    The first moment is before anything was written, the last one after all was.
    """
    address = new_address("store")
    took_s = run(address, rows=rows, turn=0)
    turn, cut_off = 1, 0
    for seed in range(1, times + 1):
        chance = random.Random(seed)
        took_s = run(address, rows=rows, turn=turn, kill_after_s=chance.uniform(0.1, 1.0) * took_s)
        with open_store(address) as store:
            assert verify(store).sound
            with store.reading() as r:
                count = sum(1 for _ in all_pieces(r))
                first = piece_by_id(r, "0-0")
        # As many rows as whole turns were taken, never a part of one.
        assert count in (turn * rows // 2, (turn + 1) * rows // 2), seed
        came = count > turn * rows // 2
        assert (first.head, first.on_shelf) == (turn + came, turn + came), seed
        cut_off += not came
        turn += came
    assert cut_off, "the program was never killed before it was done"
    assert run(address, rows=rows, turn=turn) > 0
    with open_store(address) as store, store.reading() as r:
        assert piece_by_id(r, "0-0").on_shelf == turn + 1


def run(address: Address, *, rows: int, turn: int, kill_after_s: float | None = None) -> float:
    """Let a sheet come in, killed or not, and return how long it takes whole (or was given)."""
    words = [str(PROGRAM), str(address.folder), address.database, str(rows), str(turn)]
    with subprocess.Popen([sys.executable, *words], stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
        began = time.monotonic()
        if kill_after_s is None:
            assert process.stdout.readline() == "in\n"
            return time.monotonic() - began
        time.sleep(kill_after_s)
        process.kill()
    assert process.returncode in (-signal.SIGKILL, 0)
    return kill_after_s


def test_a_sheet_of_the_test_says_what_it_should() -> None:
    """The turns of the test above differ, or it would show nothing."""
    (one, based_on), *_ = changes(1, turn=3)
    assert (one.id, one.says, based_on) == (a_piece(0, turn=0).id, "lug, turn 3", 3)
