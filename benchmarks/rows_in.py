"""A sheet of a hundred thousand pieces on its whole way: put in, opened, mapped, tried, taken.

By the clock and by the processor's own time, which a busy machine does not stretch so much.
"""

from __future__ import annotations

import argparse
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import rows_speed
from _timing import Table

from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.rows.opened import guessed, opened
from counterhoop.bench.rows.row_sorts import row_sort
from counterhoop.bench.rows.rows_out import rows_out
from counterhoop.bench.rows.take_rows import take_now
from counterhoop.bench.rows.try_rows import try_rows
from counterhoop.bench.rows.waiting import put_rows_in, read_anew
from counterhoop.bench.workshop import Workshop, open_workshop

LIMIT_S, LIMIT_MB = 60.0, 500.0


class Clock:
    """Adds up what steps take."""

    def __init__(self, table: Table) -> None:
        self.table, self.all_s, self.all_cpu_s = table, 0.0, 0.0

    def step(self, says: str, work: Callable[[], Any]) -> Any:
        """Do one step and write its row."""
        began, cpu = time.perf_counter(), time.process_time()
        made = work()
        took, took_cpu = time.perf_counter() - began, time.process_time() - cpu
        self.all_s += took
        self.all_cpu_s += took_cpu
        self.table.row(f"{says}, by the processor", [took_cpu], limit_s=LIMIT_S)
        return made


def whole_way(shop: Workshop, data: bytes, name: str, table: Table) -> None:
    """Take one file from its bytes to the shelf."""
    clock, sort = Clock(table), row_sort("shelf")
    one = clock.step(
        "put in", lambda: put_rows_in(shop, sort="shelf", name=name, pieces=[data], by="bench")
    )
    seen = clock.step(
        "opened", lambda: opened(one.file.read_bytes(), name=name, reading=one.reading)
    )
    mapping, _ = guessed(seen, sort.layout())
    one = read_anew(one, chosen={each.at: each.field.name for each in mapping.columns}, mapped=True)

    def tried() -> Any:
        with shop.store.reading() as connection:
            trying = sort.trying(shop, connection, one)
            return try_rows(one, sort.layout(), trying, progress=lambda _share: None)

    told = clock.step("tried", tried)
    if not told.changes_nothing:
        clock.step("taken", lambda: take_now(shop, one, by="bench", share=lambda _share: None))
    print(f"{name}: {told.line}")
    table.row(f"{name}: in all, by the processor", [clock.all_cpu_s], limit_s=LIMIT_S)
    table.row(f"{name}: in all, by the clock", [clock.all_s], limit_s=LIMIT_S)


def main() -> None:
    """Print the table."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--pieces", type=int, default=100_000)
    asked.add_argument("--forms", default="CSV,XLSX")
    asked.add_argument("--write", type=Path, help=argparse.SUPPRESS)
    given = asked.parse_args()
    if given.write:
        made = rows_speed.long_sheet(rows_speed.long_shelf(given.pieces), given.forms)
        given.write.write_bytes(made)
        return
    table = Table(f"A sheet of {given.pieces} pieces, {len(rows_speed.FIELDS)} columns, on SQLite")
    for form in given.forms.split(","):
        with tempfile.TemporaryDirectory() as folder:
            sheet = Path(folder) / f"shelf.{form.lower()}"
            # In a process of its own, so that what making the sheet takes is not measured.
            command = [sys.executable, __file__, "--pieces", str(given.pieces)]
            subprocess.run([*command, "--forms", form, "--write", str(sheet)], check=True)
            with open_workshop(data=Path(folder) / "data", works=WorksAtOnce()) as shop:
                whole_way(shop, sheet.read_bytes(), sheet.name, table)
                if form == "CSV":
                    clock = Clock(table)
                    clock.step("written again as CSV", lambda: rows_out(shop, "shelf", form="csv"))
                    whole_way(shop, sheet.read_bytes(), "the same again.csv", table)
    held_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0
    table.figure("most memory held", held_mb, "MB", limit=LIMIT_MB)
    table.close()


if __name__ == "__main__":
    main()
