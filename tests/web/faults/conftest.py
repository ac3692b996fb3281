"""Servers that are let fall over."""

from __future__ import annotations

import os
import signal
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from served_process import Served


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
def kill():
    """End a process as the system does when memory runs out."""

    def end(pid):
        os.kill(pid, signal.SIGKILL)

    return end
