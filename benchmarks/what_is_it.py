"""Whether "What is this?" keeps what it says, how soon it knows, and how fast it answers.

Boxes of parts with known truth, one as the odds suppose and three that are not (heavy tails read
to whole steps, another law of wear, other makes): what was said of the leader against how often
that was right, in bins; beside it, the same from someone who halves every doubt and forgets wear.
Then how many measurements it takes to be almost sure, asked for by the tool or taken in any
order. Draws what was said against what was right in ``.benchmarks/what_is_it.png`` or where
``--plot`` says.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

import numpy as np
from _timing import Table, timed

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "parts"))

from mixed_box import WORLDS, Bin, answers, mean_off, reliability

from counterhoop.fittings.read_book import packaged_book
from counterhoop.parts.dimension import Dimension, Measured, usual_doubt
from counterhoop.parts.piece import Piece
from counterhoop.parts.unknown.candidate import Candidate, Candidates, candidates_of
from counterhoop.parts.unknown.next_measurement import measurements, next_measurement
from counterhoop.parts.unknown.odds import Seen, odds
from counterhoop.survey.thread_odds import ALMOST_SURE

PLOT = Path(__file__).parents[1] / ".benchmarks" / "what_is_it.png"
PIECES = 50_000
MOST = 6


def shelf(count: int) -> list[Piece]:
    """Pieces of no known fitting, each with three or four measurements, from a fixed draw."""
    chance = np.random.default_rng(3)
    known = candidates_of(packaged_book()).each
    pieces = []
    for number in range(count):
        like = known[number % len(known)]
        scale = float(np.exp(chance.normal(0.0, 0.15)))
        measured = tuple(
            Measured(
                dimension=what,
                value=size if what.unit == "count" else size * scale,
                doubt=usual_doubt(what),
            )
            for what, size in list(like.dims.items())[:4]
        )
        pieces.append(
            Piece(id=str(number), number=f"P-{number}", kind=like.kind, measured=measured)
        )
    return pieces


def exact(what: Dimension, size: float, chance: np.random.Generator) -> Measured:
    """Read a new part's size with the usual instrument."""
    doubt = usual_doubt(what)
    value = size + (what.about.cast_by(size) * chance.normal() + doubt * chance.uniform(-1, 1))
    return Measured(
        dimension=what, value=size if what.unit == "count" else max(value, 0.01), doubt=doubt
    )


def how_many(candidates: Candidates, truth: Candidate, *, seed: int, asked: bool) -> int:
    """Return how many measurements it took to be almost sure of it; one more than most if never."""
    chance = np.random.default_rng(seed)
    order = list(chance.permutation(np.array(list(truth.dims), dtype=object)))
    read: list[Measured] = []
    while len(read) < min(MOST, len(truth.dims)):
        found = odds(read, candidates, seen=Seen(kind=truth.kind))
        if found.ranked[0].odds >= ALMOST_SURE:
            return len(read)
        offered = measurements(found, candidates) if asked else ()
        told = [one.dimension for one in offered if one.dimension in truth.dims]
        if asked and not told:
            break
        what = told[0] if asked else order.pop()
        read.append(exact(what, truth.dims[what], chance))
    found = odds(read, candidates, seen=Seen(kind=truth.kind))
    return len(read) if found.ranked[0].odds >= ALMOST_SURE else MOST + 1


def steps(candidates: Candidates) -> None:
    """Print how soon it is almost sure, of every part of the book that has no twin in it."""
    print("\nMeasurements until almost sure, the kind seen; every part of the book\n")
    for name, asked in (("as asked for", True), ("in any order", False)):
        counts = [
            how_many(candidates, truth, seed=seed, asked=asked)
            for seed, truth in enumerate(candidates)
        ]
        done = [count for count in counts if count <= MOST]
        print(
            f"{name:<20}{np.mean(done):5.2f} on the mean, {len(done)} of {len(counts)} parts; "
            f"{max(done)} at most"
        )


def kept(candidates: Candidates, *, count: int) -> dict[tuple[str, bool], list[Bin]]:
    """Print what was said and what was right, world by world."""
    print(f"\nSaid and right, {count} parts to a box, one to four measurements each")
    found = {}
    for world in WORLDS:
        for sure in (False, True):
            bins = reliability(answers(candidates, count=count, seed=5, world=world, sure=sure))
            found[world, sure] = bins
            who = "doubts halved, wear forgotten" if sure else "as it says"
            print(f"\n{world}, {who}: off by {mean_off(bins):.3f} on the mean")
            for one in bins:
                print(
                    f"  {one.least:4.2f} to {one.most:4.2f}{one.count:7}"
                    f"   said {one.said:.3f}   right {one.right:.3f}"
                )
    return found


def plot(found: dict[tuple[str, bool], list[Bin]], file: Path) -> None:
    """Draw right against said; on the line it keeps its word."""
    import matplotlib as mpl

    mpl.use("Agg")
    import matplotlib.pyplot as plt

    figure, sides = plt.subplots(1, 2, figsize=(9.6, 5.4), layout="constrained", sharey=True)
    for axes, sure in zip(sides, (False, True), strict=True):
        axes.plot((0, 1), (0, 1), color="0.6", linestyle="--", linewidth=1)
        for mark, world in zip("os^D", WORLDS, strict=True):
            bins = found[world, sure]
            axes.plot([b.said for b in bins], [b.right for b in bins], marker=mark, label=world)
        axes.set_title("as the odds are" if not sure else "doubts halved, wear forgotten")
        axes.set_xlabel("said")
        axes.set_xlim(0, 1.02)
        axes.set_ylim(0, 1.02)
        axes.grid(alpha=0.3)
    sides[0].set_ylabel("right")
    handles, labels = sides[0].get_legend_handles_labels()
    figure.legend(handles, labels, loc="outside lower center", ncols=4, frameon=False)
    figure.suptitle("What is this? Below the line it is surer than right", fontsize=12)
    file.parent.mkdir(parents=True, exist_ok=True)
    figure.savefig(file, dpi=150)
    print(f"\ndrawn in {file.name}")


def speeds(candidates: Candidates) -> Table:
    """Time the answers, of the book alone and with a full shelf."""
    read = [
        Measured(dimension=Dimension.HOLES_APART, value=42.1, doubt=0.1),
        Measured(dimension=Dimension.BASE_WIDE, value=24.2, doubt=0.1),
    ]
    pieces = shelf(PIECES)
    table = Table("What is this?")
    table.row(
        f"candidates of the book and {PIECES} pieces",
        timed(lambda: candidates_of(packaged_book(), pieces), times=3),
        limit_s=5.0,
    )
    full = candidates_of(packaged_book(), pieces)
    for name, held in (("the book", candidates), (f"the book and {PIECES} pieces", full)):
        found = odds(read, held, seen=Seen(kind="lug"))
        limit_s = 0.05 if held is candidates else 0.5
        table.row(
            f"odds among {name}",
            timed(lambda held=held: odds(read, held, seen=Seen(kind="lug")), times=9),
            limit_s=limit_s,
        )
        table.row(
            f"the next measurement, {name}",
            timed(lambda held=held, found=found: next_measurement(found, held), times=5),
            limit_s=2.0 * limit_s + 0.4,
        )
    return table


def main() -> None:
    """Measure, print, draw."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--plot", type=Path, default=PLOT)
    parser.add_argument("--count", type=int, default=3000, help="parts to a box")
    given = parser.parse_args()
    candidates = candidates_of(packaged_book())
    table = speeds(candidates)
    steps(candidates)
    found = kept(candidates, count=given.count)
    worst = max(mean_off(bins) for (_, sure), bins in found.items() if not sure)
    table.figure("worst box, said and right apart on the mean", 1000.0 * worst, "‰", limit=30.0)
    plot(found, given.plot)
    table.close()


if __name__ == "__main__":
    main()
