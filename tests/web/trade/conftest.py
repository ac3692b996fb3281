"""A workshop with its pages: empty, or with one drum in it."""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2] / "bench" / "record"))
sys.path.insert(0, str(Path(__file__).parents[2] / "bench" / "price"))

from handed_job import tom_on_the_bench
from priced_job import OnTheBench
from starlette.testclient import TestClient

from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite
from planned_once import PLANNED

FIRST = dt.datetime(2030, 5, 14, 9, 0, tzinfo=dt.UTC)


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Workshop]:
    minutes = count()
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(
            store=store, works=PLANNED, now=lambda: FIRST + dt.timedelta(minutes=next(minutes))
        )


@pytest.fixture
def ask(shop: Workshop) -> TestClient:
    return TestClient(WhoMayWrite(make_app(shop)), follow_redirects=False)


@pytest.fixture
def tom(shop: Workshop) -> OnTheBench:
    return tom_on_the_bench(shop)
