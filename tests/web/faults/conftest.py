"""Servers that are let fall over, and the rig of the store's own tests."""

from __future__ import annotations

import os
import signal
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[2] / "store"))

from served_process import Served
from store_postgres import HOW_TO_GET_IT, Cluster, programs


@pytest.fixture
def start():
    """Start servers; whatever still runs at the end is stopped."""
    running = []

    def begin(data, *words, most_bytes=0):
        running.append(Served(data, *words, most_bytes=most_bytes))
        return running[-1]

    yield begin
    for one in running:
        one.stop()


@pytest.fixture
def cluster():
    """A PostgreSQL server that may be stopped and started."""
    found = programs()
    if found is None and os.environ.get("CI"):
        pytest.fail(HOW_TO_GET_IT)
    if found is None:
        pytest.skip(HOW_TO_GET_IT)
    server = Cluster(found)
    yield server
    server.close()


@pytest.fixture
def kill():
    """End a process as the system does when memory runs out."""

    def end(pid):
        os.kill(pid, signal.SIGKILL)

    return end
