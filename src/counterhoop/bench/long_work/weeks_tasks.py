"""The weeks and a day's list on paper, as long work."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.long_work.source import JobSource

if TYPE_CHECKING:
    from counterhoop.bench.promise.weeks import Weeks
    from counterhoop.papers.day_list import DayList


def make_weeks(
    _source: JobSource, weeks: Weeks, shop: str, paper: str, *,
    planned: bytes | None, progress: Callable[[str, float], None],
) -> Paper:  # fmt: skip
    """Set the weeks."""
    from counterhoop.papers.weeks import weeks_pdf

    progress("the weeks are set", 0.0)
    content = weeks_pdf(
        weeks.rows, shop=shop, calendar=weeks.calendar, now=weeks.now, says=weeks.says, paper=paper
    )
    return Paper(name="the weeks.pdf", media_type="application/pdf", content=content)


def make_day_list(
    _source: JobSource, today: DayList, paper: str, *,
    planned: bytes | None, progress: Callable[[str, float], None],
) -> Paper:  # fmt: skip
    """Set a day's list."""
    from counterhoop.papers.day_list import day_list_pdf

    progress("the list of the day is set", 0.0)
    content = day_list_pdf(today, paper=paper)
    return Paper(
        name=f"day list {today.day.isoformat()}.pdf", media_type="application/pdf", content=content
    )
