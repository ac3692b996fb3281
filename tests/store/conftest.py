"""Every test of the store runs on an SQLite file and on a PostgreSQL server."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from counterhoop.store.address import Address, address_of
from counterhoop.store.store import Store, open_store


@pytest.fixture(params=["sqlite", "postgresql"])
def new_address(request: pytest.FixtureRequest, tmp_path: Path) -> Callable[[str], Address]:
    """Return a maker of addresses at which nothing is yet."""

    def make(name: str) -> Address:
        if request.param == "sqlite":
            return address_of(data=tmp_path / name)
        server = request.getfixturevalue("cluster")
        return address_of(server.new_database(), data=tmp_path / name)

    return make


@pytest.fixture
def store(new_address: Callable[[str], Address]) -> Iterator[Store]:
    """Open an empty store."""
    with open_store(new_address("store")) as opened:
        yield opened


@pytest.fixture
def file_store(tmp_path: Path) -> Iterator[Store]:
    """Open an empty store in a file, for what does not hang on the database."""
    with open_store(address_of(data=tmp_path / "store")) as opened:
        yield opened
