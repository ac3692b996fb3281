"""The small job of one snare with a yes to its scheme, and a browser without a script."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

# The small job and its clock.
sys.path.insert(0, str(Path(__file__).parents[2] / "bench" / "today"))
sys.path.insert(0, str(Path(__file__).parents[2] / "bench" / "promise"))

from allowed_job import keep_snare
from small_shop import QUICK, Clock

from counterhoop.bench.long_work.answers import Answer
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.promise.as_json import read_asked
from counterhoop.bench.promise.shop_plan import LINE, source_of
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite
from planned_once import PLANNED


class QuickSchedule(WorksAtOnce):
    """Plans the bench with little effort: that order and luck are right is tested elsewhere."""

    def ask(self, asked: Asked[Any]) -> Answer[Any]:
        if asked.line == LINE:
            less = replace(read_asked(asked.source.tables_json), **QUICK)
            return super().ask(replace(asked, source=source_of(less)))
        return PLANNED.ask(asked)


WORKS = QuickSchedule()


@pytest.fixture(scope="session")
def snare(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """Return a data folder with the snare in it, a yes to its scheme, and its job."""
    data = tmp_path_factory.mktemp("snare") / "data"
    return data, keep_snare(data, WORKS, yes=True)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def shop(tmp_path: Path, snare: tuple[Path, str], clock: Clock) -> Iterator[Workshop]:
    shutil.copytree(snare[0], tmp_path / "data")
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=WORKS, now=clock)


@pytest.fixture
def job(snare: tuple[Path, str]) -> str:
    return snare[1]


@pytest.fixture
def ask(shop: Workshop) -> TestClient:
    return TestClient(WhoMayWrite(make_app(shop)), follow_redirects=False)
