"""What the tests of folders begin with."""

from __future__ import annotations

import datetime as dt
from importlib.resources import files

FIRST = dt.datetime(2030, 5, 17, 9, 0, tzinfo=dt.UTC)
DEMO = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()


def no_book(name: str) -> bytes:
    raise AssertionError(name)
