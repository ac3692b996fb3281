"""How the page of the day says what is to be done, in hand, asked about and written."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from counterhoop.bench.promise.pieces import Cures
from counterhoop.bench.today.after import PUT_RIGHT, say_clock
from counterhoop.bench.today.asks import Ask
from counterhoop.bench.today.on_the_day import Held, ToDo
from counterhoop.bench.today.what import What
from counterhoop.job.hours.wild import so_many
from counterhoop.papers.day_list import clock_said, hands_said, touch_said
from counterhoop.quantities.day import say_weekday
from counterhoop.quantities.duration import print_minutes
from counterhoop.shell.operations import Operation
from counterhoop.store.work_log.read_log import Version
from counterhoop.store.work_log.working import Working

DEEDS = {
    "picked up": "picked up", "put down": "put down", "typed": "typed after",
    "corrected": "put right", "struck": "struck",
}  # fmt: skip


def title_of(job_title: str, number: str) -> str:
    """Return a job as one calls it, with its number where that is not in it."""
    return job_title if number in job_title else f"{number}, {job_title}"


def todo_says(one: ToDo) -> str:
    """Return how much of it there is to do and about how long it takes."""
    left = hands_said(one.minutes)
    many = _many(one.work.times, _per(one.job.work.operations, one.work.operation))
    began = " left; begun before" if one.work.worked_min > 0.0 else ""
    return f"{many}about {left}{began}"


def todo_when(one: ToDo) -> str:
    """Return when it is planned; empty where it is only next."""
    if one.begins is None or one.ends is None:
        return ""
    return f"{clock_said(one.begins.time())} to {clock_said(one.ends.time())}"


def held_says(held: Held, *, now: dt.datetime) -> str:
    """Return since when it is in hand, and how long that is."""
    assert held.line.stretch is not None
    since = held.line.stretch.picked_up
    day = "" if since.date() == now.date() else f"{say_weekday(since.date())}, "
    long = f", {print_minutes(held.so_far_min)} so far" if held.so_far_min >= 1.0 else ""
    return f"In hand since {day}{say_clock(since)}{long}"


def held_beside(held: Held) -> str:
    """Return what it took before, and what all of it usually takes."""
    said = []
    if held.before_min >= 1.0:
        said.append(f"{print_minutes(held.before_min)} before that, not counted yet")
    if held.usual_min > 0.0:
        what = held.what
        left = what.times_left if what else 0
        many = so_many(left, what.operation.per) if what and left > 1 else "it"
        said.append(f"usually about {hands_said(round(held.usual_min))} for {many}")
    return "; ".join(said)


def leave_alone(cures: Iterable[Cures], *, now: dt.datetime) -> tuple[str, ...]:
    """Return what on a drum must be left alone until when, a sentence each.

    The bench is read by the hour: what has cured since is not said any more.

    Examples
    --------
    >>> glue = Cures(drum="tom", says="plug a hole", until=dt.datetime(2030, 5, 14, 21, 20))
    >>> leave_alone([glue], now=dt.datetime(2030, 5, 14, 21, 5))
    ('Leave it alone, plug a hole has not cured: from 21:30.',)
    >>> leave_alone([glue], now=dt.datetime(2030, 5, 14, 21, 20))
    ()
    """
    return tuple(
        f"Leave it alone, {one.says} has not cured: {touch_said(one.until, today=now.date())}."
        for one in cures
        if one.until > now
    )


def count_label(what: What | None) -> str:
    """Return the question how many are done; empty where only one is left."""
    if what is None or what.times_left == 1 or not (what.per_piece or what.times_left):
        return ""
    return f"How many {plural(what.operation.per)} are done"


def count_help(goes: int, left: int, per: str) -> str:
    """Return what an empty field means."""
    if not goes:
        return "Since they were last counted."
    those = (
        "it is"
        if goes == 1
        else "both are"
        if goes == left == 2
        else f"all {goes} are"
        if goes == left
        else f"these {goes} are"
    )
    more = f", of {so_many(left, per)} that are left" if left > goes else ""
    return f"May stay empty where {those} done{more}, or none is yet."


def plural(per: str) -> str:
    """Return what several are called.

    Examples
    --------
    >>> plural("patch"), plural("hole")
    ('patches', 'holes')
    """
    return so_many(2, per).removeprefix("two ")


def line_says(line: Working, *, per: str) -> str:
    """Return a line of the log: when, how long, how many."""
    stretch = line.stretch
    if line.struck:
        return "struck: it never was"
    if stretch is None:
        said = f"{line.took}, typed after"
    elif stretch.put_down is None:
        return f"in hand since {say_clock(stretch.picked_up)}"
    else:
        took = (stretch.put_down - stretch.picked_up) / dt.timedelta(minutes=1)
        said = (
            f"{say_clock(stretch.picked_up)} to {say_clock(stretch.put_down)},"
            f" {print_minutes(took)}"
        )
    done = _done(line.count, per) if line.count else "goes on another time"
    rest = "; the rest is not to be done" if line.finished else ""
    return f"{said}: {done}{rest}"


def _done(count: int, per: str) -> str:
    return "done" if count == 1 and per == "drum" else f"{so_many(count, per)} done"


def ask_yes(ask: Ask) -> str:
    """Return the answer that lets a time stand."""
    count = ask.line.count
    per = ask.what.operation.per if ask.what else "piece"
    return f"Yes, {so_many(count, per)}" if count else "Yes, it was so"


def ask_no(ask: Ask) -> str:
    """Return the answer with the number that it rather was."""
    per = ask.what.operation.per if ask.what else "piece"
    return f"No, {so_many(ask.likely, per)}"


def version_says(one: Version, *, per: str) -> str:
    """Return one row of a line's history."""
    why = f" ({one.why})" if one.why and one.why != PUT_RIGHT else ""
    return f"{DEEDS[one.kind]}{why}: {line_says(one.working, per=per)}"


def _many(times: int, per: str) -> str:
    return f"{so_many(times, per)}, " if times > 1 or per not in ("drum", "") else ""


def _per(book: tuple[Operation, ...], name: str) -> str:
    return next((one.per for one in book if one.name == name), "")
