"""A workshop, empty or with the small tom in it."""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "record"))
sys.path.insert(0, str(Path(__file__).parents[1] / "price"))

from handed_job import tom_on_the_bench
from priced_job import OnTheBench

from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from planned_once import PLANNED

FIRST = dt.datetime(2030, 5, 14, 9, 0, tzinfo=dt.UTC)


@pytest.fixture(scope="module")
def as_found(tmp_path_factory: pytest.TempPathFactory) -> Iterator[OnTheBench]:
    """The tom as it came in; nobody writes on it."""
    with open_store(address_of(data=tmp_path_factory.mktemp("data"))) as store:
        yield tom_on_the_bench(Workshop(store=store, works=PLANNED, now=lambda: FIRST))


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Workshop]:
    minutes = count()
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(
            store=store, works=PLANNED, now=lambda: FIRST + dt.timedelta(minutes=next(minutes))
        )


@pytest.fixture
def tom(shop: Workshop) -> OnTheBench:
    return tom_on_the_bench(shop)
