"""The weeks gathered for their sheet: picture, the same in words, what dries, what is late."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace

from markupsafe import Markup

from counterhoop.bench.promise.promises import clock_of
from counterhoop.bench.promise.shop_plan import ShopPlan
from counterhoop.bench.promise.weeks import Weeks, weeks_of
from counterhoop.bench.workshop import Workshop
from counterhoop.papers.screen.play import to_screen
from counterhoop.papers.weeks import WEEKS_ACROSS, meanwhile
from counterhoop.papers.weeks_picture import draw_weeks, row_says
from counterhoop.web.bench_planned import BenchPlanned, bench_planned
from counterhoop.web.weeks_words import JobLine, days_to_print, dries_says, job_lines

WEEK_MM = 52.0
"""How wide a week is drawn: an hour can be seen, and four weeks stand beside a margin index."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeeksPicture:
    """One picture of a few weeks: how it is captioned, and drawn for a page."""

    caption: str
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
    pictures : tuple of WeeksPicture
        A few weeks each.
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
    pictures: tuple[WeeksPicture, ...] = ()
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
        pictures=_pictures(made),
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


def _pictures(made: Weeks) -> tuple[WeeksPicture, ...]:
    calendar, found = made.calendar, []
    for start in range(0, calendar.days, 7 * WEEKS_ACROSS):
        days = min(7 * WEEKS_ACROSS, calendar.days - start)
        part = replace(
            calendar, first=calendar.first + dt.timedelta(days=start), days=days,
            wide_mm=WEEK_MM * days / 7,
        )  # fmt: skip
        name = f"weeks-{start}"
        drawn = draw_weeks(made.rows, calendar=part, now=made.now, name=name)
        found.append(WeeksPicture(caption=drawn.title, svg=Markup(to_screen(drawn, ident=name))))
    return tuple(found)
