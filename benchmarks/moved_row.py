"""Speed of a row that is dragged: one place of it, re-planned with verdicts, findings and price."""

from __future__ import annotations

import random
import statistics
import sys
import time

from _timing import machine

from counterhoop.bench.demo import open_demo
from counterhoop.bench.move_row import HeldRow, row_held, rows_of
from counterhoop.bench.plan_job import plan_job

PLACES = 200
ASIDE_MM, FALL_MM = 15.0, 15.0
LIMIT_MS = 50.0


def main() -> None:
    """Print the table; the slowest places of each row are held against the limit."""
    plan = plan_job(open_demo())
    print(f"\nA row moved by hand, {PLACES} places each\n{machine()}\n")
    print(f"{'':<40}{'by the clock, ms':>24}{'processor, ms':>24}")
    print(f"{'drum and row':<40}{'median':>12}{'99 of 100':>12}{'median':>12}{'99 of 100':>12}")
    broken = False
    for drum in plan.drums:
        base = next((s for s in drum.ranked.shown if rows_of(s)), None)
        for row in rows_of(base) if base else ():
            held = row_held(plan, drum=drum.key, scheme_code=base.code, row=row.name)
            clock, processor = dragged(held)
            slow = worst_of_a_hundred(processor) > LIMIT_MS
            broken |= slow
            figures = "".join(
                f"{figure:>12.1f}"
                for times in (clock, processor)
                for figure in (statistics.median(times), worst_of_a_hundred(times))
            )
            print(f"{f'{drum.key}, {row.says}':<40}{figures}{'  BROKEN' if slow else ''}")
    print(f"\nlimit: {LIMIT_MS:.0f} ms of the processor in 99 of 100")
    sys.exit(1 if broken else 0)


def dragged(held: HeldRow) -> tuple[list[float], list[float]]:
    """Return milliseconds of each place, by the clock and of this process."""
    dice = random.Random(1)
    least_mm, most_mm = held.row.down_mm_range
    clock, processor = [], []
    for _ in range(PLACES):
        right_mm = dice.uniform(-ASIDE_MM, ASIDE_MM)
        down_mm = dice.uniform(max(-FALL_MM, least_mm), min(FALL_MM, most_mm))
        began, busy = time.perf_counter(), time.process_time()
        held.at(right_mm=right_mm, down_mm=down_mm)
        clock.append((time.perf_counter() - began) * 1e3)
        processor.append((time.process_time() - busy) * 1e3)
    return clock, processor


def worst_of_a_hundred(times: list[float]) -> float:
    """Return the time that one call in a hundred takes or passes."""
    return sorted(times)[int(0.99 * len(times))]


if __name__ == "__main__":
    main()
