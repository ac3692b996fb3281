"""The weeks on paper: the picture of all drums, and what cures while what is worked on."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from counterhoop.papers.day_list import touch_said
from counterhoop.papers.drawing.pens import PRINT
from counterhoop.papers.facts import count, sheet_for
from counterhoop.papers.letter_head import drums_said
from counterhoop.papers.printable import set_readable
from counterhoop.papers.sheets import MARGIN_MM
from counterhoop.papers.svg import to_svg
from counterhoop.papers.weeks_calendar import Calendar
from counterhoop.papers.weeks_picture import LABEL_MM, DrumWeeks, draw_weeks
from counterhoop.quantities.day import say_day

WEEKS_ACROSS, ROWS_DOWN = 4, 15
"""What one picture on a sheet holds, so that an hour can be seen and a name be read."""
WAITING = "nothing at the bench"


@dataclass(frozen=True, slots=True, kw_only=True)
class Meanwhile:
    """Something that cures, until when, and what is worked on while it does."""

    name: str
    says: str
    until: dt.datetime
    work: tuple[str, ...]


def meanwhile(rows: Sequence[DrumWeeks], *, calendar: Calendar) -> tuple[Meanwhile, ...]:
    """Return what cures in these weeks and which other drums hands are at the while."""
    found = [
        Meanwhile(
            name=row.name,
            says=cure.says,
            until=cure.ends,
            work=tuple(
                other.name
                for other in rows
                if other is not row
                and any(
                    bar.kind == "hands" and bar.begins < cure.ends and bar.ends > cure.begins
                    for bar in other.bars
                )
            ),
        )
        for row in rows
        for cure in row.bars
        if cure.kind == "cure" and cure.ends > calendar.begins and cure.begins < calendar.ends
    ]
    return tuple(sorted(found, key=lambda one: (one.until, one.name)))


def weeks_pdf(
    rows: Sequence[DrumWeeks], *, shop: str, calendar: Calendar, now: dt.datetime | None = None,
    says: tuple[str, ...] = (), paper: str = "A4",
) -> bytes:  # fmt: skip
    """Set the weeks on sheets that lie on their long side.

    Parameters
    ----------
    rows : sequence of DrumWeeks
        All that is on the bench.
    shop : str
        The workshop's name.
    calendar : Calendar
        Which days; its width is made to fit the sheet.
    now : datetime, optional
        When the plan was made.
    says : tuple of str
        How late the plan is and how sure that is, then what it takes for granted; sentences.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    data, images = weeks_data(rows, shop=shop, calendar=calendar, now=now, says=says, paper=paper)
    return set_readable("weeks", data, title="The weeks at the bench", images=images)


def weeks_data(
    rows: Sequence[DrumWeeks], *, shop: str, calendar: Calendar, now: dt.datetime | None = None,
    says: tuple[str, ...] = (), paper: str = "A4",
) -> tuple[dict[str, Any], dict[str, str]]:  # fmt: skip
    """Return what the sheets say, as plain data, and the pictures by name."""
    sheet = sheet_for(paper)
    wide = sheet.long_mm - 2 * MARGIN_MM - LABEL_MM - 0.5
    pictures = []
    for start in range(0, calendar.days, 7 * WEEKS_ACROSS):
        part = replace(
            calendar, first=calendar.first + dt.timedelta(days=start),
            days=min(7 * WEEKS_ACROSS, calendar.days - start), wide_mm=wide,
        )  # fmt: skip
        pictures += [
            draw_weeks(
                rows[top : top + ROWS_DOWN], calendar=part, now=now, name=f"weeks-{start}-{top}"
            )
            for top in range(0, max(len(rows), 1), ROWS_DOWN)
        ]
    last = calendar.first + dt.timedelta(days=calendar.days - 1)
    return {
        "wide": sheet.long_mm,
        "high": sheet.short_mm,
        "facts": (
            ("Days", f"{say_day(calendar.first)} to {say_day(last)}"),
            ("Paper", "the weeks"),
        ),
        "block": (
            ("workshop", shop),
            ("from", say_day(calendar.first)),
            ("to", say_day(last)),
            ("on the bench", count(len(rows), "drum")),
        ),
        "says": list(says),
        "pictures": [
            {"name": f"weeks {n}", "alt": f"{one.title}. {one.says}", "wide": one.width_mm}
            for n, one in enumerate(pictures)
        ],
        "meanwhile": [
            (
                one.name,
                one.says or "curing",
                touch_said(one.until, today=(now or calendar.begins).date()),
                drums_said(one.work) or WAITING,
            )
            for one in meanwhile(rows, calendar=calendar)
        ],
    }, {
        f"weeks {n}": to_svg(one, palette=PRINT, ident=f"weeks-{n}-")
        for n, one in enumerate(pictures)
    }  # fmt: skip
