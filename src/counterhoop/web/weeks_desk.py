"""The weeks gathered for their sheet: picture, the same in words, what dries, what is late."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from counterhoop.bench.promise.promises import clock_of
from counterhoop.bench.promise.shop_plan import ShopPlan
from counterhoop.bench.promise.weeks import Weeks, weeks_of
from counterhoop.bench.workshop import Workshop
from counterhoop.papers.screen.play import to_screen
from counterhoop.papers.weeks import WEEKS_ACROSS, meanwhile
from counterhoop.papers.weeks_calendar import Calendar
from counterhoop.papers.weeks_picture import draw_weeks, row_says
from counterhoop.web.bench_planned import BenchPlanned, bench_planned
from counterhoop.web.weeks_words import JobLine, days_to_print, dries_says, job_lines

WEEK_MM, NARROW_WEEK_MM = 46.0, 36.0
"""How wide a week is drawn: four of them beside a margin index, one with its names on a phone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeeksPicture:
    """One picture of a few weeks: its caption, its id, and how it is drawn for a page."""

    caption: str
    ident: str
    svg: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class WeeksDesk:
    """What the sheet of the weeks shows.

    Attributes
    ----------
    planned : BenchPlanned
        How far the plan is; the rest is empty until it is there.
    jobs : tuple of JobLine
        What is late first.
    wide, narrow : tuple of WeeksPicture
        A few weeks each, with the drums on which anything happens; for a phone held upright one.
    rows : tuple of str
        The same in words, a sentence for each drum.
    dries : tuple of str
        What is left alone, and what hands are at meanwhile.
    says : tuple of str
        How late the plan is, how sure that is, what it takes for granted.
    days : tuple of (str, str)
        Days of which the list can be printed.
    """

    planned: BenchPlanned
    jobs: tuple[JobLine, ...] = ()
    wide: tuple[WeeksPicture, ...] = ()
    narrow: tuple[WeeksPicture, ...] = ()
    rows: tuple[str, ...] = ()
    dries: tuple[str, ...] = ()
    says: tuple[str, ...] = ()
    days: tuple[tuple[str, str], ...] = ()

    @property
    def face(self) -> str:
        """The answer: what is late, else that everything holds."""
        late = [one for one in self.jobs if one.late]
        if late:
            names = ", ".join(one.title for one in late)
            return f"Late as the bench stands: {names}."
        unplanned = ", ".join(one.title for one in self.jobs if one.unplanned)
        if unplanned:
            return f"Promised, and not planned: {unplanned}. Every other promise holds."
        if any(one.promised for one in self.jobs):
            return "Every promise holds."
        return "Nothing on the bench is promised for a day." if self.jobs else "The bench is empty."


def weeks_desk(shop: Workshop) -> WeeksDesk:
    """Gather the weeks."""
    known = bench_planned(shop)
    if known.plan is None:
        return WeeksDesk(planned=known)
    now = clock_of(shop)
    made = weeks_of(known.plan, now=now)
    return WeeksDesk(
        planned=known,
        jobs=job_lines(known.plan),
        wide=tuple(_wide(made)),
        narrow=tuple(_narrow(made)),
        rows=tuple(row_says(row, made.calendar) for row in made.rows),
        dries=tuple(
            dries_says(one, today=now.date())
            for one in meanwhile(made.rows, calendar=made.calendar)
        ),
        says=_says(known.plan),
        days=tuple(days_to_print(known.plan)),
    )


def _says(plan: ShopPlan) -> tuple[str, ...]:
    return tuple(line for line in (*plan.says, plan.looked) if line)


def _wide(made: Weeks) -> Iterator[WeeksPicture]:
    for start in range(0, made.calendar.days, 7 * WEEKS_ACROSS):
        days = min(7 * WEEKS_ACROSS, made.calendar.days - start)
        part = _part(made.calendar, start=start, days=days, wide_mm=WEEK_MM * days / 7)
        yield from _drawn(made, part, name=f"weeks-{start}")


def _narrow(made: Weeks) -> Iterator[WeeksPicture]:
    for start in range(0, made.calendar.days, 7):
        part = _part(made.calendar, start=start, days=7, wide_mm=NARROW_WEEK_MM)
        yield from _drawn(made, part, name=f"week-{start}")


def _part(calendar: Calendar, *, start: int, days: int, wide_mm: float) -> Calendar:
    first = calendar.first + dt.timedelta(days=start)
    return replace(calendar, first=first, days=days, wide_mm=wide_mm)


def _drawn(made: Weeks, calendar: Calendar, *, name: str) -> Iterator[WeeksPicture]:
    """Draw the drums on which anything happens in these weeks; nothing where there are none."""
    rows = [
        row
        for row in made.rows
        if any(bar.ends > calendar.begins and bar.begins < calendar.ends for bar in row.bars)
        or {*row.comes, row.promised} & {*calendar.each()}
    ]
    if rows:
        drawn = draw_weeks(rows, calendar=calendar, now=made.now, name=name)
        yield WeeksPicture(
            caption=drawn.title, ident=f"{name}-drawn", svg=Markup(to_screen(drawn, ident=name))
        )
