"""What was promised to whom, how much a job weighs, and what is on its way to it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from counterhoop.bench.folders.days import day_written
from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.folders.kinds import PROMISE
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.quantities.day import say_day, say_weekday
from counterhoop.quantities.number import parse_number
from counterhoop.store.body import Json
from counterhoop.store.save import Conflict, Saved

MOST_WEIGHT = 10.0
LONGEST_SAID = 80
LATEST_DAYS = 3660
"""Ten years ahead: whoever promises more has mistyped the year."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Promised:
    """A day that a client was told.

    Attributes
    ----------
    day : datetime.date or None
        For which; None where an earlier promise was taken back.
    to : str
        Whom.
    on : datetime.date or None
        The day it was said.
    share : float or None
        So many workings of the plan were done by then, as the plan stood; None without a plan.
    """

    day: dt.date | None
    to: str
    on: dt.date | None
    share: float | None = None

    def says(self) -> str:
        """Return the promise in words.

        Examples
        --------
        >>> Promised(day=dt.date(2030, 5, 17), to="Nell", on=dt.date(2030, 5, 2), share=0.84).says()
        'Friday 17 May 2030, told to Nell on 2 May 2030; 84 % of workings were done by then'
        """
        if self.day is None:
            return f"taken back on {say_day(self.on)}"
        told = f", told to {self.to}" if self.to else ""
        on = f" on {say_day(self.on)}" if self.on else ""
        stood = (
            f"; {round(100 * self.share)} % of workings were done by then"
            if self.share is not None
            else ""
        )
        return f"{say_weekday(self.day)}{told}{on}{stood}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrival:
    """Something that a job waits for and that is on its way.

    Attributes
    ----------
    what : str
        What it is, as the list of parts has it.
    day : datetime.date or None
        When it comes; None where nobody knows.
    sure : bool
        Somebody has said so who sends it.
    """

    what: str
    day: dt.date | None
    sure: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Promises:
    """What is written of a job's days.

    Attributes
    ----------
    every : tuple of Promised
        The newest last.
    weight : float
        How much a day late counts against a day of another job.
    arrivals : tuple of Arrival
    """

    every: tuple[Promised, ...] = ()
    weight: float = 1.0
    arrivals: tuple[Arrival, ...] = ()

    @property
    def stands(self) -> Promised | None:
        """The promise that counts: the newest, unless it was taken back."""
        return self.every[-1] if self.every and self.every[-1].day is not None else None


def promises_of(job: KeptJob) -> Promises:
    """Return what is written of a job's days; rows that cannot be read are passed over."""
    table = job.kept(PROMISE).table
    return Promises(
        every=tuple(_promised(row) for row in _rows(table, "promised")),
        weight=_weight_kept(table.get("weight")),
        arrivals=tuple(
            Arrival(
                what=str(row["what"]),
                day=day_written(row.get("day")),
                sure=row.get("sure") is True,
            )
            for row in _rows(table, "arrivals")
            if row.get("what")
        ),
    )


def write_promise(
    shop: Workshop, job: KeptJob, *, day: str, to: str, share: float | None, based_on: int, by: str
) -> Saved | Conflict:
    """Write down that a day was promised; as ``to_promise``."""
    change = to_promise(shop, job, day=day, to=to, share=share, based_on=based_on)
    return write_down(shop, job.id, change, by=by)


def to_promise(
    shop: Workshop, job: KeptJob, *, day: str, to: str, share: float | None, based_on: int
) -> Change:
    """Return how it is written that a day was promised; what was promised before stays on record.

    Parameters
    ----------
    job : KeptJob
        As the writer saw it.
    day : str
        Year-month-day.
    to : str
        Who was told.
    share : float or None
        So many workings of the plan are done by then.
    based_on : int
        The revision of the promises that the writer saw, 0 for none.

    Raises
    ------
    BadInput
        No day, a day that is past or years away, or nobody who was told.
    """
    today = today_of(shop)
    told = _words(to, where="to", wanted="who was told")
    row: dict[str, Json] = {"day": _to_come(day, where="day", today=today).isoformat(), "to": told,
                 "on": today.isoformat()}  # fmt: skip
    if share is not None:
        row["share"] = round(share, 4)
    return _added(job, row, based_on=based_on)


def take_promise_back(shop: Workshop, job: KeptJob, *, based_on: int, by: str) -> Saved | Conflict:
    """Write down that the day that stands is promised no longer.

    Raises
    ------
    BadInput
        No promise stands.
    """
    if promises_of(job).stands is None:
        raise BadInput("no promise stands for this job", where="day")
    row: dict[str, Json] = {"day": "", "on": today_of(shop).isoformat()}
    return write_down(shop, job.id, _added(job, row, based_on=based_on), by=by)


def write_weight(
    shop: Workshop, job: KeptJob, *, weight: str, based_on: int, by: str
) -> Saved | Conflict:
    """Write down how much a job weighs against others; empty goes back to 1.

    Raises
    ------
    BadInput
        What is no weight.
    """
    if weight.strip():
        read_weight(weight)
    kept = job.kept(PROMISE)
    value: dict[str, Json] = {name: held for name, held in kept.table.items() if name != "weight"}
    if weight.strip():
        value["weight"] = weight.strip()
    return write_down(shop, job.id, Change(kind=PROMISE, value=value, based_on=based_on), by=by)


def write_arrival(
    shop: Workshop, job: KeptJob, *, what: str, day: str, sure: bool, based_on: int, by: str
) -> Saved | Conflict:
    """Write down when one thing comes; as ``write_arrivals``."""
    return write_arrivals(shop, job, what=(what,), day=day, sure=sure, based_on=based_on, by=by)


def write_arrivals(
    shop: Workshop, job: KeptJob, *, what: Sequence[str], day: str, sure: bool, based_on: int,
    by: str,
) -> Saved | Conflict:  # fmt: skip
    """Write down when something comes that a job waits for, in place of what was said before.

    Parameters
    ----------
    what : sequence of str
        What comes on that day, as the list of parts has it.
    day : str
        Year-month-day; empty where it is not known any more, or has come.
    sure : bool
        Whoever sends it has said so.

    Raises
    ------
    BadInput
        What is no day or years away, or nothing that comes.
    """
    named = [_words(one, where="what", wanted="what comes") for one in what or ("",)]
    kept = job.kept(PROMISE)
    rows = [row for row in _rows(kept.table, "arrivals") if row.get("what") not in named]
    if day.strip():
        coming = _to_come(day, where="day", today=today_of(shop)).isoformat()
        rows += [{"what": one, "day": coming, "sure": sure} for one in named]
    value: Json = {**kept.table, "arrivals": rows}
    return write_down(shop, job.id, Change(kind=PROMISE, value=value, based_on=based_on), by=by)


def read_weight(typed: str) -> float:
    """Return a weight to hundredths.

    Examples
    --------
    >>> read_weight("2"), read_weight("1,5")
    (2.0, 1.5)
    """
    weight = round(float(parse_number(typed.strip(), where="weight", given=typed)), 2)
    if not 0.0 < weight <= MOST_WEIGHT:
        raise BadInput(
            "how much it weighs against other jobs", where="weight", given=typed,
            wanted=f"a number such as 1 or 2.5, at most {MOST_WEIGHT:g}",
        )  # fmt: skip
    return weight


def today_of(shop: Workshop) -> dt.date:
    """Return the day here, on the workshop's own clock."""
    return clock_of(shop).date()


def clock_of(shop: Workshop) -> dt.datetime:
    """Return the time here, without a zone."""
    return shop.now().astimezone().replace(tzinfo=None)


def _added(job: KeptJob, row: dict[str, Json], *, based_on: int) -> Change:
    kept = job.kept(PROMISE)
    rows = [*_rows(kept.table, "promised"), row]
    value: Json = {**kept.table, "promised": rows}
    return Change(kind=PROMISE, value=value, based_on=based_on)


def _rows(table: Mapping[str, Any], name: str) -> list[Any]:
    rows = table.get(name)
    return [row for row in rows if isinstance(row, dict)] if isinstance(rows, list) else []


def _promised(row: Mapping[str, Any]) -> Promised:
    share = row.get("share")
    return Promised(
        day=day_written(row.get("day")),
        to=str(row.get("to") or ""),
        on=day_written(row.get("on")),
        share=float(share) if isinstance(share, int | float) else None,
    )


def _weight_kept(written: object) -> float:
    try:
        return read_weight(str(written)) if written else 1.0
    except BadInput:
        return 1.0


def _words(text: str, *, where: str, wanted: str) -> str:
    plain = " ".join(text.split())
    if not plain or not plain.isprintable() or len(plain) > LONGEST_SAID:
        raise BadInput("a few words belong here", where=where, given=text or None, wanted=wanted)
    return plain


def _to_come(text: str, *, where: str, today: dt.date) -> dt.date:
    day = day_written(text)
    if day is None:
        raise BadInput(
            "not a day", where=where, given=text or None, wanted="year-month-day, 2026-11-02"
        )
    if not today <= day <= today + dt.timedelta(days=LATEST_DAYS):
        raise BadInput(
            "a day that is past, or years away", where=where, given=text,
            wanted=f"{today.isoformat()} or later",
        )  # fmt: skip
    return day
