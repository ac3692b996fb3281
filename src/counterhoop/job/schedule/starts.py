"""Orders to begin from: by date, by pressing dates, and by chance."""

from __future__ import annotations

from math import exp

import numpy as np

from counterhoop.job.schedule.alone import tails
from counterhoop.job.schedule.numbered import NEVER, Numbered

LOOK_AHEAD = (1.5, 3.0, 6.0, 12.0)
"""How long before a date it presses, in times of what work usually needs to its job's end."""


def starting_orders(numbered: Numbered) -> list[list[int]]:
    """Return orders by rule: dates as they come, slack as it shrinks, dates as they press.

    Notes
    -----
    A date presses as in Vepsalainen and Morton (1987), "Priority rules for job shops with
    weighted tardiness costs" (from memory): weight over the hands still needed, times
    exp(-slack / (k x what is usual)). They reckon it anew at each moment; here it is reckoned
    once, as of the minute with which the plan begins.
    """
    count = len(numbered.keys)
    tail = tails(numbered)
    work = [0] * len(numbered.by)
    for one in range(count):
        work[numbered.job[one]] += numbered.minutes[one]
    by = [numbered.by[numbered.job[one]] for one in range(count)]
    weight = [numbered.weight[numbered.job[one]] for one in range(count)]
    needed = [work[numbered.job[one]] for one in range(count)]
    found = [
        numbered.in_turn(sorted(range(count), key=lambda one: by[one])),
        numbered.in_turn(sorted(range(count), key=lambda one: by[one] - tail[one])),
        numbered.in_turn(sorted(range(count), key=lambda one: needed[one] / max(weight[one], 1))),
    ]
    usual = max(sum(tail) / max(count, 1), 1.0)
    for ahead in LOOK_AHEAD:
        presses = [
            0.0
            if by[one] >= NEVER
            else weight[one] / needed[one] * exp(-max(0, by[one] - tail[one]) / (ahead * usual))
            for one in range(count)
        ]
        found.append(numbered.in_turn(sorted(range(count), key=lambda one: -presses[one])))
    return found


def order_by_chance(numbered: Numbered, chance: np.random.Generator) -> list[int]:
    """Return an order by chance."""
    return numbered.in_turn([int(one) for one in chance.permutation(len(numbered.keys))])
