"""How late any plan must be: hands dealt out minute by minute, as if work came in crumbs."""

from __future__ import annotations

from math import floor

import numpy as np

from counterhoop.job.schedule.alone import cured_from, heads, tails
from counterhoop.job.schedule.numbered import Numbered

MOST_CRUMBS = 500


def least_late(numbered: Numbered) -> int:
    """Return lateness, in hundredths of weighted minutes, below which there is no plan.

    Notes
    -----
    The larger of two bounds. First what each job is late were it alone. Second: in any plan a
    job is late by at least what each single minute of its work says, were all that follows
    done without a pause; so also by their mean. Work is cut into crumbs of equal length (what
    is left over costs nothing) and open time into slots of that length; a crumb in a slot
    costs what its last minute at the slot's first would. Each slot takes one crumb, so the
    cheapest assignment costs no more than any plan. The idea is the assignment bound for jobs
    that share one machine (from memory); what it does not know of is clamps, the shelf and air.
    """
    by, weight = numbered.by, numbered.weight
    single = [w * max(0, c - d) for w, c, d in zip(weight, numbered.cures, by, strict=True)]
    begins = heads(numbered)
    for one, job in enumerate(numbered.job):
        late = max(0, cured_from(numbered, one, begins[one]) - by[job]) if weight[job] else 0
        single[job] = max(single[job], weight[job] * late)
    return max(sum(single), _dealt(numbered, begins))


def _dealt(numbered: Numbered, begins: list[int]) -> int:
    """Return the cheapest way to deal out all crumbs."""
    from scipy.optimize import linear_sum_assignment

    dated = [one for one, job in enumerate(numbered.job) if numbered.weight[job]]
    hands = sum(numbered.minutes[one] for one in dated)
    crumb = max(1, -(-hands // MOST_CRUMBS))
    follows = tails(numbered)
    clock = numbered.clock
    crumbs = [(one, place) for one in dated for place in range(numbered.minutes[one] // crumb)]
    if not crumbs:
        return 0
    # So many slots that each crumb finds a free one however late it may begin at the soonest.
    latest = max(begins[one] + place * crumb for one, place in crumbs)
    count = min(-(-clock.total // crumb), latest // crumb + len(crumbs) + 1)
    first = np.arange(count) * crumb
    minute = np.asarray(clock.at)[first]
    job = [numbered.job[one] for one, _ in crumbs]
    cost = np.empty((len(crumbs), count))
    for row, (one, place) in enumerate(crumbs):
        ready = minute + follows[one] - (place + 1) * crumb + 1
        share = numbered.weight[job[row]] / job.count(job[row])
        cost[row] = np.maximum(ready - numbered.by[job[row]], 0) * share
        cost[row, first + crumb <= begins[one] + place * crumb] = np.inf
    dealt = float(cost[linear_sum_assignment(cost)].sum())
    return floor(dealt * (1.0 - 1e-9))
