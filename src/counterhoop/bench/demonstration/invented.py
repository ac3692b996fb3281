"""The files of the demonstration's jobs, and what these are called."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from functools import cache
from importlib.resources import files
from typing import Final

from counterhoop.bench.folders.write_down import title_of

FIRST_CALL: Final = "first-call"
SURVEYED: Final = ("waits-for-a-yes", "under-glue", "late", "handed-over")
"""Jobs with a survey of their own."""
BESIDE: Final = ("survey.toml", "lone-snare.toml")
"""The worked job, and the small one beside it."""


@cache
def titles() -> frozenset[str]:
    """Return what its jobs are called."""
    ways = (
        *((name,) for name in BESIDE),
        ("jobs", FIRST_CALL, "folder.toml"),
        *(("jobs", name, "survey.toml") for name in SURVEYED),
    )
    return frozenset(title_of(tomllib.loads(read(*way))) for way in ways)


def titles_in_sight(every: Iterable[str]) -> bool:
    """Tell whether one of these jobs is among those that are called so."""
    return not titles().isdisjoint(every)


def read(*way: str) -> str:
    """Return a file of the demonstration."""
    return files("counterhoop.bench").joinpath("demonstration", *way).read_text("utf-8")
