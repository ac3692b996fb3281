"""The date of a job in words: the day on the face, what it waits for, who would wait for it."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from counterhoop.bench.promise.promises import Promised
from counterhoop.bench.promise.shop_plan import ShopPlan
from counterhoop.papers.day_list import hands_said
from counterhoop.quantities.day import say_day, say_weekday

if TYPE_CHECKING:
    from counterhoop.job.promise.came_in import CameIn, Wait
    from counterhoop.job.promise.promise import Promise
    from counterhoop.job.promise.still import Still

MOST_NAMED = 4
"""So many other jobs are named that stand before one; the others are counted."""
WEIGHTS = (
    ("", "as much as any other job"),
    ("0.5", "half as much: it can wait"),
    ("2", "twice as much"),
    ("5", "five times as much: before nearly all others"),
)
"""What a day late counts against a day of another job."""


def in_100(share: float) -> str:
    """Return a share as so many in a hundred, never more than it is.

    Examples
    --------
    >>> in_100(0.8349), in_100(0.003), in_100(0.0)
    ('83 in 100', '1 in 100', '0 in 100')
    """
    return f"{max(int(100.0 * share + 1e-9), 1 if share > 0.0 else 0)} in 100"


def ready_says(found: Promise) -> str:
    """Return the one day, for the face."""
    return f"Ready by {say_weekday(found.day)}"


def ready_beside(found: Promise) -> str:
    """Return what the day is worth.

    Examples
    --------
    >>> from counterhoop.job.promise.promise import Promise
    >>> found = Promise(
    ...     day=dt.date(2027, 1, 14), share=0.834, doubt=0.02, half_by=dt.date(2027, 1, 12),
    ...     workings=2000, asked=0.8,
    ... )
    >>> ready_beside(found).partition(" Half")[0]
    '83 in 100: worked a hundred times, it is done by the end of that day 83 times.'
    """
    share = in_100(found.share)
    times = share.partition(" ")[0]
    often = "every time" if times == "100" else f"{times} times"
    said = f"{share}: worked a hundred times, it is done by the end of that day {often}."
    if found.half_by == found.day:
        return said
    return f"{said} Half are done by {say_weekday(found.half_by)}."


def promised_says(one: Promised) -> str:
    """Return what was promised, or taken back, with the share that it had then.

    Examples
    --------
    >>> promised_says(
    ...     Promised(day=dt.date(2030, 5, 17), to="Nell", on=dt.date(2030, 5, 2), share=0.84)
    ... )
    'Friday 17 May 2030, told to Nell on 2 May 2030: 84 in 100 as the bench stood then.'
    """
    if one.day is None:
        return f"Taken back on {say_day(one.on)}."
    told = f", told to {one.to}" if one.to else ""
    on = f" on {say_day(one.on)}" if one.on else ""
    stood = f": {in_100(one.share)} as the bench stood then" if one.share is not None else ""
    return f"{say_weekday(one.day)}{told}{on}{stood}."


def stands_says(stands: Still, *, today: dt.date) -> str:
    """Return how likely the day is that was promised, and what to do where it is not enough."""
    if stands.holds:
        return f"It holds: {in_100(stands.share)} are done by then."
    now = f"{in_100(stands.now.asked)} are done by {say_weekday(stands.now.day)}"
    if stands.promised < today:
        return f"That day is past: {now}. Ring."
    return (
        f"It does not hold as the bench stands: {in_100(stands.share)} are done by then."
        f" {now}. Ring in time."
    )


def others_late(plan: ShopPlan, job: str) -> tuple[str, ...]:
    """Return the promises to others that do not hold as the bench stands, the soonest first."""
    titles = {one.kept.id: one.title for one in plan.bench.jobs}
    return tuple(
        f"{titles.get(one.job, one.job)}, promised for {say_weekday(one.promised)}:"
        f" {in_100(one.share)} by then, {in_100(one.now.asked)} by {say_weekday(one.now.day)}."
        for one in plan.found.still.values()
        if one.job != job and not one.holds
    )


def before_it(plan: ShopPlan, job: str) -> tuple[str, ...]:
    """Say what hands are at until a job is done: that is what its day is made of."""
    placed = plan.found.plan.placed
    ends = max((one.ends for one in placed if plan.work(one).task.job == job), default=0)
    minutes: Counter[str] = Counter()
    for one in placed:
        for begins, until in one.stretches:
            if begins < ends:
                minutes[plan.work(one).task.job] += until - begins
    own = minutes.pop(job, 0)
    said = [f"{hands_said(own)} of hands at work are left of it."] if own else []
    if minutes:
        titles = {one.kept.id: one.title for one in plan.bench.jobs}
        named = [
            f"{hands_said(many)} at {titles.get(other, other)}"
            for other, many in minutes.most_common(MOST_NAMED)
        ]
        others = len(minutes) - MOST_NAMED
        if others > 0:
            rest = sum(many for _, many in minutes.most_common()[MOST_NAMED:])
            named.append(f"{hands_said(rest)} at {others} other job{'s' if others > 1 else ''}")
        said.append(f"By usual hours these stand before its end too: {'; '.join(named)}.")
    return tuple(said)


def came_in_lines(ways: Sequence[CameIn], *, titles: Mapping[str, str]) -> Iterator[CameInWay]:
    """Yield each way in which one more job could be fitted in, in words."""
    for one in ways:
        how = "Where nobody is to wait" if one.behind else "Fitted in between the others"
        yield (
            f"{how}: ready by {say_weekday(one.promise.day)}, {in_100(one.promise.share)}.",
            tuple(_wait_says(wait, titles=titles) for wait in one.waits)
            or ("Nobody with a promised day would wait.",),
        )


CameInWay = tuple[str, tuple[str, ...]]
"""When it would be ready, and a line for each job that would wait."""


def _wait_says(wait: Wait, *, titles: Mapping[str, str]) -> str:
    before, after = wait.without, wait.with_it
    who = titles.get(before.job, before.job)
    by_then = (
        f"promised for {say_weekday(before.promised)}: {in_100(after.share)} by then instead of"
        f" {in_100(before.share)}"
    )
    days = wait.days_later
    if days <= 0:
        return f"{who}, {by_then}."
    later = "a day" if days == 1 else f"{days} days"
    return f"{who} is ready {later} later, by {say_weekday(after.now.day)}; {by_then}."


def weight_choices(now: str) -> tuple[tuple[str, str], ...]:
    """Return what can be chosen, with what is written now where it is none of that."""
    known = {value for value, _ in WEIGHTS}
    return WEIGHTS if now in known else (*WEIGHTS, (now, f"{now} times as much"))
