"""A workshop with a small tom in it."""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[1] / "price"))

from handed_job import tom_on_the_bench
from priced_job import OnTheBench

from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from planned_once import PLANNED

FIRST = dt.datetime(2030, 5, 14, 9, 0, tzinfo=dt.UTC)


@pytest.fixture
def tom(tmp_path: Path) -> Iterator[OnTheBench]:
    minutes = count()
    with open_store(address_of(data=tmp_path / "data")) as store:
        shop = Workshop(
            store=store, works=PLANNED, now=lambda: FIRST + dt.timedelta(minutes=next(minutes))
        )
        yield tom_on_the_bench(shop)
