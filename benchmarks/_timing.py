"""Time something, and say on which machine."""

from __future__ import annotations

import os
import platform
import resource
import statistics
import sys
import time
from collections.abc import Callable


def machine() -> str:
    """Say the machine in one line."""
    name = platform.processor() or platform.machine()
    try:
        with open("/proc/cpuinfo", encoding="utf-8") as info:
            name = next(line.split(":")[1].strip() for line in info if "model name" in line)
    except (OSError, StopIteration):
        pass
    return (
        f"{name}, {os.cpu_count()} cores, {platform.system()}, Python {platform.python_version()}"
    )


def timed(work: Callable[[], object], *, times: int) -> list[float]:
    """Return wall-clock seconds of each call."""
    seconds = []
    for _ in range(times):
        began = time.perf_counter()
        work()
        seconds.append(time.perf_counter() - began)
    return seconds


def peak_mb() -> float:
    """Return the most memory this process and its children have held."""
    own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    children = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    return max(own, children) / 1024.0


class Table:
    """Prints rows against their limits and remembers whether one was broken."""

    def __init__(self, title: str) -> None:
        self.broken = False
        print(f"\n{title}\n{machine()}\n")
        print(f"{'what':<58}{'times':>6}{'median':>10}{'worst':>10}{'limit':>10}")

    def row(self, what: str, seconds: list[float], *, limit_s: float) -> None:
        """Print one measurement; the median is held against the limit."""
        median = statistics.median(seconds)
        held = median <= limit_s
        self.broken |= not held
        print(
            f"{what:<58}{len(seconds):>6}{median * 1e3:>7.0f} ms{max(seconds) * 1e3:>7.0f} ms"
            f"{limit_s * 1e3:>7.0f} ms{'' if held else '  BROKEN'}"
        )

    def figure(self, what: str, value: float, unit: str, *, limit: float) -> None:
        """Print one figure that is not a time."""
        held = value <= limit
        self.broken |= not held
        says = "" if held else "  BROKEN"
        print(f"{what:<58}{'':>6}{value:>7.0f} {unit}{'':>10}{limit:>7.0f} {unit}{says}")

    def close(self) -> None:
        """Leave with 1 when a limit was broken."""
        sys.exit(1 if self.broken else 0)
