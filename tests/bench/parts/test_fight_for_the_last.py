"""Two benches take schemes that want the same last piece at the same moment.

Truth: brute force. One of the two has it, the other is told who; what is chosen and what is set
aside say the same afterwards.
"""

from __future__ import annotations

import threading
from collections import Counter
from importlib.resources import files
from pathlib import Path

import pytest

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.kinds import CHOICE
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.parts.set_aside import Overtaken, ToTake, choose_and_set_aside
from counterhoop.bench.shelf.whose import key_of
from counterhoop.bench.workshop import Workshop
from counterhoop.parts.piece import Piece
from counterhoop.scheme.plan import PartLine
from counterhoop.store.address import Address, address_of
from counterhoop.store.save import Saved
from counterhoop.store.shelf.look_up import all_pieces
from counterhoop.store.shelf.move import set_aside_for
from counterhoop.store.shelf.put import put_new_pieces
from counterhoop.store.store import open_store

SURVEY = files("counterhoop.bench").joinpath("demonstration", "lone-snare.toml").read_bytes()


ROUNDS = 50


@pytest.mark.parametrize(
    ("database", "fights"),
    [
        ("sqlite", 1),
        pytest.param("sqlite", 20, marks=pytest.mark.full),
        pytest.param("postgresql", 20, marks=pytest.mark.full),
    ],
)
def test_the_last_piece_goes_with_one_scheme(
    request: pytest.FixtureRequest, tmp_path: Path, database: str, fights: int
) -> None:
    data = tmp_path / "data"
    address = address_of(data=data)
    if database == "postgresql":
        address = address_of(request.getfixturevalue("cluster").new_database(), data=data)
    wins = Counter[bool]()
    for number in range(fights):
        with open_store(address) as store:
            shop = Workshop(store=store, works=WorksAtOnce())
            jobs = [
                take_in(shop, SURVEY, name="survey.toml", book_of=lambda _: b"", by="bench")
                for _ in range(2)
            ]
            pieces = (
                Piece(id=f"f{number}p{n}", number="", fitting=f"strainer {number} {n}")
                for n in range(ROUNDS)
            )
            with store.writing() as w:
                put_new_pieces(w, pieces, stamp=shop.stamp("bench"))
        won = fight(address, jobs, number)
        wins.update({False: won[jobs[0]], True: won[jobs[1]]})
    assert all(wins[side] > 0 for side in (False, True)), wins


def fight(address: Address, jobs: list[str], number: int) -> dict[str, int]:
    """Let two benches, each with a store of its own, take scheme after scheme at once."""
    ready, done = threading.Barrier(3), threading.Barrier(3)
    came_to: dict[str, object] = {}

    def bench(job: str) -> None:
        with open_store(address) as store:
            shop = Workshop(store=store, works=WorksAtOnce())
            for n in range(ROUNDS):
                kept = kept_job(shop, job)
                (drum,) = kept.drums
                part = PartLine(name=f"strainer {number} {n}", count=1, bought=0, each_minor=None)
                wanted = ToTake(
                    code=f"code {n}", moved=[], based_on=drum.kept(CHOICE).number, parts=[part],
                    seen={part.name: 1},
                )  # fmt: skip
                ready.wait(60)
                try:
                    came_to[job] = choose_and_set_aside(shop, kept, drum, wanted, by=f"of {job}")
                except Exception as fault:
                    came_to[job] = fault
                done.wait(60)

    threads = [threading.Thread(target=bench, args=(job,), daemon=True) for job in jobs]
    for one in threads:
        one.start()
    wins = dict.fromkeys(jobs, 0)
    with open_store(address) as store:
        shop = Workshop(store=store, works=WorksAtOnce())
        for n in range(ROUNDS):
            ready.wait(60)
            done.wait(60)
            winner, loser = sorted(jobs, key=lambda job: not isinstance(came_to[job], Saved))
            assert isinstance(came_to[winner], Saved), came_to
            told = came_to[loser]
            assert isinstance(told, Overtaken), came_to
            (says,) = told.says
            assert says.startswith(
                f"strainer {number} {n}: the one that lay there is gone, set aside for"
            )
            assert says.endswith(f"by of {winner}.")
            wins[winner] += 1
            assert stands(shop, winner) == (f"code {n}", [f"f{number}p{n}"])
            code, held = stands(shop, loser)
            assert code != f"code {n}"
            assert held == ([f"f{number}p{code.split()[1]}"] if code else [])
        with store.reading() as r:
            mine = (one for one in all_pieces(r) if one.piece.id.startswith(f"f{number}p"))
            free = sum(one.free for one in mine)
        still = sum(len(stands(shop, job)[1]) for job in jobs)
        assert free + still == ROUNDS
    for one in threads:
        one.join(60)
    return wins


def stands(shop: Workshop, job: str) -> tuple[str, list[str]]:
    """Return what is taken for a job's drum, and what is set aside for it."""
    (drum,) = kept_job(shop, job).drums
    with shop.store.reading() as r:
        held = [one.kept.piece.id for one in set_aside_for(r, key_of(job, drum.id))]
    return str(drum.kept(CHOICE).table.get("scheme") or ""), held
