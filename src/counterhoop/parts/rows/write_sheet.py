"""Rows for a spreadsheet: headers and cells, as CSV or XLSX, no cell of which is a formula."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from counterhoop.errors import CannotDo
from counterhoop.parts.rows.csv_cell import Cell, csv_text
from counterhoop.parts.rows.layout import Layout, Values
from counterhoop.parts.rows.row import Stop

_ASK_EVERY = 200


def sheet_rows(
    rows: Iterable[Values],
    layout: Layout,
    *,
    fields: Sequence[str] = (),
    stop: Stop | None = None,
) -> Iterator[list[Cell]]:
    """Yield the headers, then a row of cells for each; read back, they say the same.

    Parameters
    ----------
    rows : iterable of Values
        What each says.
    layout : Layout
        What they are.
    fields : sequence of str
        Which columns; all of them when left out.
    stop : callable, optional
        Asked whether to give up.

    Raises
    ------
    CannotDo
        ``stop`` said so.
    """
    columns = [layout.field(name) for name in fields] if fields else list(layout.fields)
    yield [each.name for each in columns]
    for number, values in enumerate(rows):
        if number % _ASK_EVERY == 0 and stop is not None and stop():
            raise CannotDo("writing the rows was stopped")
        yield [each.write(values[each.name]) if each.name in values else None for each in columns]


def csv_bytes(rows: Iterable[Sequence[Cell]]) -> bytes:
    """Return rows as CSV in UTF-8, with the mark by which spreadsheets know it.

    Examples
    --------
    >>> csv_bytes([["bin"], ["=1+1"]]).decode("utf-8-sig")
    '"bin"\\r\\n"\\'=1+1"\\r\\n'
    """
    return b"\xef\xbb\xbf" + csv_text(rows).encode("utf-8")
