"""What the work log says of each drum: done and when, begun and how long, in hand."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass, field

from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.workshop import Workshop
from counterhoop.job.hours.stretches import LONGEST_MIN, worked_minutes
from counterhoop.job.hours.worked import Worked
from counterhoop.store.work_log.learned import Counted, from_log
from counterhoop.store.work_log.read_log import all_workings
from counterhoop.store.work_log.working import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class OperationLog:
    """What the log says of one operation on one drum.

    Attributes
    ----------
    done : tuple of (int, datetime)
        How many were done, and when hands were off them, on the workshop's clock.
    finished : bool
        Somebody said that nothing more of it is to be done.
    done_min : float
        Hands at work on what was counted.
    loose_min : float
        Hands at work since, on what is not counted yet.
    in_hand : datetime or None
        Since when it is in hand, and not laid down.
    last : datetime or None
        When hands were last off it.
    """

    done: tuple[tuple[int, dt.datetime], ...] = ()
    finished: bool = False
    done_min: float = 0.0
    loose_min: float = 0.0
    in_hand: dt.datetime | None = None
    last: dt.datetime | None = None


NOT_BEGUN = OperationLog()


@dataclass(frozen=True, slots=True, kw_only=True)
class LogSaid:
    """The whole log, read once.

    Attributes
    ----------
    workings : tuple of Working
        First what was begun first, without the struck.
    counted : tuple of Counted
        The same from one count to the next, first what was counted first.
    by_drum : dict of (str, str) to dict
        By job and drum, by operation.
    """

    workings: tuple[Working, ...] = ()
    counted: tuple[Counted, ...] = ()
    by_drum: dict[tuple[str, str], dict[str, OperationLog]] = field(default_factory=dict)

    @property
    def worked(self) -> tuple[Worked, ...]:
        """What hours learn from."""
        return tuple(one.worked for one in self.counted if one.worked is not None)

    def of(self, job_id: str, drum: KeptDrum) -> dict[str, OperationLog]:
        """Return what is said of a drum, by operation; the log may know it by either name."""
        by_name = self.by_drum.get((job_id, drum.name), {})
        return by_name | self.by_drum.get((job_id, drum.id), {})


def log_said(shop: Workshop, *, now: dt.datetime) -> LogSaid:
    """Read the log.

    Parameters
    ----------
    now : datetime
        On the workshop's clock. What is in hand has lasted until the full hour, with which a plan
        begins, so that the same hour gives the same plan.
    """
    with shop.store.reading() as connection:
        workings = all_workings(connection)
    rows: dict[tuple[str, str], dict[str, list[Working]]] = {}
    for one in workings:
        its = rows.setdefault((one.job_id or "", one.drum), {})
        its.setdefault(one.operation, []).append(one)
    return LogSaid(
        workings=workings,
        counted=from_log(workings).counted,
        by_drum={
            key: {name: _operation(found, now=now) for name, found in its.items()}
            for key, its in rows.items()
        },
    )


def _operation(rows: Iterable[Working], *, now: dt.datetime) -> OperationLog:
    done: list[tuple[int, dt.datetime]] = []
    run: list[Working] = []
    done_min, in_hand = 0.0, None
    last: dt.datetime | None = None
    finished = False
    for one in rows:
        finished |= one.finished
        if one.is_open:
            # Also what another bench, or nobody, ever put down.
            in_hand = one.stretch.picked_up if one.stretch else None
            continue
        run.append(one)
        at = min(_off(one), now)
        last = max(last, at) if last else at
        if one.count:
            done.append((one.count, at))
            done_min += _minutes(run)
            run = []
    loose_min = _minutes(run)
    if in_hand is not None:
        hour = now.replace(minute=0, second=0, microsecond=0)
        loose_min += min(max(0.0, (hour - in_hand) / dt.timedelta(minutes=1)), LONGEST_MIN)
    return OperationLog(
        done=tuple(done), finished=finished, done_min=done_min, loose_min=loose_min,
        in_hand=in_hand, last=last,
    )  # fmt: skip


def _minutes(run: Iterable[Working]) -> float:
    kept = tuple(run)
    typed = sum(one.took.minutes for one in kept if one.took is not None)
    return worked_minutes([one.stretch for one in kept if one.stretch is not None]).minutes + typed


def _off(one: Working) -> dt.datetime:
    """Return when hands were off it; a time typed after may have ended as late as its day."""
    if one.stretch is not None and one.stretch.put_down is not None:
        return one.stretch.put_down
    written = one.made_at.astimezone().replace(tzinfo=None)
    end = dt.datetime.combine(one.day, dt.time(23, 59))
    return min(written, end)
