"""Text for a spreadsheet that stays text: a cell that somebody typed is never a formula."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence

Cell = str | int | float | None

# What spreadsheets take for the start of a formula, as typed and in the wide forms of East Asian
# keyboards, which some of them fold into the plain ones. "|" and "%" start commands in old ones.
STARTS = frozenset("=+-@|%\uff1d\uff0b\uff0d\uff20")
NUMBER = re.compile(r"[+-]?\d+([.,]\d+)?")


def csv_cell(value: Cell) -> str:
    """Return one cell; text that could be read as a formula gets an apostrophe in front.

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
    if NUMBER.fullmatch(text):
        return text
    begins = text.lstrip()[:1]
    # A tab or line end in front is itself taken for a start, or is dropped before looking.
    unsafe = begins in STARTS if begins else False
    return f"'{text}" if unsafe or text[:1] in {"\t", "\r", "\n"} else text


def csv_text(rows: Iterable[Sequence[Cell]]) -> str:
    """Return rows as CSV (RFC 4180), each cell in quotes.

    Quotes keep a cell whole where a spreadsheet splits at semicolons instead of commas.
    """
    text = io.StringIO()
    writer = csv.writer(text, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    writer.writerows([csv_cell(value) for value in row] for row in rows)
    return text.getvalue()
