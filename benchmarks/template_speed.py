"""How long a full-size template takes: a bass drum, 22 in dia x 14 deep, on A4."""

from __future__ import annotations

import platform
import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "papers"))

LIMIT_S = 1.0
TIMES = 7


def main() -> int:
    """Print the table; 1 when the limit is broken."""
    from example_shells import scheme_of, small_tom

    from counterhoop.papers.job_facts import JobFacts
    from counterhoop.papers.template import template_pdf

    scheme = scheme_of(small_tom(around_mm=1757.0, depth_mm=356.0))
    template_pdf(scheme, JobFacts(job="0"), paper="A4")  # warms fonts and libraries up
    took = []
    for turn in range(TIMES):  # another job number each time: Typst remembers what it has set
        start = time.perf_counter()
        template_pdf(scheme, JobFacts(job=str(turn + 1)), paper="A4")
        took.append(time.perf_counter() - start)
    worst = max(took)
    machine = f"{platform.machine()}, Python {platform.python_version()}"
    print("| what | times | median s | worst s | limit s | machine |")
    print("|---|---|---|---|---|---|")
    print(
        f"| template 22 in dia x 14 deep, A4 | {TIMES} | {statistics.median(took):.2f} "
        f"| {worst:.2f} | {LIMIT_S:.2f} | {machine} |"
    )
    return int(worst > LIMIT_S)


if __name__ == "__main__":
    raise SystemExit(main())
