"""A job whose price is looked at: the worked small tom, planned once for all tests of this run."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "bench"))
sys.path.insert(0, str(Path(__file__).parent))

from price_sheet import TODAY, PriceSheet
from worked_drums import PLANNED, WorkedJob

from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web import date_desk
from counterhoop.web.bench_planned import BenchPlanned


@pytest.fixture(scope="module", autouse=True)
def no_bench_planned() -> Iterator[None]:
    """Leave the plan of all jobs to the tests of the date: each yes here would make it anew."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(date_desk, "bench_planned", lambda _shop: BenchPlanned())
        yield


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Workshop]:
    with open_store(address_of(data=tmp_path_factory.mktemp("data"))) as store:
        yield Workshop(store=store, works=PLANNED)


@pytest.fixture
def sheet(shop: Workshop) -> PriceSheet:
    """A job of its own, as it came in."""
    return PriceSheet(WorkedJob(shop, "small tom"))


@pytest.fixture(scope="module")
def priced(shop: Workshop) -> PriceSheet:
    """One job for all tests that leave it as they found it, its two heads left out of the price."""
    made = PriceSheet(WorkedJob(shop, "small tom"))
    assert made.send("line", key=made.unpriced, do="leave out").status_code == 303
    return made


@pytest.fixture(scope="module")
def offered(shop: Workshop) -> PriceSheet:
    """One job whose price was handed out once, after a line was left out."""
    made = PriceSheet(WorkedJob(shop, "small tom"))
    made.kept("line", key=[*made.unpriced, made.key("tune a drum")], do="leave out")
    made.hand_out(day=TODAY)
    return made
