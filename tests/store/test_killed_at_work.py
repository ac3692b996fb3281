"""Killed in the middle of a migration, a backup or a restore: whole or not at all."""

from __future__ import annotations

import random
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from store_samples import START, fill, rows_of

from counterhoop.store.address import Address, address_of
from counterhoop.store.copies.backup import back_up
from counterhoop.store.copies.restore import restore
from counterhoop.store.copies.verify import verify
from counterhoop.store.store import open_store

PROGRAM = Path(__file__).parent / "work_until_killed.py"
TIMES = pytest.mark.parametrize("times", [2, pytest.param(60, marks=pytest.mark.full)])


def killed(what: str, address: Address, *, to: Path, seed: int) -> list[str]:
    """Let it work, kill it at a random moment, and return the numbers that it called finished."""
    words = [sys.executable, str(PROGRAM), what, str(address.folder), address.database, str(to)]
    with subprocess.Popen(
        words, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    ) as process:
        assert process.stdout is not None
        said = process.stdout.readline()
        assert said == "ready\n", said + process.stdout.read()
        time.sleep(random.Random(seed).uniform(0.0, 0.3))
        process.kill()
        lines = process.stdout.readlines()
    assert process.returncode == -signal.SIGKILL, lines
    return [line.strip() for line in lines if line.endswith("\n")]


@TIMES
def test_killed_while_migrating(
    new_address: Callable[[str], Address], tmp_path: Path, times: int
) -> None:
    address = new_address("store")
    with open_store(address) as store:
        fill(store)
        before = rows_of(store)
    for seed in range(times):
        killed("migrate", address, to=tmp_path, seed=seed)
        with open_store(address) as store:
            verdict = verify(store)
            assert (verdict.faults, verdict.leftovers) == ((), ())
            assert rows_of(store) == before
        shutil.rmtree(address.folder / "before-migration", ignore_errors=True)


@TIMES
def test_killed_while_backing_up(tmp_path: Path, times: int) -> None:
    address = address_of(data=tmp_path / "store")
    with open_store(address) as store:
        fill(store)
        before = rows_of(store)
    for seed in range(times):
        folder = tmp_path / f"copies {seed}"
        finished = killed("back up", address, to=folder, seed=seed)
        archives = sorted(folder.glob("[!.]*"), key=lambda file: file.stat().st_mtime)
        assert {f"{number}.zip" for number in ("0", *finished)} <= {one.name for one in archives}
        # One more may be whole: killed before it could say so. None is half.
        restore(archives[-1], to=address_of(data=folder / "again"))
        with open_store(address_of(data=folder / "again")) as again:
            assert rows_of(again) == before
            assert verify(again).sound
    with open_store(address) as store:
        assert rows_of(store) == before


@TIMES
def test_killed_while_restoring(tmp_path: Path, times: int) -> None:
    address = address_of(data=tmp_path / "store")
    with open_store(address) as store:
        fill(store)
        before = rows_of(store)
        archive = tmp_path / "whole.zip"
        back_up(store, to=archive, made_at=START)
    for seed in range(times):
        folder = tmp_path / f"places {seed}"
        folder.mkdir()
        shutil.copyfile(archive, folder / "whole.zip")
        finished = killed("restore", address, to=folder, seed=seed)
        places = {one.name for one in folder.iterdir() if one.is_dir() and one.name[0] != "."}
        assert {"0", *finished} <= places
        for place in sorted(places, key=int)[-2:]:
            with open_store(address_of(data=folder / place)) as again:
                assert rows_of(again) == before
                assert verify(again).sound
