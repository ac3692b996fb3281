"""A workshop whose plans are worked out once for all tests of the same drums."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

# This folder's own modules: the worked job's drums.
sys.path.insert(0, str(Path(__file__).parent))

from worked_drums import PLANNED

from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=PLANNED)
