"""Puts this folder's own modules within reach, and the recordings of real drums."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from get_recordings import NotHere, folder
from recordings import Recordings, recordings_in


@pytest.fixture(scope="session")
def recordings() -> Recordings:
    """Real drums; without them a test skips, and fails where CI is set."""
    try:
        return recordings_in(folder())
    except NotHere as missing:
        if os.environ.get("CI"):
            pytest.fail(str(missing))
        pytest.skip(str(missing))
