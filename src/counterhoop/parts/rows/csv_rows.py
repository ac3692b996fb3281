"""Rows of a CSV file: what parts its cells, and each row as the spreadsheet counts."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from itertools import islice

from counterhoop.errors import BadInput
from counterhoop.parts.rows.csv_cell import typed_cell
from counterhoop.parts.rows.row import (
    LONGEST_CELL,
    MOST_COLUMNS,
    MOST_ROWS,
    Row,
    letters,
    too_many_rows,
)

DELIMITERS = {",": "commas", ";": "semicolons", "\t": "tabs", "|": "upright strokes"}
_LOOKED_AT = 30


def split_lines(text: str) -> list[str]:
    """Return the lines of a text, their ends made alike; only line ends part them.

    Examples
    --------
    >>> split_lines("a\\r\\nb\\x0cc\\rd")
    ['a\\n', 'b\\x0cc\\n', 'd']
    """
    parts = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    lines = [f"{part}\n" for part in parts[:-1]]
    return [*lines, parts[-1]] if parts[-1] else lines


def find_delimiter(lines: list[str]) -> str:
    """Return the sign that parts the first rows into the most cells, equally many in each.

    Examples
    --------
    >>> find_delimiter(["number;holes apart\\n", "A1;42,5\\n"])
    ';'
    """
    best, most = ",", (False, False, 0)
    for sign in DELIMITERS:
        try:
            rows = list(islice(csv.reader(lines, delimiter=sign), _LOOKED_AT))
        except csv.Error:
            continue
        widths = [len(row) for row in rows if any(row)]
        if not widths or widths[0] == 1:
            continue
        # A quoted cell that was cut in two leaves half of its quotes on either side.
        whole = not any(cell.count('"') % 2 for row in rows for cell in row)
        found = (whole, len(set(widths)) == 1, widths[0])
        if found > most:
            best, most = sign, found
    return best


def csv_rows(lines: list[str], *, delimiter: str, first: int = 1) -> Iterator[tuple[int, Row]]:
    """Yield every row that is not empty with the line of the file at which it ends.

    Parameters
    ----------
    lines : list of str
        With their ends.
    delimiter : str
        What parts the cells.
    first : int
        Number of the first row.

    Raises
    ------
    BadInput
        A quote that is never closed or stands inside a cell, or more columns than make sense.
    """
    reader = csv.reader(lines, delimiter=delimiter, strict=True)
    number = first
    while True:
        began = reader.line_num + first
        try:
            cells = next(reader, None)
        except csv.Error as fault:
            raise _unread(fault, row=number, line=began) from fault
        if cells is None:
            return
        if len(cells) > MOST_COLUMNS and any(cells[MOST_COLUMNS:]):
            raise BadInput(
                f"{len(cells)} columns",
                where=f"row {number}, column {letters(MOST_COLUMNS)}",
                wanted=f"at most {MOST_COLUMNS}",
            )
        if any(cells):
            if number > MOST_ROWS + 1:
                raise too_many_rows(number)
            yield reader.line_num, _row(number, cells)
        number += 1


def _row(number: int, cells: list[str]) -> Row:
    texts = tuple([typed_cell(cell).strip() for cell in cells])
    faults = {}
    for column, text in enumerate(texts):
        # Signs come out of the typed text: an apostrophe in front of a formula makes it text.
        if text[:1] == "=" and cells[column].lstrip()[:1] == "=":
            faults[column] = "a formula, whose result is not taken unseen"
        elif len(text) > LONGEST_CELL:
            faults[column] = f"{len(text)} signs in one cell, at most {LONGEST_CELL} are read"
    return Row(number=number, cells=texts, faults=faults)


def _unread(fault: csv.Error, *, row: int, line: int) -> BadInput:
    place, says = f"row {row}, line {line} of the file", str(fault)
    if "field larger" in says:
        return BadInput(
            "a cell without end",
            where=place,
            step="A quote is opened in this row and not closed: look for it there.",
        )
    if "unexpected end" in says:
        return BadInput("a quote is opened in this row and never closed", where=place)
    return BadInput(
        "a quote stands inside a cell",
        where=place,
        wanted='inches as "in", or the quote doubled inside a quoted cell',
    )
