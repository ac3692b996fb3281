"""A workshop with the small job of one snare: its strainer is gone, its scheme puts it back."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from importlib.resources import files
from itertools import count
from pathlib import Path

import pytest

from counterhoop.bench.folders.folder import KeptDrum, KeptJob, kept_job
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.shelf.cards import write_piece
from counterhoop.bench.workshop import Workshop
from counterhoop.parts.piece import Piece
from counterhoop.store.address import address_of
from counterhoop.store.shelf.look_up import Kept
from counterhoop.store.store import open_store
from planned_once import PLANNED

FIRST = dt.datetime(2030, 5, 14, 9, 0, tzinfo=dt.UTC)
SNARE = files("counterhoop.bench").joinpath("demonstration", "lone-snare.toml").read_bytes()


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
def job(shop: Workshop) -> str:
    return take_in(shop, SNARE, name="survey.toml", book_of=lambda _name: b"", by="window bench")


@pytest.fixture
def now(shop: Workshop, job: str) -> Callable[[], tuple[KeptJob, KeptDrum]]:
    """Return the job and its one drum as they are kept now."""

    def look() -> tuple[KeptJob, KeptDrum]:
        kept = kept_job(shop, job)
        return kept, kept.drums[0]

    return look


@pytest.fixture
def put(shop: Workshop) -> Callable[..., Kept]:
    """Put a piece on the shelf."""
    numbers = count(1)

    def one(**said: object) -> Kept:
        fields = {"number": f"T{next(numbers)}", **said}
        kept = write_piece(shop, None, fields, based_on=0, by="window bench")
        assert isinstance(kept.piece, Piece)
        return kept

    return one
