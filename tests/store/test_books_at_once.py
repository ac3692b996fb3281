"""Programs that write in both running books at once, or are killed at it: no gap, no row lost."""

from __future__ import annotations

import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from running_samples import says_its_number
from sqlalchemy import select

from counterhoop.store.address import Address
from counterhoop.store.copies.verify import verify
from counterhoop.store.running.issued import issued_in_series
from counterhoop.store.store import Store, open_store
from counterhoop.store.tables import issued, work_log
from counterhoop.store.work_log.read_log import all_workings

PROGRAM = Path(__file__).parent / "write_in_books.py"
BENCHES = ("window bench", "phone")


@pytest.mark.parametrize("times", [50, pytest.param(1000, marks=pytest.mark.full)])
def test_two_programs_at_once(new_address: Callable[[str], Address], times: int) -> None:
    """Brute force: at any moment a reader sees all numbers from one on.

    Their order therefore is the order in which they were kept.
    """
    address, seen = new_address("store"), 0
    with open_store(address) as store:
        both = [begun(address, bench=bench, times=times) for bench in BENCHES]
        while seen < 2 * times:
            ended = all(one.poll() is not None for one in both)
            now = numbers_in(store)
            assert now == [*range(1, len(now) + 1)]
            assert len(now) >= seen
            seen = len(now)
            assert seen == 2 * times or not ended, "some were never drawn"
            time.sleep(0.02)
        said = [one.communicate()[0].split() for one in both]
        assert sorted(int(n) for its in said for n in its) == [*range(1, 2 * times + 1)]
        assert all([int(n) for n in its] == sorted(map(int, its)) for its in said)
        with store.reading() as r:
            papers, workings = issued_in_series(r, "invoice"), all_workings(r)
        assert [one.entry for one in papers] == [int(one.number) for one in papers]
        assert all(one.body == says_its_number(one.number) for one in papers)
        # What each bench did is there, in its order.
        for bench in BENCHES:
            own = [one for one in workings if one.bench == bench]
            picked = [f"turn {turn}" for turn in range(1, times + 1) if turn % 3]
            assert [one.operation for one in own] == picked
            assert [one.is_open for one in own[:-1]] == [False] * (len(own) - 1)
            assert sum(one.count for one in own) == times // 3
        assert verify(store).sound


@pytest.mark.parametrize("times", [1, pytest.param(30, marks=pytest.mark.full)])
def test_killed_in_the_middle(new_address: Callable[[str], Address], times: int) -> None:
    address, there = new_address("store"), 0
    for seed in range(times):
        with begun(address, bench=f"bench {seed}", times=100_000) as process:
            time.sleep(random.Random(seed).uniform(0.0, 0.4))
            process.kill()
            assert process.stdout is not None
            said = [line for line in process.stdout.readlines() if line.endswith("\n")]
        assert process.returncode == -signal.SIGKILL
        with open_store(address) as store:
            now = numbers_in(store)
            assert now == [*range(1, len(now) + 1)]
            # One more may be kept: killed before it could say so.
            assert len(now) - there - len(said) in (0, 1)
            with store.reading() as r:
                drawn = len(now) - there
                its = select(work_log.c.kind).where(work_log.c.bench == f"bench {seed}")
                rows = r.execute(its).scalars().all()
            # Each transaction that is kept is kept whole: of three turns two pick up, and what is
            # in hand is put down by the second and the third.
            assert len(rows) == drawn + (drawn + 1) // 3
            there = len(now)
            assert verify(store).sound


def numbers_in(store: Store) -> list[int]:
    with store.reading() as r:
        return [*r.execute(select(issued.c.number).order_by(issued.c.number)).scalars()]


def begun(address: Address, *, bench: str, times: int) -> subprocess.Popen[str]:
    """Start the program that writes, and let it begin."""
    words = [str(address.folder), address.database, bench, str(times)]
    process = subprocess.Popen(
        [sys.executable, str(PROGRAM), *words],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
    )  # fmt: skip
    assert process.stdin is not None
    assert process.stdout is not None
    assert process.stdout.readline() == "ready\n"
    process.stdin.write("go\n")
    process.stdin.flush()
    return process
