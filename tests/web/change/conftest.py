"""The snare in mid-work, and who asks for its page without a script."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2] / "bench" / "price"))
sys.path.insert(0, str(Path(__file__).parents[2] / "bench" / "change"))

from mid_work import fresh, shop, work
from starlette.testclient import TestClient

from counterhoop.bench.workshop import Workshop
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite

__all__ = ["ask", "fresh", "shop", "work"]


@pytest.fixture
def ask(shop: Workshop) -> TestClient:
    return TestClient(WhoMayWrite(make_app(shop)), follow_redirects=False)
