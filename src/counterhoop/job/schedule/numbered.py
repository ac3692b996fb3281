"""Work as columns of numbers, after all that no shop could do was turned away."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.job.schedule.clock import Clock, clock_of
from counterhoop.job.schedule.task import Due, Shop, Task

NEVER = 1 << 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbered:
    """All work, numbered as it was given; a column for each thing that is asked of it.

    Attributes
    ----------
    keys : tuple of str
    minutes, cure, clamps, drying : tuple of int
        As in ``Task``.
    dust, wet, unbroken : tuple of bool
    soonest : tuple of int
        The first open minute, by its number, that ``not_before`` allows.
    before, then : tuple of tuple of int
        What each waits for, and what waits for it.
    job : tuple of int
        The number of its job.
    by, weight : tuple of int
        Of each job: the minute from which it is late and its weight in hundredths; ``NEVER``
        and 0 for a job without a date.
    cures : tuple of int
        Of each job: the minute before which it is not ready for what cures as the plan begins.
    clock : Clock
    shop : Shop
    """

    keys: tuple[str, ...]
    minutes: tuple[int, ...]
    cure: tuple[int, ...]
    clamps: tuple[int, ...]
    drying: tuple[int, ...]
    dust: tuple[bool, ...]
    wet: tuple[bool, ...]
    unbroken: tuple[bool, ...]
    soonest: tuple[int, ...]
    before: tuple[tuple[int, ...], ...]
    then: tuple[tuple[int, ...], ...]
    job: tuple[int, ...]
    by: tuple[int, ...]
    weight: tuple[int, ...]
    cures: tuple[int, ...]
    clock: Clock
    shop: Shop

    def in_turn(self, order: Sequence[int]) -> list[int]:
        """Return an order in which nothing stands before what it waits for.

        Of what may come next the first in the order given does.
        """
        rank = [0] * len(self.keys)
        for place, one in enumerate(order):
            rank[one] = place
        missing = [len(before) for before in self.before]
        found: list[int] = []
        free = {rank[one] for one, count in enumerate(missing) if count == 0}
        while free:
            place = min(free)
            free.remove(place)
            found.append(order[place])
            for later in self.then[order[place]]:
                missing[later] -= 1
                if missing[later] == 0:
                    free.add(rank[later])
        return found


def number_tasks(tasks: Sequence[Task], shop: Shop, dues: Sequence[Due] = ()) -> Numbered:
    """Number the work of all jobs.

    Raises
    ------
    BadInput
        A key or a date given twice, work that waits for what is not there or for itself, more
        clamps or places than the shop has, or work that fits no working stretch.
    """
    numbers = {task.key: place for place, task in enumerate(tasks)}
    if len(numbers) < len(tasks):
        twice = next(task.key for place, task in enumerate(tasks) if numbers[task.key] != place)
        raise BadInput("two pieces of work have the same key", where=twice)
    clock = clock_of(shop.open)
    for task in tasks:
        _hold_to_shop(task, shop, clock)
        for key in task.after:
            if key not in numbers:
                raise BadInput("waits for work that is not in the plan", where=task.key, given=key)
    jobs = {job: place for place, job in enumerate(dict.fromkeys(task.job for task in tasks))}
    by, weight = [NEVER] * len(jobs), [0] * len(jobs)
    for due in dues:
        if due.job not in jobs:
            continue
        if weight[jobs[due.job]]:
            raise BadInput("a job is due twice", where=due.job, step="Keep one of the dates.")
        by[jobs[due.job]], weight[jobs[due.job]] = due.by, due.hundredths
    before = [tuple(dict.fromkeys(numbers[key] for key in task.after)) for task in tasks]
    then: list[list[int]] = [[] for _ in tasks]
    for place, earlier in enumerate(before):
        for one in earlier:
            then[one].append(place)
    numbered = Numbered(
        keys=tuple(numbers),
        minutes=tuple(task.minutes for task in tasks),
        cure=tuple(task.cure_min for task in tasks),
        clamps=tuple(task.clamps for task in tasks),
        drying=tuple(task.drying if task.cure_min else 0 for task in tasks),
        dust=tuple(task.air == "dust" for task in tasks),
        wet=tuple(task.air == "wet" for task in tasks),
        unbroken=tuple(task.unbroken for task in tasks),
        soonest=tuple(clock.number(task.not_before) for task in tasks),
        before=tuple(before),
        then=tuple(tuple(later) for later in then),
        job=tuple(jobs[task.job] for task in tasks),
        by=tuple(by),
        weight=tuple(weight),
        cures=tuple(
            max((one.until for one in shop.holds if one.job == job), default=0) for job in jobs
        ),
        clock=clock,
        shop=shop,
    )
    if len(numbered.in_turn(range(len(tasks)))) < len(tasks):
        turned = set(numbered.in_turn(range(len(tasks))))
        waits = next(key for key, place in numbers.items() if place not in turned)
        raise BadInput("waits for work that in the end waits for it", where=waits)
    return numbered


def _hold_to_shop(task: Task, shop: Shop, clock: Clock) -> None:
    """Refuse work for which this shop has not enough."""
    for asked, there, of in (
        (task.clamps, shop.clamps, "clamps"),
        (task.drying, shop.drying, "places on the drying shelf"),
    ):
        if asked > there:
            raise BadInput(
                f"needs {asked} {of}, and the shop has {there}", where=task.key,
                step="Do it in two goes, or borrow.",
            )  # fmt: skip
    if task.unbroken and task.minutes > clock.longest:
        raise BadInput(
            "is not to be laid down, and fits no working stretch", where=task.key,
            given=f"{task.minutes} min", wanted=f"at most {clock.longest} min",
            step="Split it, or open for longer on one day.",
        )  # fmt: skip
