"""A workshop with its pages, and a job in it."""

from __future__ import annotations

import sys
from importlib.resources import files
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))
from starlette.testclient import TestClient

from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite
from planned_once import PLANNED

DEMO = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()
PART = {"HX-Request": "true"}


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=PLANNED)


@pytest.fixture
def ask(shop):
    return TestClient(WhoMayWrite(make_app(shop)), follow_redirects=False)


@pytest.fixture
def job(shop):
    made = open_folder(shop, job={"number": "30-001", "client": "Nell <b>Ashby</b>"}, by="bench")
    add_drum(shop, made, name="small tom", survey={"size": "12 in dia x 8 in deep"}, by="bench")
    return made
