"""What the hours learn from: stretches of one working summed up to the count that was said."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from counterhoop.job.hours.stretches import Stretch, worked_minutes
from counterhoop.job.hours.worked import Worked
from counterhoop.store.work_log.working import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class FromLog:
    """What the log says of hands at work.

    Attributes
    ----------
    worked : tuple of Worked
        Each from one count to the next, first what was counted first.
    asks : tuple of str
        What must be asked before the sums are right.
    """

    worked: tuple[Worked, ...]
    asks: tuple[str, ...]


@dataclass(slots=True)
class _Run:
    stretches: list[Stretch] = field(default_factory=list)
    typed_min: float = 0.0
    notes: list[str] = field(default_factory=list)
    answered: bool = False


def from_log(workings: Sequence[Working]) -> FromLog:
    """Sum workings up: what was laid down uncounted belongs to the next count of the same work.

    Work that is in hand, or was never counted, is left out until it is.

    Parameters
    ----------
    workings : sequence of Working
        From ``read_log``.
    """
    runs: dict[tuple[str, str, str], _Run] = {}
    worked, asks = [], []
    for one in sorted((one for one in workings if not one.struck), key=_begun):
        key = (one.job_id or "", one.drum, one.operation)
        if one.is_open:
            continue
        run = runs.setdefault(key, _Run())
        if one.stretch is not None:
            run.stretches.append(one.stretch)
        if one.took is not None:
            run.typed_min += one.took.minutes
        if one.note:
            run.notes.append(one.note)
        run.answered |= one.answered
        if not one.count:
            continue
        del runs[key]
        hands = worked_minutes(run.stretches)
        asks += [f"{one.operation}, {ask}" for ask in hands.asks]
        minutes = hands.minutes + run.typed_min
        if minutes <= 0.0:
            asks.append(f"{one.operation}, {one.count} done in no time: how long did it take?")
            continue
        worked.append(
            Worked(
                operation=one.operation,
                count=one.count,
                minutes=minutes,
                when=one.day,
                job=one.job_id or "",
                drum=one.drum,
                note="\n".join(run.notes),
                answered=run.answered,
            )
        )
    return FromLog(worked=tuple(worked), asks=tuple(asks))


def _begun(one: Working) -> tuple[str, int]:
    # A time that was typed after stands where it was written: its day has no hour.
    at = one.stretch.picked_up.isoformat() if one.stretch else f"{one.day.isoformat()}T99"
    return at, one.entry
