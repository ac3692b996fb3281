"""The demonstration's dates, moved so that they lie as far back today as they did when written."""

from __future__ import annotations

import datetime as dt
import re
from typing import Final

WRITTEN_FOR: Final = dt.date(2026, 6, 1)
"""The Monday on which the files of these jobs have been put on a bench."""
_DAY: Final = re.compile(r"(?<![0-9])20[0-9]{2}-[0-9]{2}-[0-9]{2}(?![0-9])")


def moved_to(text: str, *, today: dt.date) -> str:
    """Return a file with each of its days moved by whole weeks, so that a Monday stays one.

    What lay before the Monday that the file was written for lies before this week's Monday.

    Examples
    --------
    >>> moved_to('came_on = "2026-05-29"', today=dt.date(2030, 5, 15))
    'came_on = "2030-05-10"'
    """
    weeks = (today - WRITTEN_FOR) // dt.timedelta(weeks=1)

    def moved(found: re.Match[str]) -> str:
        day = dt.date.fromisoformat(found[0]) + dt.timedelta(weeks=weeks)
        return day.isoformat()

    return _DAY.sub(moved, text)
