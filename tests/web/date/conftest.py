"""A workshop with two snares on the bench and a clock that stands still; its pages."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2] / "bench" / "promise"))
sys.path.insert(0, str(Path(__file__).parent))

from small_shop import SNARE, Clock
from starlette.testclient import TestClient
from two_snares import Counted, Desk

from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    works, clock = Counted(), Clock()
    data = tmp_path_factory.mktemp("date") / "data"
    with open_store(address_of(data=data)) as store:
        shop = Workshop(store=store, works=works, now=clock)
        ask = TestClient(WhoMayWrite(make_app(shop)), follow_redirects=False)
        desk = Desk(shop=shop, works=works, ask=ask, clock=clock)
        for number, client in (("31-001", "Nell Ashby"), ("31-002", "Odo Fenwright")):
            survey = SNARE.decode().replace("26-034", number).replace("Tobin Ashgrove", client)
            desk.jobs.append(
                take_in(
                    shop, survey.encode(), name="survey.toml", book_of=lambda _: b"",
                    by="window bench",
                )
            )  # fmt: skip
        yield desk


@pytest.fixture
def desk(opened: Desk) -> Iterator[Desk]:
    """The workshop as the tests of a file share it; what was made slow is quick again after."""
    yield opened
    opened.works.slow = opened.works.stopped = False
