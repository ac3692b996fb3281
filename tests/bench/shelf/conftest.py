"""A workshop with an empty shelf and two open jobs, of which one is A. Hale's."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.shelf.whose import key_of
from counterhoop.bench.workshop import Workshop, open_workshop
from planned_once import PLANNED

BY = "window bench"


@dataclass(frozen=True)
class Jobs:
    """What pieces can be set aside for."""

    shop: Workshop
    hale: str
    hale_whole: str
    rowe: str


@pytest.fixture
def jobs(tmp_path: Path) -> Iterator[Jobs]:
    with open_workshop(data=tmp_path / "jobs", works=PLANNED) as shop:
        made = []
        for number, client, drum in (("214", "A. Hale", "small tom"), ("215", "B. Rowe", "snare")):
            job = open_folder(shop, job={"number": number, "client": client}, by=BY)
            made.append((job, add_drum(shop, job, name=drum, survey={}, by=BY)))
        (hale, tom), (rowe, snare) = made
        yield Jobs(
            shop=shop, hale=key_of(hale, tom), hale_whole=key_of(hale), rowe=key_of(rowe, snare)
        )
