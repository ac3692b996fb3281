"""The small job of one snare, and a clock that stands until it is set."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

# The small job and its clock.
sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[1] / "promise"))

from allowed_job import keep_snare, say_yes
from small_shop import Clock

from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from planned_once import PLANNED


@pytest.fixture(scope="session")
def snare(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """Return a data folder with the snare in it, and its job."""
    data = tmp_path_factory.mktemp("snare") / "data"
    return data, keep_snare(data, PLANNED)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def shop(tmp_path: Path, snare: tuple[Path, str], clock: Clock) -> Iterator[Workshop]:
    shutil.copytree(snare[0], tmp_path / "data")
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=PLANNED, now=clock)


@pytest.fixture
def job(snare: tuple[Path, str]) -> str:
    return snare[1]


@pytest.fixture
def allowed(shop: Workshop, job: str) -> str:
    """The same job with a yes to what its scheme changes for good."""
    say_yes(shop, job)
    return job
