"""A workshop with a job of one drum: the lone snare, or the small tom that has several ways."""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Callable, Iterator
from importlib.resources import files
from itertools import count
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from priced_job import BY, OnTheBench

from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from planned_once import PLANNED

FIRST = dt.datetime(2030, 5, 14, 9, 0, tzinfo=dt.UTC)
DEMO = files("counterhoop.bench").joinpath("demonstration")


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Workshop]:
    minutes = count()
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(
            store=store,
            works=PLANNED,
            now=lambda: FIRST + dt.timedelta(minutes=next(minutes)),
        )


@pytest.fixture
def came_in(shop: Workshop) -> Callable[[bytes], OnTheBench]:
    def take(survey: bytes) -> OnTheBench:
        job = take_in(shop, survey, name="survey.toml", book_of=lambda _name: b"", by=BY)
        return OnTheBench(shop=shop, id=job)

    return take


@pytest.fixture
def snare(came_in: Callable[[bytes], OnTheBench]) -> OnTheBench:
    return came_in(DEMO.joinpath("lone-snare.toml").read_bytes())


@pytest.fixture
def tom(came_in: Callable[[bytes], OnTheBench]) -> OnTheBench:
    text = DEMO.joinpath("survey.toml").read_text()
    head = text[: text.index("[[match]]")]
    stock = text[text.index("[stock]") : text.index("[[approval]]")]
    its = text[text.index('[drums."small tom"]') : text.index('[drums."large tom"]')]
    return came_in(f"{head}{stock}{its}".encode())
