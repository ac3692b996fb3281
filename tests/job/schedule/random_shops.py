"""Workshops with so many drums on the bench, drawn by chance from a seed.

Each drum is a job of 4 to 8 pieces of work in the trade's order: strip, soak (12 h), plug (clamps
for 12 h), true the edge (dust), lacquer (wet, 24 h), drill, refit, tune. One person, eight hours on
weekdays with an hour for lunch, six clamps, four places to dry. Minutes, clamps and hours are
common practice, no source. A drum is due within the time that all hands at work take, divided
among the drums evenly, and a few days more or less; weights are 1 to 3.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from counterhoop.job.schedule.task import Due, Shop, Task
from counterhoop.job.schedule.work_through import work_through

DAY = 1440
OPEN_MIN = 480
# says, minutes from and to, cure, clamps, places to dry, air, how often a drum has it
TRADE = (
    ("strip", 30, 120, 0, 0, 0, "", 1.0),
    ("soak", 10, 30, 720, 0, 0, "", 0.6),
    ("plug", 30, 150, 720, 2, 0, "", 0.7),
    ("true the edge", 60, 180, 0, 0, 0, "dust", 0.8),
    ("lacquer", 60, 180, 1440, 0, 1, "wet", 0.6),
    ("drill", 30, 120, 0, 0, 0, "", 0.7),
    ("refit", 60, 180, 0, 0, 0, "", 1.0),
    ("tune", 20, 60, 0, 0, 0, "", 1.0),
)


def working_days(days: int) -> tuple[tuple[int, int], ...]:
    """Weekdays from 9 to 13 and 14 to 18, beginning with a Monday."""
    return tuple(
        (day * DAY + begins, day * DAY + begins + OPEN_MIN // 2)
        for day in range(days)
        if day % 7 < 5
        for begins in (540, 840)
    )


def random_shop(seed: int, *, drums: int) -> tuple[list[Task], list[Due], Shop]:
    """Draw the work of so many drums, their dates and the shop."""
    chance = np.random.default_rng([seed, drums])
    tasks: list[Task] = []
    for drum in range(drums):
        while True:
            kinds = [kind for kind in TRADE if chance.random() < kind[7]]
            if 4 <= len(kinds) <= 8:
                break
        before: tuple[str, ...] = ()
        for says, least, most, cure, clamps, drying, air, _ in kinds:
            key = f"{drum + 1} {says}"
            tasks.append(
                Task(
                    key=key,
                    job=f"job {drum + 1}",
                    drum=f"drum {drum + 1}",
                    says=says,
                    minutes=int(chance.integers(least, most + 1)),
                    after=before,
                    cure_min=cure,
                    clamps=clamps and int(chance.integers(clamps, clamps + 3)),
                    drying=drying,
                    air=air,
                    unbroken=air == "wet",
                )
            )
            before = (key,)
    hands = sum(task.minutes for task in tasks)
    dues = []
    for place, drum in enumerate(chance.permutation(drums)):
        fair = (place + 1) / drums * hands / OPEN_MIN * 7 / 5
        days = max(2.0, fair + float(chance.uniform(-2.0, 4.0)))
        dues.append(
            Due(job=f"job {drum + 1}", by=round(days) * DAY, weight=int(chance.integers(1, 4)))
        )
    return tasks, dues, Shop(open=working_days(14 + 4 * drums), clamps=6, drying=4)


def best_by_chance(
    tasks: Sequence[Task], dues: Sequence[Due], shop: Shop, *, seed: int, times: int = 300
) -> float:
    """Return the least lateness of so many orders by chance, each worked through."""
    chance = np.random.default_rng([seed, times])
    keys = [task.key for task in tasks]
    orders = ([keys[place] for place in chance.permutation(len(keys))] for _ in range(times))
    return min(work_through(order, tasks, shop, dues=dues).late for order in orders)
