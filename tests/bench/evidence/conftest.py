"""A workshop with an empty store, and a drum in a job of it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from counterhoop.bench.folders.folder import KeptDrum, KeptJob, kept_job
from counterhoop.bench.folders.kinds import FACTS
from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from planned_once import PLANNED

NOW = dt.datetime(2026, 11, 28, 9, 0, tzinfo=dt.UTC)


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Workshop]:
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=PLANNED, now=lambda: NOW)


@pytest.fixture
def drum_with(shop: Workshop) -> Callable[[dict[str, Any]], tuple[KeptJob, KeptDrum]]:
    """Put a drum into a job of its own, with facts written of it."""

    def put(facts: dict[str, Any], *, size: str = "14 in dia x 8 in deep") -> Any:
        job = open_folder(shop, job={"number": "31-004"}, by="bench")
        drum = add_drum(shop, job, name="tom", survey={"size": size}, by="bench")
        ident = kept_job(shop, job).drums[0].id
        write_down(shop, job, Change(kind=FACTS, name=ident, value=facts, based_on=0), by="bench")
        kept = kept_job(shop, job)
        assert drum
        return kept, kept.drums[0]

    return put
