"""The same survey gives the same schemes: twice in a row, and in a fresh process."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from counterhoop.bench.demo import open_demo
from counterhoop.bench.listing import listing
from counterhoop.bench.plan_job import plan_job

SURVEY = Path(__file__).parents[2] / "examples" / "survey.toml"
PRINT = (
    "import sys; from pathlib import Path;"
    "from counterhoop.bench.open_job import open_job;"
    "from counterhoop.bench.plan_job import plan_job;"
    "from counterhoop.bench.listing import listing;"
    "print(listing(plan_job(open_job(Path(sys.argv[1])))).model_dump_json(indent=2))"
)


@pytest.fixture(scope="module")
def first() -> str:
    return listing(plan_job(open_demo())).model_dump_json(indent=2)


def test_twice_in_a_row(first):
    assert listing(plan_job(open_demo())).model_dump_json(indent=2) == first


@pytest.mark.parametrize("seed", ["0", "1", "2"])
def test_in_a_fresh_process_whatever_order_its_sets_have(first, seed):
    said = subprocess.run(
        [sys.executable, "-c", PRINT, str(SURVEY)],
        env={**os.environ, "PYTHONHASHSEED": seed},
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    assert said.rstrip("\n") == first
