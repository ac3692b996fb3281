"""The workshop's own sheets, with a workshop behind them and no guard before them."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace

import pytest
from starlette.testclient import TestClient

from counterhoop.bench.workshop import open_workshop
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite
from planned_once import PLANNED


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[SimpleNamespace]:
    with open_workshop(data=tmp_path / "data", works=PLANNED) as shop:
        client = TestClient(WhoMayWrite(make_app(shop)), raise_server_exceptions=False)
        yield SimpleNamespace(shop=shop, ask=client, data=tmp_path / "data")
