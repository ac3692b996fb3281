"""Small shops on a half-hour grid, two ways to work in them that share nothing with the planner.

``best_of_all`` tries every order in which work can begin and begins each piece as early as the
plan's own checker lets it; ``minute_by_minute`` is the person at the bench who looks up at each
half hour and takes the first thing wanted that the checker lets begin. What goes on the shelf is
not laid down here: else the last minute of it may be left for the moment a place is free, which
is off the grid.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np
from hypothesis import strategies as st

from counterhoop.job.schedule.breaks import breaks_of
from counterhoop.job.schedule.task import Due, Placed, Plan, Shop, Task

GRID = 30
HOURS = tuple(
    (day * 1440 + begins, day * 1440 + ends)
    for day in range(40)
    if day % 7 < 5
    for begins, ends in ((540, 690), (750, 930))
)
SHOP = Shop(open=HOURS, clamps=3, drying=2)


@st.composite
def works(draw: st.DrawFn, *, most: int = 7) -> tuple[Task, ...]:
    """Draw up to so many pieces of work on two or three drums, a few of all kinds."""
    count = draw(st.integers(1, most))
    tasks: list[Task] = []
    for place in range(count):
        drum = str(draw(st.integers(1, 3)))
        own = [task.key for task in tasks if task.drum == drum]
        others = [task.key for task in tasks if task.drum != drum]
        also = draw(st.sampled_from([(), (), (), *((key,) for key in others)]))
        cure = GRID * draw(st.sampled_from([0, 0, 1, 5, 24, 48]))
        drying = draw(st.integers(0, 2))
        tasks.append(
            Task(
                key=f"{place}",
                job=drum,
                drum=drum,
                says="work",
                minutes=GRID * draw(st.integers(1, 5)),
                after=(*own[-1:], *also),
                cure_min=cure,
                clamps=draw(st.integers(0, 3)),
                drying=drying,
                air=draw(st.sampled_from(["", "dust", "wet"])),
                not_before=GRID * draw(st.sampled_from([0, 0, 20, 60])),
                unbroken=drying > 0 or draw(st.booleans()),
            )
        )
    return tuple(tasks)


def chains(seed: int) -> tuple[tuple[Task, ...], tuple[Due, ...]]:
    """Draw 6 or 7 pieces of work on 2 or 3 drums, one after the other on each, and dates."""
    chance = np.random.default_rng(seed)
    count, drums = int(chance.integers(6, 8)), int(chance.integers(2, 4))
    tasks: list[Task] = []
    for place in range(count):
        drum = str(place % drums)
        air = ("", "dust", "wet")[chance.integers(3)]
        cure = GRID * int(chance.choice([0, 4, 24, 48])) if air != "dust" else 0
        drying = int(chance.integers(0, 3))
        tasks.append(
            Task(
                key=f"{place}",
                job=drum,
                drum=drum,
                says="work",
                minutes=GRID * int(chance.integers(1, 6)),
                cure_min=cure,
                after=(f"{place - drums}",) if place >= drums else (),
                clamps=int(chance.integers(0, 3)),
                drying=drying,
                air=air,
                not_before=GRID * int(chance.choice([0, 0, 24])),
                unbroken=drying > 0 or bool(chance.random() < 0.3),
            )
        )
    dues = tuple(
        Due(
            job=str(drum), by=GRID * int(chance.integers(20, 120)),
            weight=float(chance.choice([1.0, 1.5, 3.0])),
        )
        for drum in range(drums)
    )  # fmt: skip
    return tuple(tasks), dues


def placed_at(task: Task, begins: int) -> Placed | None:
    """Lay work out from a half hour on; none where the shop is closed then."""
    if not any(opens <= begins < closes for opens, closes in HOURS):
        return None
    left, pieces = task.minutes, []
    for opens, closes in HOURS:
        since, until = max(opens, begins), min(closes, max(opens, begins) + left)
        if since < until:
            pieces.append((since, until))
            left -= until - since
    return Placed(key=task.key, stretches=tuple(pieces), cured=pieces[-1][1] + task.cure_min)


def next_placed(
    plan: Sequence[Placed], task: Task, named: Mapping[str, Task], begins: int
) -> Placed | None:
    """Return work begun at this half hour after the rest, if the checker has nothing to say."""
    one = placed_at(task, begins)
    have = [named[each.key] for each in plan]
    if one is None or not {*task.after} <= {each.key for each in plan}:
        return None
    broken = breaks_of(Plan(placed=(*plan, one), late=0.0), [*have, task], SHOP)
    return None if broken else one


def lateness(plan: Sequence[Placed], tasks: Sequence[Task], dues: Sequence[Due]) -> float:
    """Add up minutes late times weights."""
    job = {task.key: task.job for task in tasks}
    return sum(
        due.weight * max(0, *(one.cured - due.by for one in plan if job[one.key] == due.job), 0)
        for due in dues
    )


def every_plan(
    tasks: Sequence[Task], plan: tuple[Placed, ...] = ()
) -> Iterator[tuple[Placed, ...]]:
    """Yield a plan for each order in which work can begin, each piece as early as it may."""
    named = {task.key: task for task in tasks}
    left = [task for task in tasks if task.key not in {one.key for one in plan}]
    if not left:
        yield plan
    for task in left:
        if {*task.after} & {each.key for each in left}:
            continue
        begins = plan[-1].ends if plan else 0
        while (one := next_placed(plan, task, named, begins)) is None:
            begins += GRID
        yield from every_plan(tasks, (*plan, one))


def best_of_all(tasks: Sequence[Task], dues: Sequence[Due]) -> float:
    """Return the least lateness of all plans."""
    return min(lateness(plan, tasks, dues) for plan in every_plan(tasks))


def minute_by_minute(order: Sequence[str], tasks: Sequence[Task]) -> tuple[Placed, ...]:
    """Work through an order as the person at the bench does."""
    named = {task.key: task for task in tasks}
    plan: tuple[Placed, ...] = ()
    now = 0
    while len(plan) < len(tasks):
        left = [key for key in order if key not in {one.key for one in plan}]
        free = (next_placed(plan, named[key], named, now) for key in left)
        one = next((each for each in free if each is not None), None)
        plan = plan if one is None else (*plan, one)
        now = now + GRID if one is None else one.ends
    return plan
