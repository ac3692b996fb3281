"""Two programs that want the last piece at once: one gets it, and no movement is lost."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from sqlalchemy import func, select
from store_samples import stamp

from counterhoop.parts.piece import Piece
from counterhoop.store.address import Address
from counterhoop.store.copies.verify import verify
from counterhoop.store.shelf.look_up import all_pieces
from counterhoop.store.shelf.move import movements_of, set_aside_for
from counterhoop.store.shelf.put import put_new_pieces
from counterhoop.store.store import open_store
from counterhoop.store.tables import movement

PROGRAM = Path(__file__).parent / "fight_for_pieces.py"
JOBS = ("one", "other")


@pytest.mark.parametrize("times", [40, pytest.param(1000, marks=pytest.mark.full)])
def test_the_last_piece_goes_once(new_address: Callable[[str], Address], times: int) -> None:
    """Brute force: that many last pieces, two programs, each piece wanted by both."""
    address = new_address("store")
    with open_store(address) as store:
        with store.writing() as w:
            put_new_pieces(w, (Piece(id=f"p{n}", number="") for n in range(times)), stamp=stamp())
        had = fight(address, pieces=[f"p{n}" for n in range(times)])
        with store.reading() as r:
            assert all((one.on_shelf, one.free) == (1, 0) for one in all_pieces(r))
            for job in JOBS:
                assert {one.kept.piece.id for one in set_aside_for(r, job)} == had[job]
            counted = r.execute(select(func.count()).select_from(movement)).scalar_one()
            assert counted == 2 * times
            assert [one.kind for one in movements_of(r, "p0")] == ["came in", "set aside"]
        assert verify(store).sound


def fight(address: Address, *, pieces: list[str]) -> dict[str, set[str]]:
    """Call each piece to two programs at once; see that one had it, and return which."""
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
    assert [answer(one) for one in fighters] == ["ready", "ready"]
    had: dict[str, set[str]] = {job: set() for job in JOBS}
    for turn, piece_id in enumerate(pieces):
        # Each is called first every other time.
        for one in fighters[:: -1 if turn % 2 else 1]:
            assert one.stdin is not None
            one.stdin.write(f"{piece_id}\n")
        said = [answer(one) for one in fighters]
        assert sorted(said) == ["gone", "had"], piece_id
        had[JOBS[said.index("had")]].add(piece_id)
    for one in fighters:
        one.communicate()
    assert [one.returncode for one in fighters] == [0, 0]
    return had


def answer(one: subprocess.Popen[str]) -> str:
    assert one.stdout is not None
    return one.stdout.readline().strip()
