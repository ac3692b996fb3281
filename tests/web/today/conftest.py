"""A workshop with the small job of one snare, its clock, and a browser without a script."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

# The small job and its clock.
sys.path.insert(0, str(Path(__file__).parents[2] / "bench" / "promise"))

from small_shop import SNARE, Clock

from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite

WORKS = WorksAtOnce()
"""Remembers plans by what they rest on, so that the snare is planned once for all tests."""


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def shop(tmp_path: Path, clock: Clock) -> Iterator[Workshop]:
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=WORKS, now=clock)


@pytest.fixture
def job(shop: Workshop) -> str:
    return take_in(shop, SNARE, name="survey.toml", book_of=lambda _name: b"", by="window bench")


@pytest.fixture
def ask(shop: Workshop) -> TestClient:
    return TestClient(WhoMayWrite(make_app(shop)), follow_redirects=False)
