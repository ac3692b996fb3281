"""An invented day at the bench, and the weeks round it."""

from __future__ import annotations

import datetime as dt

from example_letters import DAY

from counterhoop.papers.day_list import AtBench, DayList, MayTouch
from counterhoop.papers.weeks_picture import Bar, DrumWeeks

DUST = "Hardwood dust harms lungs: extract at the tool, wear a mask made for fine dust."


def day_of(text: str = "true the batter edge", *, shop: str = "Millrace Drum Workshop") -> DayList:
    """Three pieces of work, two of which make dust, and two drums that cure."""
    return DayList(
        shop=shop, day=DAY,
        work=(
            AtBench(
                begins=dt.time(9, 2), ends=dt.time(10, 18), job="17", drum="small tom", says=text,
                minutes=76, paper="truing sheet", cautions=(DUST,),
                boxes=("round on the plate", "feeler all round", "photograph"), begun=True,
            ),
            AtBench(
                begins=dt.time(10, 20), ends=dt.time(12, 30), job="17", drum="old snare",
                says="drill the new holes", minutes=130, paper="hole list", cautions=(DUST, text),
                boxes=("code of the changes as signed",),
            ),
            AtBench(
                begins=dt.time(13, 30), ends=dt.time(14, 15), job="21", drum=text,
                says="glue a lifted ply", minutes=45,
            ),
        ),
        touch=(
            MayTouch(
                when=dt.datetime(2026, 3, 5, 8, 10), job="21", drum=text, says="glue, in two clamps"
            ),
            MayTouch(
                when=dt.datetime(2026, 3, 4, 11, 31), job="19", drum="bass hoop", says="lacquer"
            ),
        ),
        comes=(f"ten rods for job 17, {text}",), promised=("job 19, bass drum: Friday 6 March",),
    )  # fmt: skip


def at(day: int, hour: int, minute: int = 0) -> dt.datetime:
    """A time in March 2026."""
    return dt.datetime(2026, 3, day, hour, minute)


def weeks_of(text: str = "glue, in two clamps") -> tuple[DrumWeeks, ...]:
    """Three drums over two weeks; the second waits for rods."""
    return (
        DrumWeeks(
            job="17", drum="small tom",
            bars=(
                Bar(begins=at(4, 9), ends=at(4, 10, 30), kind="hands", says="plug"),
                Bar(begins=at(4, 10, 30), ends=at(5, 10, 30), kind="cure", says=text),
                Bar(begins=at(5, 14), ends=at(5, 17), kind="hands", says="true"),
                Bar(begins=at(9, 9), ends=at(9, 10), kind="hands", says="lacquer"),
                Bar(begins=at(9, 10), ends=at(13, 10), kind="cure", says="lacquer"),
            ),
            promised=dt.date(2026, 3, 16),
        ),
        DrumWeeks(
            job="19", drum="bass drum", comes=(dt.date(2026, 3, 10),),
            bars=(
                Bar(begins=at(4, 13), ends=at(4, 17), kind="hands", says="strip"),
                Bar(begins=at(10, 13), ends=at(10, 17), kind="hands", says="fit the rods"),
            ),
            promised=dt.date(2026, 3, 11),
        ),
        DrumWeeks(job="21", drum=text),
    )  # fmt: skip
