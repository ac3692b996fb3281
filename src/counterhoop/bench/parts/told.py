"""What a store knows of a job's parts and a survey file does not: ticks, the shelf, addresses."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Any

from counterhoop.bench.parts.stripped import Stripped, counted_of
from counterhoop.parts.strip_down import StripDown


@dataclass(frozen=True, slots=True, kw_only=True)
class PartsTold:
    """What the papers of a job's parts are told beside its plan.

    Attributes
    ----------
    ticked : tuple of (str, str)
        By the drum's name: its document of ticks, as JSON.
    shelf : tuple of (str, int) or None
        How many of each piece are there for this job; None where nobody knows of a shelf.
    links : tuple of (str, str)
        By the drum's name: what the code on its bags opens.
    days : tuple of (str, date)
        By the drum's name: the day of its latest tick.
    bins : tuple of (str, str)
        By the piece: in which bins of the shelf it lies, in words.
    """

    ticked: tuple[tuple[str, str], ...] = ()
    shelf: tuple[tuple[str, int], ...] | None = None
    links: tuple[tuple[str, str], ...] = ()
    days: tuple[tuple[str, dt.date], ...] = ()
    bins: tuple[tuple[str, str], ...] = ()

    def counted(self, expected: StripDown) -> Stripped:
        """Return a drum's strip-down with what is ticked of it."""
        import json

        table: Any = json.loads(dict(self.ticked).get(expected.drum, "{}"))
        return counted_of(expected, table)
