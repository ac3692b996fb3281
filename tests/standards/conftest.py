"""Data of independent packages, as fixtures."""

from __future__ import annotations

import csv
from collections.abc import Callable
from importlib.metadata import files
from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def bd_warehouse() -> Callable[[str], list[dict[str, str]]]:
    """Read a CSV file of bd_warehouse without importing it, which needs a CAD kernel."""

    def read(name: str) -> list[dict[str, str]]:
        listed = [file for file in files("bd_warehouse") or () if file.name == name]
        assert len(listed) == 1, f"bd_warehouse does not ship {name}"
        with Path(str(listed[0].locate())).open(encoding="utf-8") as text:
            return [
                {key.strip(): value.strip() for key, value in row.items()}
                for row in csv.DictReader(text)
            ]

    return read
