"""What a job waits for, a line for each, with the day that somebody has named."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.bench.folders.days import day_written
from counterhoop.bench.promise.bench_now import BenchNow
from counterhoop.bench.promise.pieces import WaitsFor
from counterhoop.bench.promise.promises import Arrival
from counterhoop.quantities.day import say_weekday
from counterhoop.scheme.phrases import listed
from counterhoop.web.look.say import capfirst


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """One thing that a job waits for.

    Attributes
    ----------
    called : str
        Under which name its coming is written down.
    says : str
        What it is, and which drums wait.
    day : str
        When it comes, year-month-day; empty where nobody has said.
    sure : bool
        Whoever sends it has said so.
    assumed : date or None
        The day on which it is taken to be there while nobody has said.
    """

    called: str
    says: str
    day: str = ""
    sure: bool = False
    assumed: dt.date | None = None

    @property
    def when(self) -> str:
        """When it comes, or what is taken for granted while nobody knows."""
        named = day_written(self.day)
        if named is not None and self.assumed is not None:
            return f"ought to be here since {say_weekday(named)}: ask again"
        if named is not None:
            return f"comes on {say_weekday(named)}{'' if self.sure else ', not sure'}"
        return "nobody has said when" if self.assumed is not None else ""


def taken_for_granted(waits: Sequence[Waiting]) -> str:
    """Say from which days on things are taken to be there that nobody has named a day for.

    Examples
    --------
    >>> lugs = Waiting(called="lug", says="3 lugs", assumed=dt.date(2030, 5, 21))
    >>> taken_for_granted([lugs]).partition(": ")[2]
    'taken to be there on Tuesday 21 May 2030.'
    """
    unknown = [one.assumed for one in waits if one.assumed is not None]
    if not unknown:
        return ""
    days = listed([say_weekday(day) for day in sorted(set(unknown))])
    things = "1 thing comes" if len(unknown) == 1 else f"{len(unknown)} things come"
    return f"Nobody has said when {things} that it waits for: taken to be there on {days}."


def waits_of(bench: BenchNow | None, job: str, arrivals: Sequence[Arrival]) -> tuple[Waiting, ...]:
    """Return what a job waits for, then what was said to come and is waited for no more.

    Parameters
    ----------
    bench : BenchNow or None
        Without it only what was said is known.
    job : str
        Its name for programs.
    arrivals : sequence of Arrival
        What was said.
    """
    its = next((one for one in (bench.jobs if bench else ()) if one.kept.id == job), None)
    asked: dict[str, list[WaitsFor]] = {}
    for drum in its.work.drums if its else ():
        for wait in (*drum.for_client, *drum.for_part):
            asked.setdefault(wait.called, []).append(wait)
    written = {one.what: one for one in arrivals}
    found = [_waiting(called, those, written.pop(called, None)) for called, those in asked.items()]
    for one in written.values():
        says = capfirst(one.what)
        says = f"{says}: nothing waits for it any more" if its else says
        found.append(Waiting(called=one.what, says=says, day=_iso(one), sure=one.sure))
    return tuple(found)


def _waiting(called: str, those: Sequence[WaitsFor], written: Arrival | None) -> Waiting:
    by_what: dict[str, list[str]] = {}
    for one in those:
        by_what.setdefault(one.what, []).append(f"the {one.drum}")
    unknown = [one.day for one in those if not one.known]
    return Waiting(
        called=called,
        says=capfirst(listed([f"{what}, for {listed(d)}" for what, d in by_what.items()])),
        day=_iso(written),
        sure=written.sure if written else False,
        assumed=max(unknown) if unknown else None,
    )


def _iso(one: Arrival | None) -> str:
    return one.day.isoformat() if one and one.day else ""
