"""Own sales as a sheet of rows: out for a spreadsheet, and in from one, all of it or nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from counterhoop.bench.trade.own_sales import (
    MOST,
    OwnSales,
    own_sales,
    put_rows,
    read_row,
)
from counterhoop.bench.trade.sale_typed import SALE
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.parts.rows.csv_cell import csv_text
from counterhoop.parts.rows.csv_rows import csv_rows, find_delimiter, split_lines
from counterhoop.parts.rows.row import Row
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.store.body import Json, new_id
from counterhoop.store.save import Conflict, Saved

MOST_FAULTS: Final = 12
"""More lines that cannot be read are only counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowsTaken:
    """What became of a sheet.

    Attributes
    ----------
    done : Saved or Conflict or None
        None when nothing was kept: a line cannot be read, or all of them were there already.
    new, there : int
        Sales that are new, and those that stood there already.
    faults : tuple of str
        What cannot be read, with its line.
    """

    done: Saved | Conflict | None = None
    new: int = 0
    there: int = 0
    faults: tuple[str, ...] = ()


def sales_out(own: OwnSales) -> str:
    """Return all sales that count as rows, the first line naming the columns."""
    rows = [[one.typed.get(name, "") for name in SALE] for one in own.rows if not one.struck]
    return csv_text([SALE, *rows])


def take_sales(shop: Workshop, text: str, *, based_on: int, by: str) -> RowsTaken:
    """Take in a sheet of rows; a sale that stands there already is left alone.

    Parameters
    ----------
    text : str
        Its first line names the columns; they are kept apart by commas, semicolons or tabs.

    Raises
    ------
    BadInput
        For a sheet without columns that a sale has, or with more sales than there is room for.
    """
    own, today = own_sales(shop), shop.now().date()
    known = {frozenset(one.typed.items()) for one in own.rows}
    rows: dict[str, dict[str, Json]] = {}
    faults: list[str] = []
    there = 0
    for line, typed in _lines(text):
        key = new_id()
        read, row = read_row(typed, key=key, own=own, today=today)
        if read.sale is None:
            faults += [f"line {line}: {fault}" for fault in read.faults.values()]
        elif (said := frozenset(row.items())) in known:
            there += 1
        else:
            known.add(said)
            rows[key] = dict(row)
        if len(rows) + len(own.rows) > MOST:
            raise BadInput(
                "more sales than there is room for", where="file", wanted=f"at most {MOST}"
            )
    if faults:
        more = len(faults) - MOST_FAULTS
        also = (f"and {more} more",) if more > 0 else ()
        return RowsTaken(faults=(*faults[:MOST_FAULTS], *also))
    done = put_rows(shop, rows, based_on=based_on, by=by) if rows else None
    return RowsTaken(done=done, new=len(rows), there=there)


def _lines(text: str) -> Iterator[tuple[int, dict[str, str]]]:
    lines = split_lines(text.removeprefix("\ufeff"))
    rows = csv_rows(lines, delimiter=find_delimiter(lines))
    _, head = next(rows, (0, Row(number=0, cells=())))
    columns = [_column(name) for name in head.cells]
    if "price" not in columns or "size" not in columns:
        raise BadInput(
            "no columns of sales", where="file", given=", ".join(head.cells)[:80] or None,
            wanted=f"a first line that names columns: {', '.join(SALE)}",
        )  # fmt: skip
    for line, row in rows:
        for column, fault in row.faults.items():
            raise BadInput(fault, where=f"line {line}", given=row.cells[column][:80])
        if any(row.cells):
            yield line, dict(zip(columns, row.cells, strict=False))


def _column(name: str) -> str:
    plain = "_".join(name.casefold().split())
    if plain not in SALE:
        raise BadInput(
            "no such column", where="file", given=name, wanted=f"one of {', '.join(SALE)}",
            step=did_you_mean(plain, SALE),
        )  # fmt: skip
    return plain
