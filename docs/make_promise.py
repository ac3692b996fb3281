"""Write the figures of the page on what a promise means: none is typed.

``.venv/bin/python docs/make_promise.py`` fills each part of the page; a test holds that they are
today's.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
from made_parts import filled, table

from counterhoop.job.hours.belief import Belief, believed
from counterhoop.job.hours.hours_said import hours_of
from counterhoop.job.hours.shared import SHARED_SPREAD
from counterhoop.job.hours.worked import Worked
from counterhoop.job.open_hours.minutes import enough_stretches
from counterhoop.job.open_hours.week import read_week
from counterhoop.job.promise.finish_at import end_of_day
from counterhoop.job.promise.promise import promise
from counterhoop.job.promise.workings import workings
from counterhoop.job.schedule.plan_shop import plan_shop
from counterhoop.job.schedule.task import Shop, Task
from counterhoop.quantities.day import say_weekday
from counterhoop.shell.operations import TAIL, operations

PAGE = Path(__file__).parent / "explanation" / "what-a-promise-means.md"
SNARE = (
    ("strip a drum", 1), ("soak and clean a lug", 16), ("clean a hoop", 2), ("plug a hole", 2),
    ("refit a lug", 16), ("fit strainer and butt", 1), ("put on hoop and head", 2),
    ("tune a drum", 1), ("pack a drum", 1),
)  # fmt: skip
"""The work of the small job of the demonstration, from strip-down to packing."""
DRUMS = ("bass drum", "floor tom", "large tom", "small tom", "snare drum")
TAUGHT = "drill a hole"
OWN_MIN = 9.0
LEARNED = (0, 1, 3, 6, 12, 30)
DRAWS = 200_000
COUNT = 10_000
START = dt.date(2030, 5, 13)
"""A Monday."""
WEEK = dict.fromkeys(("monday", "tuesday", "wednesday", "thursday", "friday"), "9-12:30, 13:30-18")


def main() -> None:
    """Fill in the page."""
    PAGE.write_text(filled(PAGE.read_text("utf-8"), computed()), "utf-8")
    print(PAGE.name)


def computed() -> dict[str, str]:
    """Return all parts."""
    return {"log": log(), "sums": sums(), "days": days()}


def beliefs() -> dict[str, Belief]:
    """What the book alone believes."""
    return {one.name: believed(one, ()) for one in operations()}


def log() -> str:
    """How one operation moves from the book's figure to this person's."""
    book = next(one for one in operations() if one.name == TAUGHT)
    rows = []
    for times in LEARNED:
        own = [
            Worked(operation=TAUGHT, count=1, minutes=OWN_MIN, when=START + dt.timedelta(days=day))
            for day in range(times)
        ]
        now = believed(book, own)
        rows.append((times, f"{now.median_min:.1f} min",
                     f"{now.quick_min:.1f} to {now.slow_min:.1f} min", now.whose))  # fmt: skip
    return table(("workings", "usual", "eight of ten", "whose figure"), rows)


def sums() -> str:
    """The hours of one job, with what its work shares and without."""
    every = beliefs()
    said = hours_of(SNARE, every)
    times = [(one.usual_min, every[one.operation].spread) for one in said.lines]
    luck = np.random.Generator(np.random.PCG64(1))
    median = np.array([minutes for minutes, _ in times])
    spread = np.array([one for _, one in times])
    alone = (median * np.exp(spread * luck.standard_normal((DRAWS, len(times))))).sum(axis=1)
    together = alone * np.exp(SHARED_SPREAD * luck.standard_normal(DRAWS))
    end_to_end = sum(median * np.exp(-TAIL * spread)), sum(median * np.exp(TAIL * spread))
    rows = []
    for what, low, high in (
        ("each by itself, independent", *np.quantile(alone, (0.1, 0.9))),
        ("with what a job's work shares", said.quick_min, said.slow_min),
        ("all quick, all slow, added up", *end_to_end),
    ):
        inside = float(np.mean((low <= together) & (together <= high)))
        rows.append((what, f"{low / 60:.1f} to {high / 60:.1f} h", f"{100 * inside:.0f} %"))
    return table(("the nine lines of work", "interval", "jobs that fall into it"), rows)


def days() -> str:
    """The day that one would promise, and how often it holds."""
    rows = []
    for name, drums in (("one snare drum", DRUMS[-1:]), ("a kit of five", DRUMS)):
        tasks = _work(drums)
        shop = _shop(tasks)
        plan = plan_shop(tasks, (), shop, seed=1, limit=1.0)
        true, blind = (
            workings(
                plan.order, tasks, shop, rng=np.random.Generator(np.random.PCG64(2)), count=COUNT,
                shared_spread=spread, held=plan.held,
            ).of("job")
            for spread in (SHARED_SPREAD, 0.0)
        )  # fmt: skip
        ends = dt.datetime.combine(START, dt.time()) + dt.timedelta(
            minutes=max(one.cured for one in plan.placed)
        )
        for what, day in (
            ("as usual, to the minute", ends.date()),
            ("unsure, each for itself", promise(blind, shop=shop, start=START).day),
            ("unsure, with what they share", promise(true, shop=shop, start=START).day),
        ):
            by = end_of_day(day, shop=shop, start=START)
            rows.append((name, what, say_weekday(day), f"{100 * np.mean(true <= by):.0f} %"))
    return table(("job", "hours taken", "day", "it holds in"), rows)


def _work(drums: tuple[str, ...]) -> tuple[Task, ...]:
    """Return the lines of work of each drum, one after the other, as one job's."""
    every = beliefs()
    tasks: list[Task] = []
    for drum in drums:
        before: tuple[str, ...] = ()
        for operation, count in SNARE:
            key = f"{drum}: {operation}"
            belief = every[operation]
            tasks.append(
                Task(
                    key=key, job="job", drum=drum, says=operation,
                    minutes=round(count * belief.median_min), spread=belief.spread, after=before,
                )
            )  # fmt: skip
            before = (key,)
    return tuple(tasks)


def _shop(tasks: tuple[Task, ...]) -> Shop:
    hands_min = 3 * sum(task.minutes for task in tasks) + 24 * 60
    opens = enough_stretches(read_week(WEEK), START, hands_min=hands_min)
    return Shop(open=opens, clamps=12, drying=4)


if __name__ == "__main__":
    main()
