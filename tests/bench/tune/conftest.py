"""A small job planned once for all tests of heads and tuning."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from small_kits import FLOOR, LARGE, SMALL, planned

from counterhoop.bench.plan_job import JobPlan


@pytest.fixture(scope="session")
def three() -> JobPlan:
    """Three drums of which nothing is written but the survey."""
    return planned(SMALL, LARGE, FLOOR)
