"""Own sales as a sheet of rows: out for a spreadsheet, and in from one, all of it or nothing."""

from __future__ import annotations

import csv
import io
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
    out = io.StringIO()
    writer = csv.DictWriter(out, SALE, lineterminator="\r\n")
    writer.writeheader()
    # A spreadsheet reckons with what begins like a formula: such a text gets a space before it.
    writer.writerows(
        {name: f" {text}" if text[:1] in "=+-@" else text for name, text in one.typed.items()}
        for one in own.rows
        if not one.struck
    )
    return out.getvalue()


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
    known = [dict(one.typed) for one in own.rows]
    rows: dict[str, dict[str, Json]] = {}
    faults: list[str] = []
    there = 0
    for line, typed in _lines(text):
        key = new_id()
        read, row = read_row(typed, key=key, own=own, today=today)
        if read.sale is None:
            faults += [f"line {line}: {fault}" for fault in read.faults.values()]
        elif row in known:
            there += 1
        else:
            known.append(row)
            rows[key] = dict(row)
    if len(rows) + len(own.rows) > MOST:
        raise BadInput("more sales than there is room for", where="file", wanted=f"at most {MOST}")
    if faults:
        more = len(faults) - MOST_FAULTS
        also = (f"and {more} more",) if more > 0 else ()
        return RowsTaken(faults=(*faults[:MOST_FAULTS], *also))
    done = put_rows(shop, rows, based_on=based_on, by=by) if rows else None
    return RowsTaken(done=done, new=len(rows), there=there)


def _lines(text: str) -> Iterator[tuple[int, dict[str, str]]]:
    head, _, _ = text.lstrip("\ufeff").partition("\n")
    between = max(",;\t", key=head.count)
    reader = csv.reader(io.StringIO(text.lstrip("\ufeff")), delimiter=between)
    columns = [_column(name) for name in next(reader, [])]
    if "price" not in columns or "size" not in columns:
        raise BadInput(
            "no columns of sales", where="file", given=head.strip()[:80] or None,
            wanted=f"a first line that names columns: {', '.join(SALE)}",
        )  # fmt: skip
    for cells in reader:
        if any(cell.strip() for cell in cells):
            yield reader.line_num, dict(zip(columns, cells, strict=False))


def _column(name: str) -> str:
    plain = "_".join(name.casefold().split())
    if plain not in SALE:
        raise BadInput(
            "no such column", where="file", given=name, wanted=f"one of {', '.join(SALE)}",
            step=did_you_mean(plain, SALE),
        )  # fmt: skip
    return plain
