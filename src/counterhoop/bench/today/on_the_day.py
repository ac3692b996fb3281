"""What a day holds: in hand, next, what may be touched when, what was done."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass

from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.promise.bench_now import BenchNow, OpenJob
from counterhoop.bench.promise.log_said import NOT_BEGUN
from counterhoop.bench.promise.pieces import Cures, Work
from counterhoop.bench.promise.shop_plan import ShopPlan
from counterhoop.bench.today.what import What, belief_of, left_of_drum, what_of, what_was
from counterhoop.job.hours.stretches import LONGEST_MIN
from counterhoop.store.work_log.working import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What is in hand.

    Attributes
    ----------
    line : Working
    what : What or None
        None where its job is not open any more.
    so_far_min : float
        Since it was picked up.
    before_min : float
        Hands at work on it earlier, since it was last counted.
    usual_min : float
        What all of it that is left usually takes; 0 where nobody knows.
    whose : str
        Whose figure that is.
    cures : tuple of Cures
        What is done on the drum and must be left alone first.
    """

    line: Working
    what: What | None
    so_far_min: float
    before_min: float = 0.0
    usual_min: float = 0.0
    whose: str = ""
    cures: tuple[Cures, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ToDo:
    """A piece of work that may be picked up.

    Attributes
    ----------
    job : OpenJob
    drum : KeptDrum
    work : Work
    minutes : int
        Hands at work that are left of it.
    waits_for : str
        What has to come before it may be picked up.
    cures : Cures or None
        What is done on the drum and must be left alone first.
    begins, ends : datetime.datetime or None
        As it is planned; None where it is only next in the order of the trade.
    """

    job: OpenJob
    drum: KeptDrum
    work: Work
    minutes: int
    waits_for: str = ""
    cures: Cures | None = None
    begins: dt.datetime | None = None
    ends: dt.datetime | None = None


def held_now(bench: BenchNow, *, now: dt.datetime) -> tuple[Held, ...]:
    """Return what is in hand, at whatever bench, the newest first.

    Parameters
    ----------
    now : datetime.datetime
        On the workshop's clock, to the minute: the bench itself is read by the hour.
    """
    found = []
    for one in bench.log.workings:
        if not one.is_open or one.stretch is None:
            continue
        so_far = max(0.0, (now - one.stretch.picked_up) / dt.timedelta(minutes=1))
        what = what_was(bench, one)
        if what is None:
            found.append(Held(line=one, what=None, so_far_min=so_far))
            continue
        belief = belief_of(bench, what.operation)
        found.append(
            Held(
                line=one, what=what, so_far_min=so_far,
                before_min=_before(bench, what),
                usual_min=max(1, what.times_left) * belief.median_min,
                whose=belief.whose, cures=_cures(bench, what),
            )
        )  # fmt: skip
    return tuple(sorted(found, key=lambda held: -held.line.entry))


def _cures(bench: BenchNow, what: What) -> tuple[Cures, ...]:
    """Return what must have cured before it; of work outside the scheme, all that cures."""
    if what.left:
        found = cures_under(bench)
        return tuple({found[one.task.key] for one in what.left if one.task.key in found})
    its = (what.job.kept.id, what.drum.name)
    return tuple(one for job, one in bench.cures if (job.kept.id, one.drum) == its)


def _before(bench: BenchNow, what: What) -> float:
    """Return hands at work since it was last counted, in stretches that were put down."""
    said = bench.log.of(what.job.kept.id, what.drum).get(what.operation.name, NOT_BEGUN)
    if said.in_hand is None:
        return said.loose_min
    hour = bench.setting.now.replace(minute=0, second=0, microsecond=0)
    in_hand = (hour - said.in_hand) / dt.timedelta(minutes=1)
    return max(0.0, said.loose_min - min(max(0.0, in_hand), LONGEST_MIN))


def planned_on(plan: ShopPlan, day: dt.date) -> tuple[ToDo, ...]:
    """Return what is planned on a day, in its order; each piece of work once."""
    cures = cures_under(plan.bench)
    drums = {(job.kept.id, drum.name): (job, drum) for job in plan.bench.jobs
             for drum in job.kept.drums}  # fmt: skip
    found = []
    for placed in plan.found.plan.placed:
        work = plan.work(placed)
        on_day = [
            (plan.time(begins), plan.time(ends))
            for begins, ends in placed.stretches
            if plan.time(begins).date() == day
        ]
        if on_day:
            job, drum = drums[work.task.job, work.task.drum]
            minutes = sum(ends - begins for begins, ends in placed.stretches)
            found.append(
                ToDo(
                    job=job, drum=drum, work=work, minutes=minutes,
                    waits_for=what_of(
                        plan.bench, job=job.kept.id, drum=drum.id, operation=work.operation
                    ).waits_for,
                    cures=cures.get(work.task.key),
                    begins=on_day[0][0], ends=on_day[-1][1],
                )
            )  # fmt: skip
    return tuple(sorted(found, key=lambda one: (one.begins or dt.datetime.max, one.work.task.key)))


def as_last_planned(plan: ShopPlan, bench: BenchNow, *, today: dt.date) -> tuple[ToDo, ...]:
    """Return what is still to do of an older plan, in its order, for the first day that has any.

    What was written since counts; hours are not said, as the new plan will have others.

    Parameters
    ----------
    bench : BenchNow
        As it is now.
    """
    now = {one.work.task.key: one for one in _every_work(bench)}
    for day in sorted({plan.time(one.begins).date() for one in plan.found.plan.placed}):
        keys = [one.work.task.key for one in planned_on(plan, day)] if day >= today else []
        if left := tuple(now[key] for key in keys if key in now):
            return left
    return ()


def _every_work(bench: BenchNow) -> Iterator[ToDo]:
    cures = cures_under(bench)
    minutes = {task.key: task.minutes for task in bench.tasks}
    for job in bench.jobs:
        for drum in job.kept.drums:
            for work in left_of_drum(job, drum):
                what = what_of(bench, job=job.kept.id, drum=drum.id, operation=work.operation)
                key = work.task.key
                yield ToDo(
                    job=job, drum=drum, work=work, minutes=minutes[key],
                    waits_for=what.waits_for, cures=cures.get(key),
                )  # fmt: skip


def cures_under(bench: BenchNow) -> dict[str, Cures]:
    """Return by task what must have cured before it, or before what comes before it."""
    latest: dict[tuple[str, str], Cures] = {}
    for job, one in bench.cures:
        # They come in the order of their ends: the last one stays.
        latest[job.kept.id, one.drum] = one
    found: dict[str, Cures] = {}
    for task in bench.tasks:
        last = latest.get((task.job, task.drum))
        if last is None:
            continue
        # In the order of the trade: what comes before a task was looked at before it.
        waits = task.not_before >= bench.setting.minute(last.until)
        if waits or any(before in found for before in task.after):
            found[task.key] = last
    return found


def first_day(plan: ShopPlan) -> dt.date | None:
    """Return the first day on which anything is planned; None where nothing is left to do."""
    begins = [placed.begins for placed in plan.found.plan.placed]
    return plan.time(min(begins)).date() if begins else None


def could_begin(bench: BenchNow) -> tuple[ToDo, ...]:
    """Return the first work of each drum that waits for nothing, in the order of the folders.

    It needs no plan: that is worked out beside the pages.
    """
    now = bench.setting.since + 59
    open_keys = {task.key for task in bench.tasks}
    ready = {task.key for task in bench.tasks
             if task.not_before <= now and not open_keys & set(task.after)}  # fmt: skip
    return tuple(
        ToDo(job=job, drum=drum, work=work, minutes=work.task.minutes)
        for job in bench.jobs
        for drum in job.kept.drums
        for work in left_of_drum(job, drum)
        if work.task.key in ready
    )


def lines_of_day(bench: BenchNow, day: dt.date) -> tuple[Working, ...]:
    """Return what the log says was worked on a day, in the order in which it was put down."""
    found = [one for one in bench.log.workings if one.day == day and not one.is_open]
    return tuple(sorted(found, key=_ended))


def _ended(one: Working) -> tuple[bool, dt.datetime, int]:
    down = one.stretch.put_down if one.stretch else None
    return down is None, down or dt.datetime.max, one.entry
