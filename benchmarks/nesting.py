"""How good layouts of wrap are on 200 random kits of 8 to 12 pieces, and how fast.

Kits of drums of 10 to 22 in with strips and bass drums among them, on sheets of 1400 x 610 mm or
1400 x 1220 mm, every third kit with an offcut from stock, a third of the pieces free to turn.
Gaps are to what is proven impossible to beat: sheets against the area and strip bounds, the
largest offcut against the solver's ceiling.
"""

from __future__ import annotations

import random
import statistics
import time

from _timing import Table, timed

from counterhoop.wrap.first_layout import first_layout, rank
from counterhoop.wrap.least_sheets import least_sheets
from counterhoop.wrap.nest import nest
from counterhoop.wrap.nesting import Piece, Runs, Sheet
from counterhoop.wrap.tenths import in_tenths

KITS = 200
GIRTHS_MM = (820.0, 980.0, 1140.0, 1140.0, 1300.0)
WIDTHS_MM = (52.0, 98.0, 115.0, 150.0, 180.0, 210.0, 340.0, 360.0)


def kit(seed: int, *, count: int) -> list[Piece]:
    chance = random.Random(seed)
    return [
        Piece(
            name=f"piece {n}",
            length_mm=chance.choice(GIRTHS_MM) + chance.randint(-20, 20),
            width_mm=chance.choice(WIDTHS_MM) + chance.randint(-8, 8) / 2,
            runs=chance.choice((Runs.ALONG, Runs.ALONG, Runs.EITHER)),
        )
        for n in range(count)
    ]


def main() -> None:
    table = Table("Layouts of wrap on sheets")
    eight = [kit(seed, count=8) for seed in range(40)]
    narrow = Sheet(name="new", length_mm=1400.0, width_mm=610.0)
    wide = Sheet(name="new", length_mm=1400.0, width_mm=1220.0)
    nest(eight[0], sheet=narrow)  # so that loading the solver is not timed
    seconds, proven = [], 0
    for pieces in eight:
        began = time.perf_counter()
        proven += nest(pieces, sheet=narrow, kerf_mm=1.0).proven
        seconds.append(time.perf_counter() - began)
    table.row("8 pieces, 1400 x 610", seconds, limit_s=1.0)
    table.figure("8 pieces not proven, of 40", len(eight) - proven, "", limit=0)

    sheets_over, start_over, left_gap, start_gap, seconds, open_kits = [], [], [], [], [], 0
    for seed in range(KITS):
        pieces = kit(1000 + seed, count=8 + seed % 5)
        sheet = (narrow, wide)[seed % 2]
        stock = [Sheet(name="stock", length_mm=1200.0, width_mm=300.0)] if seed % 3 == 0 else []
        plan = None

        def lay(
            pieces: list[Piece] = pieces, sheet: Sheet = sheet, stock: list[Sheet] = stock
        ) -> None:
            nonlocal plan
            plan = nest(pieces, sheet=sheet, offcuts=stock, kerf_mm=1.0, effort=5.0)

        seconds += timed(lay, times=1)
        assert plan is not None
        puzzle = in_tenths(pieces, sheet=sheet, offcuts=stock, kerf_mm=1.0, most_sheets=len(pieces))
        start = first_layout(puzzle)
        assert start is not None
        new, _, left = rank(puzzle, start)
        bound = least_sheets(puzzle)
        sheets_over.append(plan.new_sheets - bound)
        start_over.append(new - plan.new_sheets)
        open_kits += not plan.proven
        if plan.most_left_mm2 > 0:
            left_gap.append(100 * (1 - plan.largest_left_mm2 / plan.most_left_mm2))
            if new == plan.new_sheets and plan.largest_left_mm2 > 0:
                start_gap.append(100 * max(0.0, 1 + left / 100 / plan.largest_left_mm2))
    table.row(f"{KITS} kits of 8 to 12 pieces", seconds, limit_s=2.0)
    table.figure("kits not proven", open_kits, "", limit=KITS * 0.05)
    table.figure("median sheets over the area and strip bound", statistics.median(sheets_over), "",
                 limit=0)  # fmt: skip
    table.figure("kits with a sheet over that bound", sum(s > 0 for s in sheets_over), "",
                 limit=KITS)  # fmt: skip
    table.figure("median gap of the largest offcut to its ceiling", statistics.median(left_gap),
                 "%", limit=0)  # fmt: skip
    table.figure("worst gap of the largest offcut to its ceiling", max(left_gap), "%", limit=100)
    table.figure("kits whose first layout takes a sheet more", sum(s > 0 for s in start_over),
                 "", limit=KITS)  # fmt: skip
    table.figure("median offcut lost by the first layout alone", statistics.median(start_gap), "%",
                 limit=100)  # fmt: skip
    table.close()


if __name__ == "__main__":
    main()
