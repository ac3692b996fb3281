"""The small job of one snare with a yes to its scheme, and a clock that stands until it is set."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

# The small job and its clock.
sys.path.insert(0, str(Path(__file__).parents[1] / "promise"))

from small_shop import SNARE, Clock

from counterhoop.bench.folders.decide import Yes, approve
from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.folders.source import to_plan
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.long_work.answers import Done
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store

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
def allowed(shop: Workshop, job: str) -> str:
    """The same job with a yes to what its scheme changes for good."""
    kept = kept_job(shop, job)
    source = to_plan(kept, shop=drawer(shop)).source
    assert source is not None
    answer = shop.works.plan(source)
    assert isinstance(answer, Done)
    scheme = answer.value.drums[0].chosen
    yes = Yes(who="Nell", when="2030-05-14", how="by letter")
    approve(shop, job, kept.drums[0], scheme=scheme, shown_code=scheme.code, yes=yes, by="bench")
    return job
