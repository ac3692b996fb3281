"""A job of one snare whose price and cuts were agreed, in mid-work."""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Iterator
from importlib.resources import files
from itertools import count
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "price"))
sys.path.insert(0, str(Path(__file__).parent))

from mid_work import BY, DAY, InWork
from priced_job import offered, saved, told

from counterhoop.bench.folders.decide import Yes, approve
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.price.offers import accept
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store

FIRST = dt.datetime(2030, 5, 14, 9, 0, tzinfo=dt.UTC)
SURVEY = files("counterhoop.bench").joinpath("demonstration", "lone-snare.toml")
PLANNED = WorksAtOnce()
"""Remembers plans by what they rest on, so that the same drum is planned once."""


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Workshop]:
    minutes = count()
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(
            store=store, works=PLANNED, now=lambda: FIRST + dt.timedelta(minutes=next(minutes))
        )


@pytest.fixture
def fresh(shop: Workshop) -> InWork:
    """As it was booked in: nothing is agreed."""
    job = take_in(shop, SURVEY.read_bytes(), name="survey.toml", book_of=lambda _name: b"", by=BY)
    return InWork(shop=shop, id=job)


@pytest.fixture
def work(fresh: InWork) -> InWork:
    """Price and cuts are agreed."""
    offered(fresh, day=DAY)
    saved(accept(fresh.shop, fresh.job, 1, who="Tobin", when=DAY, how="by letter", **told(fresh)))
    scheme = fresh.quote().drums[0].scheme
    yes = Yes(who="Tobin", when=DAY, how="signed")
    saved(
        approve(
            fresh.shop, fresh.id, fresh.drum, scheme=scheme, shown_code=scheme.code, yes=yes, by=BY
        )
    )
    return fresh
