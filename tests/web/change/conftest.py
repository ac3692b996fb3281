"""The snare in mid-work, and who asks for its page without a script."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2] / "bench" / "price"))
sys.path.insert(0, str(Path(__file__).parents[2] / "bench" / "change"))

from fastapi import FastAPI
from mid_work import fresh, made, shop, work
from starlette.testclient import TestClient

from counterhoop.bench.workshop import Workshop
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite

__all__ = ["app", "ask", "fresh", "made", "shop", "work"]


@pytest.fixture(scope="session")
def app() -> FastAPI:
    """All pages, joined once."""
    return make_app(None)


@pytest.fixture
def ask(app: FastAPI, shop: Workshop) -> TestClient:
    app.state.workshop = shop
    return TestClient(WhoMayWrite(app), follow_redirects=False)
