"""Text for a spreadsheet that stays text: a cell that somebody typed is never a formula."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Sequence

Cell = str | int | float | None

# What spreadsheets take for the start of a formula, as typed and in the wide forms of East Asian
# keyboards, which some of them fold into the plain ones. "|" and "%" start commands in old ones.
STARTS = frozenset("=+-@|%\uff1d\uff0b\uff0d\uff20")
NUMBER = re.compile(r"[+-]?\d+([.,]\d+)?")


def csv_cell(value: Cell) -> str:
    """Return one cell; text that could be read as a formula gets an apostrophe in front.

    So does text that has such an apostrophe of its own: ``typed_cell`` takes one off again.

    Examples
    --------
    >>> csv_cell('=HYPERLINK("x")'), csv_cell("-3.5"), csv_cell(-3.5), csv_cell("lug 3")
    ('\\'=HYPERLINK("x")', '-3.5', '-3.5', 'lug 3')
    """
    if value is None:
        return ""
    if not isinstance(value, str):
        return str(value)
    text = value.replace("\0", "")
    return f"'{text}" if runs(text.lstrip("'")) else text


def typed_cell(cell: str) -> str:
    """Return what was typed in a cell that ``csv_cell`` wrote.

    Examples
    --------
    >>> typed_cell("'- worn"), typed_cell("'60s lug"), typed_cell(csv_cell("'=1"))
    ('- worn', "'60s lug", "'=1")
    """
    return cell[1:] if cell[:1] == "'" and runs(cell.lstrip("'")) else cell


def runs(text: str) -> bool:
    """Tell whether a spreadsheet may take a text for a formula or a command."""
    if text[:1].isalnum() or NUMBER.fullmatch(text):
        return False
    begins = text.lstrip()[:1]
    # A tab or line end in front is itself taken for a start, or is dropped before looking.
    return (begins != "" and begins in STARTS) or text[:1] in {"\t", "\r", "\n"}


def csv_text(rows: Iterable[Sequence[Cell]]) -> str:
    """Return rows as CSV (RFC 4180), each cell in quotes.

    Quotes keep a cell whole where a spreadsheet splits at semicolons instead of commas.
    """
    lines = _Lines()
    writer = csv.writer(lines, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    writer.writerows([csv_cell(value) for value in row] for row in rows)
    return "".join(lines.written)


class _Lines:
    """Every line that was written."""

    def __init__(self) -> None:
        self.written: list[str] = []

    def write(self, line: str) -> None:
        self.written.append(line)
