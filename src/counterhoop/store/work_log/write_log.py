"""Pick work up, put it down, type a time after, correct a row: the log is only ever added to."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from typing import Any

from sqlalchemy import Connection, insert, select, update

from counterhoop.errors import BadInput, CannotDo
from counterhoop.job.hours.stretches import Stretch
from counterhoop.quantities.duration import Duration
from counterhoop.store.insert_unless_there import insert_unless_there
from counterhoop.store.known_job import need_job
from counterhoop.store.row_hash import hash_of_row
from counterhoop.store.stamp import Stamp
from counterhoop.store.tables import in_hand, work_log
from counterhoop.store.turn import end_turn, take_turn
from counterhoop.store.work_log.read_log import versions_of, working_at, working_of
from counterhoop.store.work_log.working import Working, need_own_clock, row_of


@dataclass(frozen=True, slots=True, kw_only=True)
class PickedUp:
    """What is in hand now, and what had to be put down for it.

    Attributes
    ----------
    working : Working
        In hand.
    put_down : Working or None
        What this bench had in hand until then, put down at the same minute with nothing counted.
    """

    working: Working
    put_down: Working | None = None


def pick_up(
    connection: Connection,
    *,
    job_id: str | None,
    drum: str,
    operation: str,
    at: dt.datetime,
    stamp: Stamp,
    note: str = "",
    mark: str = "",
) -> PickedUp:
    """Pick work up at a bench; what is in hand there is put down first.

    What is in hand already, the same operation on the same drum, stays in hand.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.writing``.
    job_id, drum, operation, note :
        As in ``Working``.
    at : datetime.datetime
        By the workshop's own clock, without a zone.
    stamp : Stamp
        When and at which bench.
    mark : str
        Chosen anew for each form that is shown: the same form sent twice picks up once.

    Raises
    ------
    BadInput
        For a job that is not there, and a time before what is in hand was picked up.
    """
    need_job(connection, job_id)
    last = take_turn(connection, "work log")
    if (again := _written_by(connection, mark)) is not None:
        return PickedUp(working=again)
    held = working_at(connection, stamp.bench)
    if held is not None and (held.job_id, held.drum, held.operation) == (job_id, drum, operation):
        return PickedUp(working=held)
    if held is not None:
        held = _lay_down(held, at=at)
        last = _write(connection, held, kind="put down", last=last, stamp=stamp)
    taken = Working(
        entry=last + 1,
        job_id=job_id,
        drum=drum,
        operation=operation,
        stretch=Stretch(picked_up=at),
        day=at.date(),
        note=note,
        bench=stamp.bench,
        made_at=stamp.when,
    )
    last = _write(connection, taken, kind="picked up", last=last, stamp=stamp, mark=mark)
    insert_unless_there(connection, in_hand, {"bench": stamp.bench, "working": None})
    connection.execute(
        update(in_hand).where(in_hand.c.bench == stamp.bench).values(working=taken.entry)
    )
    return PickedUp(working=working_of(connection, taken.entry), put_down=held)


def put_down(
    connection: Connection,
    *,
    at: dt.datetime,
    stamp: Stamp,
    count: int = 0,
    finished: bool = False,
    note: str = "",
    answered: bool = False,
    entry: int = 0,
    mark: str = "",
) -> Working:
    """Put down what is in hand at a bench, and say how many of it were done.

    Parameters
    ----------
    connection, at, stamp, mark :
        As for ``pick_up``.
    count : int
        How many were done since work was last counted; 0 when it goes on another time.
    finished, note, answered :
        As in ``Working``; a note is added to the one that is there.
    entry : int
        Which working is meant, at whatever bench it is in hand; 0 for what is in hand at this one.

    Raises
    ------
    BadInput
        When nothing is in hand there, and for a time before it was picked up.
    """
    last = take_turn(connection, "work log")
    if (again := _written_by(connection, mark)) is not None:
        return again
    held = working_of(connection, entry) if entry else working_at(connection, stamp.bench)
    if held is None or not held.is_open:
        raise BadInput(
            "it is not in hand any more" if entry else "nothing is in hand here",
            where=held.operation if held else stamp.bench,
            step="Type the time after instead",
        )
    held = replace(
        _lay_down(held, at=at),
        count=count,
        finished=finished,
        answered=answered,
        note="\n".join(filter(None, (held.note, note))),
    )
    _write(connection, held, kind="put down", last=last, stamp=stamp, mark=mark)
    _let_go(connection, held)
    return held


def type_after(
    connection: Connection,
    *,
    job_id: str | None,
    drum: str,
    operation: str,
    count: int,
    took: Duration | Stretch,
    day: dt.date,
    stamp: Stamp,
    finished: bool = False,
    note: str = "",
    answered: bool = False,
    mark: str = "",
) -> Working:
    """Write down a time that nobody clocked; what it means stands in ``Working``.

    Parameters
    ----------
    took : Duration or Stretch
        How long, or from when to when.

    Raises
    ------
    BadInput
        For no time, nothing done, or a job that is not there.
    """
    need_job(connection, job_id)
    last = take_turn(connection, "work log")
    if (again := _written_by(connection, mark)) is not None:
        return again
    typed = Working(
        entry=last + 1,
        job_id=job_id,
        drum=drum,
        operation=operation,
        count=count,
        stretch=took if isinstance(took, Stretch) else None,
        took=took if isinstance(took, Duration) else None,
        day=day,
        note=note,
        finished=finished,
        answered=answered,
        bench=stamp.bench,
        made_at=stamp.when,
    )
    _write(connection, typed, kind="typed", last=last, stamp=stamp, mark=mark)
    return working_of(connection, typed.entry)


def correct_working(
    connection: Connection, corrected: Working, *, why: str, stamp: Stamp, seen: int = 0,
    mark: str = "",
) -> Working:  # fmt: skip
    """Write down how a working really was: a row that names the one that it corrects.

    A time that nobody put down is answered so; work that is still in hand goes on in hand.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.writing``.
    corrected : Working
        ``replace`` of what was read, ``struck`` for what never was.
    why : str
        What was wrong.
    seen : int
        The row by which it stood when the writer looked, as ``versions_of`` has it; 0 where it is
        corrected however it stands.

    Raises
    ------
    BadInput
        When there is no such working or it was struck, no reason is given, or it would be picked
        up once more.
    CannotDo
        When another row was written since the writer looked.
    """
    if not why.strip():
        raise BadInput("not said why", where="work log", wanted="what was wrong")
    need_job(connection, corrected.job_id)
    last = take_turn(connection, "work log")
    if mark and _written_by(connection, mark) is not None:
        return corrected
    before = working_of(connection, corrected.entry)
    if seen and versions_of(connection, corrected.entry)[-1].entry != seen:
        raise CannotDo(
            "Somebody wrote in this line of the log since you looked, so nothing was changed: look"
            " at how it stands now."
        )
    if before.struck:
        raise BadInput("this row was struck", where=before.operation, step="Type the time anew")
    if corrected.is_open and not before.is_open:
        raise BadInput(
            "what was put down cannot be in hand again",
            where=corrected.operation,
            step="Pick it up anew",
        )
    if corrected.stretch is not None and corrected.stretch.put_down is not None:
        corrected = replace(corrected, day=corrected.stretch.put_down.date())
    kind = "struck" if corrected.struck else "corrected"
    _write(connection, corrected, kind=kind, last=last, stamp=stamp, why=why, mark=mark)
    if not corrected.is_open:
        _let_go(connection, corrected)
    return corrected


def _lay_down(held: Working, *, at: dt.datetime) -> Working:
    assert held.stretch is not None
    need_own_clock(at)
    return replace(held, stretch=replace(held.stretch, put_down=at), day=at.date())


def _let_go(connection: Connection, one: Working) -> None:
    its = in_hand.c.working == one.entry
    connection.execute(update(in_hand).where(its).values(working=None))


def _written_by(connection: Connection, mark: str) -> Working | None:
    """Return what a form wrote when it was sent for the first time, as it stands now."""
    if not mark:
        return None
    asked = select(work_log.c.working).where(work_log.c.mark == mark)
    entry = connection.execute(asked).scalar_one_or_none()
    return None if entry is None else working_of(connection, entry)


def _write(
    connection: Connection, one: Working, *, kind: str, last: int, stamp: Stamp, **more: str
) -> int:
    row: dict[str, Any] = {
        "entry": last + 1,
        "working": one.entry,
        **row_of(one, kind=kind, stamp=stamp, **more),
    }
    row["sha256"] = hash_of_row(row)
    connection.execute(insert(work_log).values(row))
    end_turn(connection, "work log", last=last + 1)
    return last + 1
