"""How much less late plans are than orders by chance, how near their bound, and what they cost.

Random shops of 8, 12 and 20 drums (``tests/job/schedule/random_shops.py``), fifteen of each. The
factor is the weighted lateness of the best of 300 orders by chance, each worked through, over
that of the plan. Seconds are of the processor. ``--shops`` plans fewer.
"""

from __future__ import annotations

import argparse
import statistics
import sys
import time
from pathlib import Path

from _timing import machine

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "job" / "schedule"))

from random_shops import best_by_chance, random_shop

from counterhoop.job.schedule.breaks import breaks_of
from counterhoop.job.schedule.plan_shop import plan_shop

SIZES = {8: (1.15, 7.0), 12: (1.6, 14.0), 20: (3.0, 24.0)}
"""By drums: the least median factor, and the most seconds in the median."""


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--shops", type=int, default=15)
    shops = asked.parse_args().shops
    print(f"\nThe schedule of a shop, {shops} shops of each size\n{machine()}\n")
    print(
        f"{'drums':>5}{'least factor':>14}{'median':>8}{'must':>6}{'proven':>8}{'median gap':>12}"
        f"{'median s':>10}{'most s':>8}{'limit s':>9}"
    )
    broken = False
    for drums, (must, limit_s) in SIZES.items():
        factors, gaps, seconds, proven = [], [], [], 0
        for seed in range(shops):
            tasks, dues, shop = random_shop(seed, drums=drums)
            began = time.process_time()
            plan = plan_shop(tasks, dues, shop, seed=seed)
            seconds.append(time.process_time() - began)
            chance = best_by_chance(tasks, dues, shop, seed=seed)
            broken |= bool(breaks_of(plan, tasks, shop)) or plan.late > chance
            factors.append(chance / max(plan.late, 1.0))
            gaps.append(plan.gap)
            proven += plan.proven
        factor, cost = statistics.median(factors), statistics.median(seconds)
        broken |= factor < must or cost > limit_s
        print(
            f"{drums:>5}{min(factors):>14.2f}{factor:>8.2f}{must:>6.2f}{proven:>8}"
            f"{100 * statistics.median(gaps):>10.0f} %{cost:>10.1f}{max(seconds):>8.1f}"
            f"{limit_s:>9.1f}",
            flush=True,
        )
    print("\nA plan was later than by chance, cannot be worked, or a limit is broken" * broken)
    sys.exit(1 if broken else 0)


if __name__ == "__main__":
    main()
