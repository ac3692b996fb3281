"""Speed of sheets: a shelf of a hundred thousand pieces written, opened, tried, as CSV and XLSX.

The last file has no two readings alike, so that nothing is remembered from row to row.
"""

from __future__ import annotations

import datetime as dt
import random
import time
from collections.abc import Callable, Iterator

from _timing import Table, peak_mb

from counterhoop.parts.dimension import Dimension
from counterhoop.parts.piece import Piece
from counterhoop.parts.rows.dry_run import DryRun, dry_run
from counterhoop.parts.rows.layout import Hint, Values
from counterhoop.parts.rows.mapping import map_columns
from counterhoop.parts.rows.measured_cell import read_readings
from counterhoop.parts.rows.open_sheet import open_sheet
from counterhoop.parts.rows.shelf_check import shelf_check
from counterhoop.parts.rows.shelf_layout import shelf_layout, values_of
from counterhoop.parts.rows.write_sheet import csv_bytes, sheet_rows
from counterhoop.parts.rows.xlsx_bytes import xlsx_bytes

FIELDS = (
    *("number", "kind", "says", "count", "bin", "material", "plating", "condition", "lot"),
    *("share of lot", "price", "came on", "matched set", "holes apart", "hole", "base wide"),
    *("base high", "length", "pitch", "hole count"),
)
PIECES = 100_000
LIMIT_S = 60.0


def size(chance: random.Random, number: int, *, alike: bool) -> str:
    """Return a length as a caliper gives it, or as no other row has it."""
    return f"{chance.randint(100, 9_000) / 10} mm" if alike else f"{10 + number / 10_000:.4f} mm"


def long_shelf(pieces: int, *, alike: bool = True) -> Iterator[Values]:
    """Yield pieces from a fixed seed."""
    chance = random.Random(60)
    for number in range(1, pieces + 1):
        sizes = (
            *((one, size(chance, number, alike=alike)) for one in (
                Dimension.HOLES_APART, Dimension.HOLE, Dimension.BASE_WIDE, Dimension.BASE_HIGH
            )),
            (Dimension.LENGTH, f"{chance.randint(1, 15)} {chance.randrange(1, 64, 2)}/64 in"),
            (Dimension.PITCH, chance.choice(("24 tpi", "1 mm", "32 tpi"))),
            (Dimension.HOLE_COUNT, "2"),
        )  # fmt: skip
        yield values_of(
            Piece(
                id=f"{number}",
                number=f"A-{number}",
                kind=chance.choice(("lug", "rod", "bracket", "claw")),
                says=f"single-ended, from lot {number % 400}, no. {number}",
                measured=sum((read_readings(one, text, Hint()) for one, text in sizes), ()),
                material=chance.choice(("zinc", "brass", "steel")),
                plating="nickel",
                condition=("pitted under the rim", "one ear bent"),
                count=chance.randint(1, 12),
                bin=f"drawer {number % 60}",
                lot=f"lot {number % 400}",
                lot_share=chance.randint(1, 99) / 100,
                price_minor=chance.randint(100, 9_000),
                currency="GBP",
                came_on=dt.date(2024, 1, 1) + dt.timedelta(days=number % 700),
                matched_set=True,
            )
        )


def long_sheet(rows: list[Values], form: str) -> bytes:
    """Return the shelf as a file."""
    cells = sheet_rows(rows, shelf_layout(), fields=FIELDS)
    return csv_bytes(cells) if form == "CSV" else xlsx_bytes(cells, sheet="shelf")


def try_sheet(data: bytes) -> DryRun:
    """Open a file, map its columns and hold every row against an empty shelf."""
    sheet, told = open_sheet(data, where="shelf"), []
    mapping = map_columns(sheet.header, shelf_layout(), header_row=sheet.header_row)
    run = dry_run(
        sheet, mapping, shelf_layout(), kept={}.get, check=shelf_check(),
        on_progress=told.append, stop=lambda: False,
    )  # fmt: skip
    assert (len(run.new), run.refused_rows, told[-1]) == (PIECES, 0, 1.0), run.line
    return run


def processor_seconds(work: Callable[[], object]) -> list[float]:
    """Return the processor's own time, which a busy machine does not stretch so much."""
    began = time.process_time()
    work()
    return [time.process_time() - began]


def main() -> None:
    """Print the table."""
    table = Table(f"Sheets of {PIECES} pieces, {len(FIELDS)} columns, by the processor's own time")
    files: dict[str, bytes] = {}
    for form in ("CSV", "XLSX"):
        rows = list(long_shelf(PIECES))
        wrote = processor_seconds(lambda r=rows, f=form: files.update({f: long_sheet(r, f)}))
        table.row(f"{form}: written", wrote, limit_s=LIMIT_S)
        del rows
        tried = processor_seconds(lambda form=form: try_sheet(files[form]))
        table.row(f"{form}: opened and tried", tried, limit_s=LIMIT_S)
    odd = long_sheet(list(long_shelf(PIECES, alike=False)), "CSV")
    tried = processor_seconds(lambda: try_sheet(odd))
    table.row("CSV: opened and tried, no two readings alike", tried, limit_s=LIMIT_S)
    table.figure("most memory held", peak_mb(), "MB", limit=1_500)
    table.close()


if __name__ == "__main__":
    main()
