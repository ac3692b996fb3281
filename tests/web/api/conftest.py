"""The addresses for programs, with a workshop behind them and no guard before them."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace

import httpx
import pytest
from starlette.testclient import TestClient

from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.workshop import open_workshop
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite
from planned_once import PLANNED

SURVEY = Path(__file__).parents[3] / "examples" / "survey.toml"


@pytest.fixture
def api(tmp_path: Path) -> Iterator[SimpleNamespace]:
    with open_workshop(data=tmp_path / "data", works=PLANNED) as shop:
        app = make_app(shop)
        client: httpx.Client = TestClient(
            WhoMayWrite(app),
            raise_server_exceptions=False,
            headers={"accept": "application/json"},
        )
        yield SimpleNamespace(app=WhoMayWrite(app), shop=shop, ask=client)


def no_book(name: str) -> bytes:
    raise AssertionError(name)


@pytest.fixture
def demo(api: SimpleNamespace) -> str:
    content = SURVEY.read_bytes()
    return take_in(api.shop, content, name=SURVEY.name, book_of=no_book, by="a test")
