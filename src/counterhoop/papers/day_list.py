"""The day's list for the bench: what is done when, by which paper, and what may be touched."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Any

from counterhoop.papers.cautions import DEFER
from counterhoop.papers.facts import Fact, count, sheet_for
from counterhoop.papers.printable import set_readable
from counterhoop.quantities.day import say_day
from counterhoop.quantities.duration import print_minutes

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
BENCH_MIN, TOUCH_MIN = 5, 15
"""Nobody works to the minute: times at the bench are told to 5, cures to a quarter past theirs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AtBench:
    """One piece of work of the day.

    Attributes
    ----------
    begins, ends : time
        On the workshop's own clock.
    job, drum, says : str
        Whose, on what, what is done.
    minutes : int
        Hands at work that are left of it.
    paper : str
        The paper that it is done by ("hole list"), empty for none.
    cautions : tuple of str
        What to beware of.
    boxes : tuple of str
        What is to be ticked on the way: "lugs 1 to 4", "photograph".
    begun : bool
        Picked up on an earlier day.
    """

    begins: dt.time
    ends: dt.time
    job: str
    drum: str
    says: str
    minutes: int
    paper: str = ""
    cautions: tuple[str, ...] = ()
    boxes: tuple[str, ...] = ()
    begun: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class MayTouch:
    """Something that is curing: when it may be touched, and what it is."""

    when: dt.datetime
    job: str
    drum: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DayList:
    """A day at the bench.

    Attributes
    ----------
    shop : str
        The workshop's name.
    day : date
        Which day.
    work : tuple of AtBench
        In the order of the day.
    touch : tuple of MayTouch
        All that cures when the day begins or is left to cure in it.
    comes, promised : tuple of str
        Parts and drums that are awaited; what is promised for the day or the next ones.
    """

    shop: str
    day: dt.date
    work: tuple[AtBench, ...] = ()
    touch: tuple[MayTouch, ...] = ()
    comes: tuple[str, ...] = ()
    promised: tuple[str, ...] = ()


def day_list_pdf(today: DayList, *, paper: str = "A4") -> bytes:
    """Set the day's list.

    Parameters
    ----------
    today : DayList
        What the day holds.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    sheet = sheet_for(paper)
    data = {"wide": sheet.short_mm, "high": sheet.long_mm, **day_data(today)}
    return set_readable("day_list", data, title=weekday_said(today.day))


def day_data(today: DayList) -> dict[str, Any]:
    """Return what the list says, as plain data; a caution is printed where it first applies."""
    hands = sum(work.minutes for work in today.work)
    told: set[str] = set()
    rows = []
    for work in today.work:
        rows.append(
            {
                "time": f"{clock_said(work.begins)} to {clock_said(work.ends)}",
                "job": work.job,
                "drum": work.drum,
                "says": work.says,
                "hands": hands_said(work.minutes),
                "paper": work.paper,
                "cautions": [said for said in work.cautions if said not in told],
                "boxes": list(work.boxes),
                "begun": work.begun,
            }
        )
        told.update(work.cautions)
    facts: tuple[Fact, ...] = (
        ("workshop", today.shop),
        ("work", count(len(rows), "piece") if rows else "none"),
        ("hands at work", hands_said(hands) if hands else "none"),
    )
    return {
        "facts": (("Day", say_day(today.day)), ("Paper", "day list")),
        "block": facts,
        "rows": rows,
        "touch": [
            (touch_said(one.when, today=today.day), f"job {one.job}, {one.drum}", one.says)
            for one in sorted(today.touch, key=lambda one: one.when)
        ],
        "comes": list(today.comes),
        "promised": list(today.promised),
        "defer": DEFER if told else "",
    }


def weekday_said(day: dt.date) -> str:
    """Print a day with its weekday.

    Examples
    --------
    >>> weekday_said(dt.date(2026, 3, 4))
    'Wednesday 4 March 2026'
    """
    return f"{WEEKDAYS[day.weekday()]} {say_day(day)}"


def hands_said(minutes: int) -> str:
    """Print time at work to five minutes.

    Examples
    --------
    >>> hands_said(76), hands_said(1)
    ('1 h 15 min', '5 min')
    """
    return print_minutes(max(1, round(minutes / BENCH_MIN)) * BENCH_MIN)


def clock_said(time: dt.time) -> str:
    """Print a time at the bench to five minutes.

    Examples
    --------
    >>> clock_said(dt.time(9, 12)), clock_said(dt.time(23, 59))
    ('9:10', '24:00')
    """
    minutes = round((60 * time.hour + time.minute) / BENCH_MIN) * BENCH_MIN
    return f"{minutes // 60}:{minutes % 60:02}"


def touch_said(when: dt.datetime, *, today: dt.date) -> str:
    """Say from when something may be touched, never too early: up to the next quarter of an hour.

    Examples
    --------
    >>> touch_said(dt.datetime(2026, 3, 4, 14, 1), today=dt.date(2026, 3, 4))
    'from 14:15'
    >>> touch_said(dt.datetime(2026, 3, 6, 23, 50), today=dt.date(2026, 3, 4))
    'Saturday 7 March 2026, from 0:00'
    >>> touch_said(dt.datetime(2026, 3, 3, 9, 0), today=dt.date(2026, 3, 4))
    'now'
    """
    past = dt.timedelta(
        minutes=when.minute % TOUCH_MIN, seconds=when.second, microseconds=when.microsecond
    )
    up = when - past + (dt.timedelta(minutes=TOUCH_MIN) if past else dt.timedelta())
    if up <= dt.datetime.combine(today, dt.time()):
        return "now"
    clock = f"from {up.hour}:{up.minute:02}"
    return clock if up.date() == today else f"{weekday_said(up.date())}, {clock}"
