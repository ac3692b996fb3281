"""What the hours learn from: stretches of one working summed up to the count that was said."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from counterhoop.job.hours.stretches import Stretch, worked_minutes
from counterhoop.job.hours.worked import Worked
from counterhoop.store.work_log.working import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """Work from one count to the next.

    Attributes
    ----------
    last : Working
        With which it was counted; what is answered is answered there.
    worked : Worked or None
        What hours learn from; None where no time went by.
    asks : tuple of str
        What must be asked before its sum is right.
    """

    last: Working
    worked: Worked | None
    asks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class FromLog:
    """What the log says of hands at work.

    Attributes
    ----------
    counted : tuple of Counted
        First what was counted first.
    """

    counted: tuple[Counted, ...]

    @property
    def worked(self) -> tuple[Worked, ...]:
        """What hours learn from."""
        return tuple(one.worked for one in self.counted if one.worked is not None)

    @property
    def asks(self) -> tuple[str, ...]:
        """What must be asked before the sums are right."""
        return tuple(ask for one in self.counted for ask in one.asks)


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
    counted = []
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
        minutes = hands.minutes + run.typed_min
        asks = [] if run.answered else [f"{one.operation}, {ask}" for ask in hands.asks]
        if minutes <= 0.0:
            asks.append(f"{one.operation}, {one.count} done in no time: how long did it take?")
        counted.append(
            Counted(last=one, worked=_worked(one, run, minutes=minutes), asks=tuple(asks))
        )
    return FromLog(counted=tuple(counted))


def _worked(one: Working, run: _Run, *, minutes: float) -> Worked | None:
    if minutes <= 0.0:
        return None
    return Worked(
        operation=one.operation,
        count=one.count,
        minutes=minutes,
        when=one.day,
        job=one.job_id or "",
        drum=one.drum,
        note="\n".join(run.notes),
        answered=run.answered,
        typed=run.typed_min > 0.0,
    )


def _begun(one: Working) -> tuple[str, int]:
    # A time that was typed after stands where it was written: its day has no hour.
    at = one.stretch.picked_up.isoformat() if one.stretch else f"{one.day.isoformat()}T99"
    return at, one.entry
