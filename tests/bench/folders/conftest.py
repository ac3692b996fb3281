"""A workshop with an empty store and a clock that goes on by a minute at each look."""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from empty_workshop import DEMO, FIRST, no_book

from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from planned_once import PLANNED


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
def demo(shop: Workshop) -> str:
    """The demonstration's folder."""
    return take_in(shop, DEMO, name="survey.toml", book_of=no_book, by="window bench")
