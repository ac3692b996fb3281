"""Three programs that want the last piece at once: one gets it, and no movement is lost."""

from __future__ import annotations

import subprocess
import sys
import threading
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from fight_for_pieces import AWAY
from shelf_samples import moved
from sqlalchemy import func, select
from store_samples import stamp

from counterhoop.parts.piece import Piece
from counterhoop.store.address import Address
from counterhoop.store.copies.verify import verify
from counterhoop.store.shelf.look_up import all_pieces
from counterhoop.store.shelf.move import move, set_aside_for
from counterhoop.store.shelf.put import put_new_pieces
from counterhoop.store.store import Store, open_store
from counterhoop.store.tables import movement

PROGRAM = Path(__file__).parent / "fight_for_pieces.py"
JOBS = ("one", "other", AWAY)


@pytest.mark.parametrize("times", [40, pytest.param(1000, marks=pytest.mark.full)])
def test_the_last_piece_goes_once(new_address: Callable[[str], Address], times: int) -> None:
    """Brute force: that many last pieces; two want each for a job, the third puts it away."""
    address = new_address("store")
    with open_store(address) as store:
        with store.writing() as w:
            put_new_pieces(w, (Piece(id=f"p{n}", number="") for n in range(times)), stamp=stamp())
        had = fight(address, pieces=[f"p{n}" for n in range(times)])
        with store.reading() as r:
            there = [*all_pieces(r, with_hidden=True)]
            assert {one.piece.id for one in there if one.hidden} == had[AWAY]
            assert all((one.on_shelf, one.free) == (1, one.hidden) for one in there)
            for job in JOBS[:2]:
                assert {one.kept.piece.id for one in set_aside_for(r, job)} == had[job]
            counted = r.execute(select(func.count()).select_from(movement)).scalar_one()
            assert counted == 2 * times - len(had[AWAY])
        assert all(had.values()), "one of the three never was the first"
        assert verify(store).sound


def test_two_who_take_two_pieces_each_do_not_wait_for_each_other(store: Store) -> None:
    """Hand-worked: the first has a and goes on to b, the second comes from b; both get theirs."""
    with store.writing() as w:
        put_new_pieces(w, (Piece(id=n, number="", count=2) for n in "ab"), stamp=stamp())
    begun = threading.Event()

    def take(job: str, pieces: str) -> None:
        if pieces == "ba":
            assert begun.wait(10)
        with store.writing() as w:
            for piece_id in pieces:
                move(w, moved(piece_id, "set aside", 1, job=job))
                begun.set()
                time.sleep(0.1)

    with ThreadPoolExecutor(2) as benches:
        both = [benches.submit(take, pieces, pieces) for pieces in ("ab", "ba")]
        for one in both:
            one.result(20)
    with store.reading() as r:
        assert [one.free for one in all_pieces(r)] == [0, 0]


def fight(address: Address, *, pieces: list[str]) -> dict[str, set[str]]:
    """Call each piece to the programs at once; see that one had it, and return which."""
    fighters = [
        subprocess.Popen(
            [sys.executable, str(PROGRAM), str(address.folder), address.database, job],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            bufsize=1,
        )
        for job in JOBS
    ]
    assert [answer(one) for one in fighters] == ["ready"] * 3
    had: dict[str, set[str]] = {job: set() for job in JOBS}
    for turn, piece_id in enumerate(pieces):
        # Each is called first every third time.
        for one in (*fighters[turn % 3 :], *fighters[: turn % 3]):
            assert one.stdin is not None
            one.stdin.write(f"{piece_id}\n")
        said = [answer(one) for one in fighters]
        assert sorted(said) == ["gone", "gone", "had"], piece_id
        had[JOBS[said.index("had")]].add(piece_id)
    for one in fighters:
        one.communicate()
    assert [one.returncode for one in fighters] == [0, 0, 0]
    return had


def answer(one: subprocess.Popen[str]) -> str:
    assert one.stdout is not None
    return one.stdout.readline().strip()
