"""Whether "When was it made?" keeps what it says of years, later parts and serial numbers.

Simulated drums with known truth, one kind made as the odds suppose and seven that are not: other
laws for the ends, for the lives of drums, for what was made when. What was stated of each span
against how often it held the year; beside it, the plainer formula (each feature by itself, a fixed
chance of having been replaced). Then parts that are said to be later, and numbers. Draws stated
against held in ``.benchmarks/when_made.png`` or where ``--plot`` says.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from _timing import Table, timed

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "evidence"))

from counted import (
    FULL_COUNT,
    WITHIN,
    WITHIN_WHERE_A_STATED_FACT_IS_WRONG,
    Level,
    by_the_tool,
    first_formula,
    levels,
    ranking,
)
from simulated_drums import LAWS, Drum, simulated
from simulated_series import PACES, series_level

from counterhoop.evidence.dated import date_drum
from counterhoop.evidence.ground import Ground, ground_of
from counterhoop.evidence.read_reference import packaged_reference
from counterhoop.evidence.seen import Seen

PLOT = Path(__file__).parents[1] / ".benchmarks" / "when_made.png"
DATINGS = {"as it is": by_the_tool, "plainer formula": first_formula}
SEED = 7
SERIES_WITHIN = 0.02
Found = dict[tuple[str, str], list[Level]]


def spans(made: dict[str, list[Drum]], ground: Ground) -> tuple[Found, bool]:
    """Print what spans stated and held, law by law."""
    count = len(next(iter(made.values())))
    print(f"\nSpans that hold the year, {count} drums of each kind; share held less share stated\n")
    print(f"{'drums':<24}{'dating':<18}{'50 %':>9}{'80 %':>9}{'95 %':>9}   median years of 80 %")
    found: Found = {}
    broken = False
    for law, drums in made.items():
        within = WITHIN_WHERE_A_STATED_FACT_IS_WRONG if law == "more made later" else WITHIN
        for name, dating in DATINGS.items():
            rows = found[law, name] = levels(drums, ground, dating=dating, within=within)
            off = "".join(f"{100 * row.off:+8.2f} " for row in rows)
            bad = name == "as it is" and not all(row.good for row in rows)
            broken |= bad
            print(
                f"{law:<24}{name:<18}{off}{rows[1].median_years:8.0f}{'  BROKEN' if bad else ''}",
                flush=True,
            )
    return found, broken


def later_parts(made: dict[str, list[Drum]], ground: Ground) -> None:
    """Print what was said of parts and what was so."""
    print("\nParts said to be later than their drum (more than three years)\n")
    for law, drums in made.items():
        found = ranking(drums, ground)
        print(
            f"{law}: where a later part shows, one is ranked first on {found.first_is_later:.1%} "
            f"of {found.drums} drums; it stands above a part of the drum's time {found.above:.1%}"
        )
        for stated, so, count in found.bins:
            print(f"    said {stated:.3f}   so {so:.3f}   {count:6} parts")


def numbers(count: int) -> bool:
    """Print what spans of serial numbers stated and held."""
    print(f"\nSerial numbers, {count} series of fifteen dated drums; four times out of five\n")
    broken = False
    for pace in PACES:
        level = series_level(pace=pace, count=count, seed=11)
        bad = count >= 4_000 and abs(level.off) > SERIES_WITHIN
        broken |= bad
        print(
            f"{pace:<24}stated {level.stated:.3f}   held {level.held:.3f}"
            f"{'  BROKEN' if bad else ''}"
        )
    return broken


def plot(found: Found, file: Path) -> None:
    """Draw held against stated; on the line it keeps its word."""
    import matplotlib as mpl

    mpl.use("Agg")
    import matplotlib.pyplot as plt

    figure, sides = plt.subplots(1, 2, figsize=(9.6, 5.6), layout="constrained", sharey=True)
    for axes, name in zip(sides, DATINGS, strict=True):
        axes.axhline(0.0, color="0.6", linestyle="--", linewidth=1)
        axes.axhspan(-1.0, 1.0, color="0.92")
        for mark, law in zip("os^Dv<>P", LAWS, strict=True):
            rows = found[law, name]
            axes.plot(
                [row.stated for row in rows], [100 * row.off for row in rows],
                marker=mark, label=law,
            )  # fmt: skip
        axes.set_title(name)
        axes.set_xlabel("stated share")
        axes.set_xlim(0.5, 1.0)
        axes.grid(alpha=0.3)
    sides[0].set_ylabel("held less stated, in hundredths")
    handles, labels = sides[0].get_legend_handles_labels()
    figure.legend(handles, labels, loc="outside lower center", ncols=4, frameon=False)
    figure.suptitle("When was it made? Below the line it is surer than right", fontsize=12)
    file.parent.mkdir(parents=True, exist_ok=True)
    figure.savefig(file, dpi=150)
    print(f"\ndrawn in {file.name}")


def main() -> None:
    """Print the tables and draw."""
    asked = argparse.ArgumentParser(description="Whether dating keeps what it says.")
    asked.add_argument("--count", type=int, default=FULL_COUNT)
    asked.add_argument("--plot", type=Path, default=PLOT)
    told = asked.parse_args()
    ground = ground_of(packaged_reference(), family="Corvane", looked_at=2026)
    made = {
        law: simulated(ground, laws=laws, count=told.count, seed=SEED) for law, laws in LAWS.items()
    }
    found, broken = spans(made, ground)
    later_parts({law: made[law] for law in ("as stated", "all of it otherwise")}, ground)
    broken |= numbers(max(20, told.count * 2 // 5))
    plot(found, told.plot)
    table = Table("Dating one drum")
    looks = [
        Seen(feature="badge", value="round, nailed"),
        Seen(feature="strainer", value="drop lever"),
        Seen(feature="shell make-up", value="three plies with rings"),
    ]
    table.row(
        "three features and a number, the reference laid out anew",
        timed(
            lambda: date_drum(
                looks, packaged_reference(), family="Corvane", looked_at=2026, serial="9 800"
            ),
            times=5,
        ),
        limit_s=1.5,
    )
    table.broken |= broken
    table.close()


if __name__ == "__main__":
    main()
