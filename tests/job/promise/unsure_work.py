"""Work whose hours are unsure, for the tests; spreads are common practice, no source."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from random_shops import random_shop

from counterhoop.job.schedule.task import Due, Shop, Task

ALWAYS = Shop(open=((0, 400_000),), clamps=0, drying=0)
"""Open day and night, so that a finish is a sum of minutes."""


def chance(seed: int) -> np.random.Generator:
    return np.random.default_rng(seed)


def in_series(*pairs: tuple[int, float], job: str = "14") -> list[Task]:
    """Work of one job, one after the other: usual minutes and spread."""
    return [
        Task(
            key=f"{job}/{place}", job=job, drum="snare", says=f"step {place}", minutes=minutes,
            spread=spread, after=(f"{job}/{place - 1}",) if place else (),
        )
        for place, (minutes, spread) in enumerate(pairs)
    ]  # fmt: skip


def keys(tasks: Sequence[Task]) -> list[str]:
    return [task.key for task in tasks]


def unsure_shop(seed: int, *, drums: int) -> tuple[list[Task], list[Due], Shop]:
    """A shop by chance; each piece of work is unsure by 0.2 to 0.6."""
    tasks, dues, shop = random_shop(seed, drums=drums)
    spreads = chance(seed).uniform(0.2, 0.6, len(tasks))
    unsure = [replace(one, spread=float(two)) for one, two in zip(tasks, spreads, strict=True)]
    return unsure, dues, shop
