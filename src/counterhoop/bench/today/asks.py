"""Times that must be asked about before they count: out of all proportion, or never put down."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from counterhoop.bench.promise.bench_now import BenchNow
from counterhoop.bench.today.what import What, what_was
from counterhoop.job.hours.belief import believed
from counterhoop.job.hours.stretches import LONGEST_MIN
from counterhoop.job.hours.wild import asked_about
from counterhoop.store.work_log.learned import Counted
from counterhoop.store.work_log.working import Working

ASKED_DAYS = 14
"""What nobody has answered for so long is not asked any more; it stays clipped."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """One question about a line of the log.

    Attributes
    ----------
    line : Working
    what : What or None
        None where its job is not open any more.
    says : str
        The question.
    kind : str
        "wild" (a yes or a number answers it), "when" (the time when it was put down), "took" (how
        long it took).
    likely : int
        How many it rather was; 0 where no other number comes to mind.
    """

    line: Working
    what: What | None
    says: str
    kind: Literal["wild", "when", "took"]
    likely: int = 0


def asks_of(bench: BenchNow, *, now: dt.datetime) -> tuple[Ask, ...]:
    """Return what must be asked, the newest first.

    Parameters
    ----------
    now : datetime.datetime
        On the workshop's clock.
    """
    since = now.date() - dt.timedelta(days=ASKED_DAYS)
    found = [*_never_down(bench, now=now)]
    counted = bench.log.counted
    for place, one in enumerate(counted):
        if one.last.day >= since:
            found += _of_counted(bench, one, before=counted[:place])
    return tuple(sorted(found, key=lambda ask: -ask.line.entry))


def _never_down(bench: BenchNow, *, now: dt.datetime) -> Iterator[Ask]:
    for one in bench.log.workings:
        if not one.is_open or one.stretch is None:
            continue
        long_min = (now - one.stretch.picked_up) / dt.timedelta(minutes=1)
        if long_min > LONGEST_MIN or one.stretch.picked_up.date() != now.date():
            yield Ask(
                line=one, what=what_was(bench, one), kind="when",
                says="it was never put down: when were hands off it?",
            )  # fmt: skip


def _of_counted(bench: BenchNow, one: Counted, *, before: tuple[Counted, ...]) -> Iterator[Ask]:
    what = what_was(bench, one.last)
    if one.worked is None:
        yield Ask(line=one.last, what=what, kind="took", says=_plain(one))
        return
    if one.asks:
        yield Ask(line=one.last, what=what, kind="when", says=_plain(one))
        return
    if what is None or what.job in bench.unread:
        return
    log = [each.worked for each in before if each.worked is not None]
    belief = believed(what.operation, log)
    wild = asked_about(one.worked, operation=what.operation, belief=belief)
    if wild is not None:
        likely = round(one.worked.minutes / belief.median_min)
        yield Ask(
            line=one.last, what=what, kind="took" if wild.how_long else "wild", says=wild.asks,
            likely=likely if likely != one.last.count and not wild.how_long else 0,
        )  # fmt: skip


def _plain(one: Counted) -> str:
    """Return the question without the name of the work, which stands beside it."""
    return one.asks[0].removeprefix(f"{one.last.operation}, ")
