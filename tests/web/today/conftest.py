"""The small job of one snare with a yes to its scheme, and a browser without a script."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

# The small job and its clock.
sys.path.insert(0, str(Path(__file__).parents[2] / "bench" / "promise"))

from small_shop import QUICK, SNARE, Clock

from counterhoop.bench.folders.decide import Yes, approve
from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.folders.source import to_plan
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.long_work.answers import Answer, Done
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.promise.as_json import read_asked
from counterhoop.bench.promise.shop_plan import LINE, source_of
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite


class QuickSchedule(WorksAtOnce):
    """Plans the bench with little effort: that order and luck are right is tested elsewhere."""

    def ask(self, asked: Asked[Any]) -> Answer[Any]:
        if asked.line == LINE:
            less = replace(read_asked(asked.source.tables_json), **QUICK)
            asked = replace(asked, source=source_of(less))
        return super().ask(asked)


WORKS = QuickSchedule()
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
    """The snare's job, with a yes to what its scheme changes for good."""
    made = take_in(shop, SNARE, name="survey.toml", book_of=lambda _name: b"", by="window bench")
    kept = kept_job(shop, made)
    source = to_plan(kept, shop=drawer(shop)).source
    assert source is not None
    answer = shop.works.plan(source)
    assert isinstance(answer, Done)
    scheme = answer.value.drums[0].chosen
    yes = Yes(who="Nell", when="2030-05-14", how="by letter")
    approve(shop, made, kept.drums[0], scheme=scheme, shown_code=scheme.code, yes=yes, by="bench")
    return made


@pytest.fixture
def ask(shop: Workshop) -> TestClient:
    return TestClient(WhoMayWrite(make_app(shop)), follow_redirects=False)
