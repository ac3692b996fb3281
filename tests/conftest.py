"""Of every test: fixed seeds, reduced counts, the failed checks said at the end, one database."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

sys.path.insert(0, str(Path(__file__).parent))

from store_postgres import HOW_TO_GET_IT, Cluster, programs

settings.register_profile(
    "reduced",
    derandomize=True,
    deadline=None,
    max_examples=50,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.register_profile("full", settings.get_profile("reduced"), max_examples=2000)


def asks_for_full(markers: str) -> bool:
    """Tell whether a marker expression picks the tests at full counts."""
    return bool(re.search(r"(?<!not )\bfull\b", markers))


def pytest_configure(config: pytest.Config) -> None:
    if not config.getoption("--hypothesis-profile", default=None):
        markers = str(config.getoption("markexpr", default=""))
        settings.load_profile("full" if asks_for_full(markers) else "reduced")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    failed = os.environ.get("COUNTERHOOP_FAILED_CHECKS", "")
    if failed:
        terminalreporter.section("checks that failed before the tests", red=True)
        terminalreporter.line(f"{failed}: see above. The exit code will not be 0.")


@pytest.fixture(scope="session", autouse=True)
def stores_made_once() -> Iterator[None]:
    """Have what makes a new store put together once, where a test that was found opens one."""
    with pytest.MonkeyPatch.context() as patch:
        if "counterhoop.store.store" in sys.modules:
            from store_made_once import make_stores_once

            make_stores_once(patch)
        yield


@pytest.fixture(scope="session")
def cluster() -> Iterator[Cluster]:
    """Start a PostgreSQL server once for a process; a test that stops it starts it again."""
    found = programs()
    if found is None and os.environ.get("CI"):
        pytest.fail(HOW_TO_GET_IT)
    if found is None:
        pytest.skip(HOW_TO_GET_IT)
    server = Cluster(found)
    yield server
    server.close()
