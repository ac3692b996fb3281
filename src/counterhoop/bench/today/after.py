"""A time that nobody clocked, and a line of the log put right: as typed, every change kept."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass, replace

from counterhoop.bench.folders.days import need_day
from counterhoop.bench.promise.bench_now import bench_now
from counterhoop.bench.promise.promises import clock_of
from counterhoop.bench.today.what import what_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.hours.stretches import Stretch
from counterhoop.quantities.day import say_day
from counterhoop.quantities.duration import Duration, parse_duration
from counterhoop.store.work_log.read_log import Version, versions_of
from counterhoop.store.work_log.working import MOST_COUNT, Working
from counterhoop.store.work_log.write_log import correct_working, type_after

PUT_RIGHT, STANDS, STRUCK = "put right", "asked about, and so it was", "written by mistake"
_CLOCK = re.compile(r"(\d{1,2})(?:[:.h]\s?(\d{2}))?")


@dataclass(frozen=True, slots=True, kw_only=True)
class LineTyped:
    """A line of the log as it is typed.

    Attributes
    ----------
    job, drum, operation : str
        As ``what_of`` takes them; an operation that is empty stays what it was.
    day : str
        Year-month-day; today where it is empty.
    begun, ended : str
        Times of day, "9:30"; where a time is typed instead, both are empty, or only when it began.
    took : str
        "40 min"; empty where the clock is meant.
    count : str
        How many were done; 0 where it goes on another time.
    note : str
        What differed.
    """

    job: str
    drum: str
    operation: str
    day: str = ""
    begun: str = ""
    ended: str = ""
    took: str = ""
    count: str = ""
    note: str = ""


def write_after(shop: Workshop, typed: LineTyped, *, by: str, mark: str = "") -> Working:
    """Write down work that nobody picked up: how long it took, and when it began if that is known.

    Raises
    ------
    BadInput
        What cannot be read, or is still to come; ``where`` is the field.
    """
    what = what_of(bench_now(shop), job=typed.job, drum=typed.drum, operation=typed.operation)
    now = clock_of(shop)
    day = _day(typed.day, otherwise=now.date(), latest=now.date())
    if not typed.took.strip():
        raise BadInput("how long did it take?", where="took", wanted='"25 min" or "1 h 30 min"')
    took: Duration | Stretch = _took(typed.took)
    if typed.begun.strip():
        begun = dt.datetime.combine(day, read_clock(typed.begun, where="begun"))
        took = Stretch(
            picked_up=begun, put_down=begun + dt.timedelta(minutes=_took(typed.took).minutes)
        )
        _need_past(took, now=now, where="took")
    count = read_count(typed.count or "1")
    if not count and isinstance(took, Duration):
        raise BadInput("how many were done?", where="count", given=typed.count, wanted="1 or more")
    with shop.store.writing() as connection:
        return type_after(
            connection, job_id=what.job.kept.id, drum=what.drum.id, operation=typed.operation,
            count=count, took=took, day=day, stamp=shop.stamp(by), note=typed.note.strip(),
            mark=mark,
        )  # fmt: skip


def as_typed(line: Working) -> LineTyped:
    """Return a line of the log as it would be typed."""
    stretch = line.stretch
    down = stretch.put_down if stretch else None
    return LineTyped(
        job=line.job_id or "", drum=line.drum, operation=line.operation,
        day=line.day.isoformat(),
        begun=say_clock(stretch.picked_up) if stretch else "",
        ended=say_clock(down) if down else "",
        took=str(line.took) if line.took else "",
        count=str(line.count), note=line.note,
    )  # fmt: skip


def line_of(shop: Workshop, entry: int) -> tuple[Version, ...]:
    """Return how a line of the log stood, row by row, the newest last.

    Raises
    ------
    BadInput
        When there is none.
    """
    with shop.store.reading() as connection:
        return versions_of(connection, entry)


def put_right(
    shop: Workshop, entry: int, typed: LineTyped, *, seen: int, why: str, by: str, mark: str = ""
) -> Working:
    """Write down how a line of the log really was.

    Parameters
    ----------
    seen : int
        The row by which it stood when the writer looked.
    why : str
        What was wrong; may be empty.

    Raises
    ------
    BadInput
        What cannot be read, or is still to come; ``where`` is the field.
    CannotDo
        When somebody wrote in it since.
    """
    stood = line_of(shop, entry)[-1].working
    now = clock_of(shop)
    changed = stood
    if typed.operation and (typed.job, typed.drum, typed.operation) != (
        stood.job_id or "", stood.drum, stood.operation,
    ):  # fmt: skip
        what = what_of(bench_now(shop), job=typed.job, drum=typed.drum, operation=typed.operation)
        changed = replace(
            changed, job_id=what.job.kept.id, drum=what.drum.id, operation=typed.operation
        )
    day = _day(typed.day, otherwise=stood.day, latest=now.date())
    was = as_typed(stood)
    if _when(typed) == _when(was):
        # As it was shown, whatever a day and two times of day leave out.
        changed = replace(changed, note=typed.note.strip())
    elif typed.took.strip():
        changed = replace(changed, stretch=None, took=_took(typed.took), day=day)
    else:
        stretch = _stretch(typed, day=day)
        _need_past(stretch, now=now, where="ended")
        changed = replace(changed, stretch=stretch, took=None, day=day)
    count = read_count(typed.count or "0")
    if changed.took is not None and not count:
        raise BadInput(
            "a time without its clock belongs to so many done", where="count", given=typed.count,
            wanted="1 or more",
        )  # fmt: skip
    changed = replace(changed, count=count, note=typed.note.strip())
    return _write(shop, changed, why=why.strip() or PUT_RIGHT, seen=seen, by=by, mark=mark)


def say_it_stands(
    shop: Workshop, entry: int, *, seen: int, by: str, count: int | None = None, mark: str = ""
) -> Working:
    """Answer for a time out of all proportion: it was so, or so many were done in it.

    Parameters
    ----------
    count : int, optional
        How many it really was.

    Raises
    ------
    BadInput
        For no such line, one that was struck.
    CannotDo
        When somebody wrote in it since.
    """
    stood = line_of(shop, entry)[-1].working
    if count is None:
        changed = replace(stood, answered=True)
        return _write(shop, changed, why=STANDS, seen=seen, by=by, mark=mark)
    why = f"asked about, and it was {count}"
    return _write(shop, replace(stood, count=count), why=why, seen=seen, by=by, mark=mark)


def strike(shop: Workshop, entry: int, *, seen: int, why: str, by: str, mark: str = "") -> Working:
    """Strike a line of the log: it never was. The line itself is kept.

    Raises
    ------
    BadInput
        For no such line, one that was struck.
    CannotDo
        When somebody wrote in it since.
    """
    stood = line_of(shop, entry)[-1].working
    why = why.strip() or STRUCK
    return _write(shop, replace(stood, struck=True), why=why, seen=seen, by=by, mark=mark)


def go_back_to(
    shop: Workshop, entry: int, *, version: int, seen: int, by: str, mark: str = ""
) -> Working:
    """Write down a line as it stood once: one more row, and none is lost.

    Parameters
    ----------
    version : int
        The row by which it stood so.

    Raises
    ------
    BadInput
        For no such row, one in hand, a line that was struck.
    CannotDo
        When somebody wrote in it since.
    """
    for one in line_of(shop, entry):
        if one.entry == version:
            why = f"back to how it stood on {say_day(one.when.astimezone().date())}"
            return _write(shop, one.working, why=why, seen=seen, by=by, mark=mark)
    raise BadInput("no such row", where="work log", given=version)


def read_count(typed: str, *, where: str = "count") -> int:
    """Return how many, as typed.

    Raises
    ------
    BadInput
        For what is no whole number.

    Examples
    --------
    >>> read_count(" 12 ")
    12
    """
    text = typed.strip()
    if not text.isdecimal() or int(text) > MOST_COUNT:
        raise BadInput(
            "how many were done?", where=where, given=typed, wanted="a whole number such as 2"
        )
    return int(text)


def read_clock(typed: str, *, where: str) -> dt.time:
    """Return a time of day, as typed.

    Raises
    ------
    BadInput
        For what is none.

    Examples
    --------
    >>> read_clock("9.30", where="begun"), read_clock("14", where="begun")
    (datetime.time(9, 30), datetime.time(14, 0))
    """
    read = _CLOCK.fullmatch(typed.strip())
    if read is None or int(read[1]) > 23 or int(read[2] or 0) > 59:
        raise BadInput("not a time of day", where=where, given=typed or None, wanted='"9:30"')
    return dt.time(int(read[1]), int(read[2] or 0))


def say_clock(at: dt.datetime) -> str:
    """Return a time of day as the clock on the wall shows it.

    Examples
    --------
    >>> say_clock(dt.datetime(2030, 5, 14, 9, 5))
    '9:05'
    """
    return f"{at.hour}:{at.minute:02}"


def _stretch(typed: LineTyped, *, day: dt.date) -> Stretch:
    begun = dt.datetime.combine(day, read_clock(typed.begun, where="begun"))
    ended = dt.datetime.combine(day, read_clock(typed.ended, where="ended"))
    if ended < begun:
        raise BadInput(
            "put down before it was picked up", where="ended", given=typed.ended,
            wanted=f"later than {typed.begun.strip()}",
            step="Work over midnight: type how long it took instead",
        )  # fmt: skip
    return Stretch(picked_up=begun, put_down=ended)


def _when(typed: LineTyped) -> tuple[str, ...]:
    return tuple(text.strip() for text in (typed.day, typed.begun, typed.ended, typed.took))


def _took(typed: str) -> Duration:
    # Nobody types so many hours of one piece of work: a number alone is minutes.
    took = parse_duration(f"{typed} min" if typed.strip().isdecimal() else typed, where="took")
    if not took.exact_min:
        raise BadInput("no time at all", where="took", given=typed, wanted='"25 min"')
    return took


def _day(typed: str, *, otherwise: dt.date, latest: dt.date) -> dt.date:
    if not typed.strip():
        return otherwise
    day = need_day(typed, where="day", today=latest)
    if day > latest:
        raise BadInput("a day that is still to come", where="day", given=typed)
    return day


def _need_past(stretch: Stretch, *, now: dt.datetime, where: str) -> None:
    ended = stretch.put_down
    if ended is not None and ended > now:
        raise BadInput(
            f"that would be until {say_clock(ended)}, which is still to come", where=where,
            wanted=f"{say_clock(now)} or earlier",
        )  # fmt: skip


def _write(shop: Workshop, changed: Working, *, why: str, seen: int, by: str, mark: str) -> Working:
    with shop.store.writing() as connection:
        return correct_working(
            connection, changed, why=why, stamp=shop.stamp(by), seen=seen, mark=mark
        )
