"""One row of a sheet as it was read, and how its places are called."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from counterhoop.errors import BadInput

Progress = Callable[[float], None]
"""Told the share that is done, from 0 to 1."""
Stop = Callable[[], bool]
"""Asked whether to give up."""

MOST_BYTES = 40_000_000
"""No shelf is a larger file; more is something else."""
MOST_ROWS = 200_000
MOST_COLUMNS = 200
LONGEST_CELL = 2_000
"""More text in one cell than anybody writes about a part."""
MOST_REFUSED = 1_000
"""Sentences kept of one file: the rest is counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row as it stands in the sheet.

    Attributes
    ----------
    number : int
        As the spreadsheet counts: the header is row 1, empty rows count.
    cells : tuple of str
        Text as typed, spaces around it gone; figures as written, days as ``2026-03-04``.
    faults : mapping of int to str
        By column: why a cell's text cannot be taken (a formula, an error, merged cells).
    days : frozenset of int
        Columns of which the spreadsheet had made days.
    """

    number: int
    cells: tuple[str, ...]
    faults: Mapping[int, str] = field(default_factory=dict)
    days: frozenset[int] = frozenset()

    @property
    def is_empty(self) -> bool:
        """Whether nothing stands in it."""
        return not self.faults and not any(self.cells)


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """One cell or row that cannot be used.

    Attributes
    ----------
    row : int
        As the spreadsheet counts; 0 of the whole file.
    column : int
        From 0; below zero where the whole row is meant.
    says : str
        One sentence with row and column in it.
    """

    row: int
    column: int
    says: str


def letters(column: int) -> str:
    """Return a column as a spreadsheet heads it.

    Examples
    --------
    >>> letters(0), letters(25), letters(26), letters(702)
    ('A', 'Z', 'AA', 'AAA')
    """
    text, left = "", column + 1
    while left:
        left, sign = divmod(left - 1, 26)
        text = chr(ord("A") + sign) + text
    return text


def place(row: int, column: int | None = None, header: str = "") -> str:
    """Say where a cell stands.

    Examples
    --------
    >>> place(7, 2, "holes apart"), place(7)
    ('row 7, column C "holes apart"', 'row 7')
    """
    if column is None:
        return f"row {row}"
    name = " ".join(header.split())
    name = name if len(name) <= 40 else name[:37] + "..."
    return f"row {row}, column {letters(column)}" + (f' "{name}"' if name else "")


def too_many_rows(row: int) -> BadInput:
    """Return the complaint of a sheet that is longer than is read at once."""
    return BadInput(
        "more rows than are read at once",
        where=place(row),
        wanted=f"at most {MOST_ROWS} below the headers",
        step="Part the file in two.",
    )
