"""An order worked through minute by minute, as one person at the bench would."""

from __future__ import annotations

from bisect import insort
from collections.abc import Sequence
from typing import NamedTuple

from counterhoop.job.schedule.numbered import NEVER, Numbered


class Worked(NamedTuple):
    """What came of an order.

    Attributes
    ----------
    order : list of int
        As the work began; broken off where it came to be later than allowed.
    begins : list of int
        The open minute, by its number, with which each piece of work begins.
    cured : list of int
        The minute of the calendar at which each is cured.
    late : int
        Minutes late times weights in hundredths; above the most allowed, so far only.
    finish : int
        The minutes at which jobs are ready, summed up.
    """

    order: list[int]
    begins: list[int]
    cured: list[int]
    late: int
    finish: int


def worked(
    numbered: Numbered,
    order: Sequence[int],
    *,
    held: Sequence[bool],
    minutes: Sequence[int],
    most: int = NEVER - 1,
) -> Worked:
    """Work through an order: at each free moment the first in it that may begin does.

    Parameters
    ----------
    numbered : Numbered
        All work.
    order : sequence of int
        All of it, the most wanted first, nothing before what it waits for
        (``Numbered.in_turn``).
    held : sequence of bool
        By number: left alone until all before it in the order has begun.
    minutes : sequence of int
        By number: hands at work.
    most : int
        Later than this, by ``Worked.late``, it is broken off.

    Returns
    -------
    Worked
        With ``NEVER`` for late where the working hours end before the work does.

    Notes
    -----
    A piece of work may begin when what it waits for is cured, hands are free, enough clamps are
    free now and enough places to dry will be when hands are off it. Work begun is finished; it
    is laid down while the shop is closed. Longer than every stretch though not to be laid
    down, it begins with a stretch. Only one thing is worked at a time, so whatever else is held
    at the end of a piece of work is known when it begins.
    """
    at, done, last = numbered.clock.at, numbered.clock.done, numbered.clock.last
    total = numbered.clock.total
    count = len(order)
    clamps, drying, dust = numbered.clamps, numbered.drying, numbered.dust
    wet, unbroken, cure = numbered.wet, numbered.unbroken, numbered.cure
    job, by, weight, then = numbered.job, numbered.by, numbered.weight, numbered.then
    rank = [0] * count
    for place, one in enumerate(order):
        rank[one] = place
    missing = [len(before) for before in numbered.before]
    ready = list(numbered.soonest)
    free = sorted(rank[one] for one in order if not missing[one])
    begun = bytearray(count)
    first = 0
    clamped: list[tuple[int, int]] = []
    shelved: list[tuple[int, int]] = []
    clamps_free, places = numbered.shop.clamps, numbered.shop.drying
    for one_held in numbered.shop.holds:
        until = one_held.until
        if one_held.clamps:
            insort(clamped, (done[until] if until <= last else total, one_held.clamps))
            clamps_free -= one_held.clamps
        if one_held.drying and until > 0:
            insort(
                shelved, ((done[until - 1] if until - 1 <= last else total) + 1, one_held.drying)
            )
    wet_until = now = 0
    begins, cured, finish = [0] * count, [0] * count, list(numbered.cures)
    # Late by as much already, whatever is done: nothing is ready before the plan begins.
    passed = [max(its) for its in zip(by, finish, strict=True)]
    late = sum(w * (p - d) for w, p, d in zip(weight, passed, by, strict=True))
    began: list[int] = []
    while free:
        while clamped and clamped[0][0] <= now:
            clamps_free += clamped.pop(0)[1]
        best, soonest = -1, NEVER
        for place in free:
            one = order[place]
            if held[one] and place != first:
                continue
            start = ready[one]
            if start < now:
                start = now
            if start >= soonest:
                continue
            if dust[one] and wet_until > start:
                start = wet_until
            if clamps[one] > clamps_free:
                start = max(start, _released(clamped, clamps[one] - clamps_free))
            if drying[one]:
                start = _shelf_free(shelved, places - drying[one], start + minutes[one])
                start -= minutes[one]
            if unbroken[one]:
                start = _whole(numbered, start, minutes[one])
            if start < soonest:
                best, soonest = place, start
                if start == now:
                    break
        one = order[best]
        now = soonest + minutes[one]
        if now > total:
            late = NEVER
            break
        free.remove(best)
        began.append(one)
        begun[best] = 1
        while first < count and begun[first]:
            first += 1
        ends = at[now - 1] + 1
        ready_at = ends + cure[one]
        follows = done[ready_at] if ready_at <= last else total
        begins[one], cured[one] = soonest, ready_at
        if clamps[one]:
            insort(clamped, (follows, clamps[one]))
            clamps_free -= clamps[one]
        if drying[one]:
            dry = done[ready_at - 1] if ready_at - 1 <= last else total
            insort(shelved, (dry + 1, drying[one]))
            while shelved and shelved[0][0] <= now:
                shelved.pop(0)
        if wet[one] and follows > wet_until:
            wet_until = follows
        for later in then[one]:
            if ready[later] < follows:
                ready[later] = follows
            missing[later] -= 1
            if not missing[later]:
                insort(free, rank[later])
        which = job[one]
        if ready_at > finish[which]:
            if ready_at > by[which]:
                late += weight[which] * (ready_at - max(by[which], finish[which]))
                if late > most:
                    break
            finish[which] = ready_at
    return Worked(began, begins, cured, late, sum(finish))


def _released(clamped: Sequence[tuple[int, int]], more: int) -> int:
    """Return the open minute from which so many more clamps are free."""
    for until, count in clamped:
        more -= count
        if more <= 0:
            return until
    return NEVER


def _shelf_free(shelved: Sequence[tuple[int, int]], most: int, ends: int) -> int:
    """Return the open minute from ``ends`` on after which at most so many places are taken."""
    taken = sum(count for until, count in shelved if until > ends)
    for until, count in shelved:
        if taken <= most:
            break
        if until > ends:
            taken -= count
            ends = until
    return ends


def _whole(numbered: Numbered, start: int, minutes: int) -> int:
    """Return the first open minute from which work is not laid down."""
    clock = numbered.clock
    while start < clock.total:
        opens, closes = clock.stretch(start)
        if minutes <= closes - start or (start == opens and minutes > clock.longest):
            break
        start = closes
    return start
