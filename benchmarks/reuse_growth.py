"""How the search for the best use of old holes grows from 16 to 512 of them.

Eight lugs of two holes. *Rows*: every 16 old holes are one more row of eight lugs, drilled with a
scatter of 0.8 mm and crowded into one spacing (real shells have one to four). *Anywhere*: old
holes all over the shell. Each is searched in a narrow window (a row about its proper place) and
in a wide one (any turn, 60 mm of height). Prints milliseconds and the exponents of growth (slope
of a straight line through the logarithms: of all sizes, and of the last three), and draws them in
``.benchmarks/reuse_growth.png`` or where ``--plot`` says.
"""

from __future__ import annotations

import argparse
import math
import statistics
from collections.abc import Callable
from pathlib import Path

import numpy as np
from _timing import Table, timed

from counterhoop.scheme.reuse import (
    Limits,
    OldHole,
    Reuse,
    WantedHole,
    WantedRow,
    Window,
    best_reuse,
)

GIRTH_MM = math.pi * 355.0
SIZES = (16, 32, 64, 128, 256, 512)
LIMIT_MS = 40.0
PLOT = Path(__file__).parents[1] / ".benchmarks" / "reuse_growth.png"
Shell = Callable[[int, np.random.Generator], list[OldHole]]
ROW = WantedRow(
    holes=tuple(
        WantedHole(right_mm=0.0, down_mm=d, hole_mm=6.0, screw_mm=5.0) for d in (-21.0, 21.0)
    ),
    count=8,
    girth_mm=GIRTH_MM,
    base=((-12.0, -35.0), (12.0, -35.0), (12.0, 35.0), (-12.0, 35.0)),
)
LIMITS = Limits(keep_mm=0.8, enlarge_mm=2.0, slot_mm=4.0)
WINDOWS = {
    "narrow": Window(turn_min_mm=-5, turn_max_mm=5, down_min_mm=155, down_max_mm=165),
    "wide": Window(turn_min_mm=0, turn_max_mm=GIRTH_MM / 8, down_min_mm=130, down_max_mm=190),
}


def rows(count: int, rng: np.random.Generator) -> list[OldHole]:
    """Rows of eight lugs, each a little off the one before it."""
    holes = []
    for number in range(count):
        row, lug, upper = number // 16, number // 2 % 8, number % 2
        along = lug * GIRTH_MM / 8 + 17.43 * row + rng.normal(0, 0.8)
        down = 160 + (21 if upper else -21) + (3.3 * row) % 25 + rng.normal(0, 0.8)
        holes.append(OldHole(number=number + 1, along_mm=along, down_mm=down, diameter_mm=6.0))
    return holes


def anywhere(count: int, rng: np.random.Generator) -> list[OldHole]:
    """Old holes all over the shell."""
    return [
        OldHole(
            number=number + 1,
            along_mm=float(rng.uniform(0, GIRTH_MM)),
            down_mm=float(rng.uniform(100, 240)),
            diameter_mm=float(rng.choice([5.5, 6.0, 7.0])),
        )
        for number in range(count)
    ]


def seconds(shell: Shell, count: int, window: Window, *, times: int) -> list[float]:
    """Time warm searches on three shells of a kind."""
    taken = []
    for seed in range(3):
        old = shell(count, np.random.default_rng(seed))

        def search(old: list[OldHole] = old) -> None:
            found = best_reuse(ROW, old, window=window, ideal=(0.0, 160.0), limits=LIMITS)
            assert isinstance(found, Reuse)
            assert found.proven

        search()
        taken += timed(search, times=times)
    return taken


def exponents(milliseconds: list[float]) -> str:
    """Slope of the straight line through the logarithms: of all sizes, and of the last three."""
    slopes = [
        np.polyfit(np.log(SIZES[first:]), np.log(milliseconds[first:]), 1)[0] for first in (0, -3)
    ]
    return f"n^{slopes[0]:.2f}, from {SIZES[-3]} on n^{slopes[1]:.2f}"


def plot(table: dict[str, list[float]], file: Path) -> None:
    """Draw both scales logarithmic."""
    import matplotlib as mpl

    mpl.use("Agg")
    import matplotlib.pyplot as plt

    figure, axes = plt.subplots(figsize=(6.4, 5.2), layout="constrained")
    marks = iter("os^D")
    for name, line in table.items():
        axes.plot(SIZES, line, marker=next(marks), label=f"{name}: {exponents(line)}")
    axes.set_xscale("log", base=2)
    axes.set_yscale("log")
    axes.axhline(LIMIT_MS, color="0.6", linestyle="--", linewidth=1)
    axes.annotate(
        f"limit at 32 old holes: {LIMIT_MS:.0f} ms",
        (SIZES[0], LIMIT_MS),
        xytext=(0, 4),
        textcoords="offset points",
        color="0.35",
        fontsize=9,
    )
    axes.set_xticks(SIZES, [str(n) for n in SIZES])
    axes.set_yticks([1, 2, 5, 10, 20, 50, 100], ["1", "2", "5", "10", "20", "50", "100"])
    axes.set_xlabel("old holes on the shell")
    axes.set_ylabel("one search, ms")
    axes.set_title("Best use of old holes, eight lugs of two holes", fontsize=11)
    axes.grid(alpha=0.3)
    figure.legend(loc="outside lower center", fontsize=9, frameon=False)
    file.parent.mkdir(parents=True, exist_ok=True)
    figure.savefig(file, dpi=150)
    print(f"drawn in {file.name}")


def main() -> None:
    """Measure, print, draw."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--plot", type=Path, default=PLOT)
    parser.add_argument("--times", type=int, default=5)
    given = parser.parse_args()
    table = Table("Best use of old holes: eight lugs of two holes, three ways of use, one search")
    lines: dict[str, list[float]] = {}
    for kind, shell in (("rows", rows), ("anywhere", anywhere)):
        for name, window in WINDOWS.items():
            line = lines[f"{kind}, {name} window"] = []
            for count in SIZES:
                taken = seconds(shell, count, window, times=given.times)
                line.append(1e3 * statistics.median(taken))
                if count == 32:
                    table.row(f"32 old holes, {kind}, {name} window", taken, limit_s=LIMIT_MS / 1e3)
    print(f"\n{'ms by old holes':<26}" + "".join(f"{n:>8}" for n in SIZES) + "   growth")
    for name, line in lines.items():
        print(f"{name:<26}" + "".join(f"{ms:8.1f}" for ms in line) + f"   {exponents(line)}")
    plot(lines, given.plot)
    table.close()


if __name__ == "__main__":
    main()
