"""Puts this folder's own tasks within reach, here and in the processes that do them."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from counterhoop.bench.long_work.beside import WorksBeside


@pytest.fixture
def works() -> Iterator[WorksBeside]:
    opened = WorksBeside()
    yield opened
    opened.close()
