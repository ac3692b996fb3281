"""A workshop with the small job of one snare, and a clock that stands still until it is set."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from small_shop import SNARE, Clock

from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from planned_once import PLANNED


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def shop(tmp_path: Path, clock: Clock) -> Iterator[Workshop]:
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=PLANNED, now=clock)


@pytest.fixture
def job(shop: Workshop) -> str:
    return take_in(shop, SNARE, name="survey.toml", book_of=lambda _name: b"", by="window bench")
