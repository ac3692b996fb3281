"""The rows of one sheet of a workbook: typed values only, never what a formula came to."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from decimal import Decimal

from counterhoop.errors import BadInput
from counterhoop.parts.rows.row import (
    LONGEST_CELL,
    MOST_COLUMNS,
    MOST_ROWS,
    Row,
    letters,
    too_many_rows,
)
from counterhoop.parts.rows.xlsx_book import Book, Gathering, Listed
from counterhoop.parts.rows.xlsx_parts import Attributes, Watch, damaged, read_part, read_whole

_REFERENCE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
_RANGE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})(?::([A-Z]{1,3})([0-9]{1,7}))?")
_WHOLE = re.compile(r"-?[0-9]{1,15}")


@dataclass(slots=True, kw_only=True)
class Survey:
    """What a first look over a sheet found.

    ``merged`` has, by row, the columns that stand in merged cells and how the merging is called.
    """

    filled: bool = False
    hidden_rows: int = 0
    hidden_columns: list[str] = field(default_factory=list)
    merged: dict[int, list[tuple[int, int, str]]] = field(default_factory=dict)


def column_of(name: str) -> int:
    """Return the number, from 0, of a column by its letters.

    Examples
    --------
    >>> column_of("A"), column_of("AA")
    (0, 26)
    """
    number = 0
    for sign in name:
        number = number * 26 + ord(sign) - ord("A") + 1
    return number - 1


def look_over(book: Book, sheet: Listed) -> Survey:
    """Find merged and hidden cells, and whether any is filled, before anything is read.

    Raises
    ------
    BadInput
        Damaged, or most of it merged.
    """
    found, spread = Survey(), 0

    def start(tag: str, attributes: Attributes) -> None:
        nonlocal spread
        if tag == "v" or tag == "is":
            found.filled = True
        elif tag == "row":
            found.hidden_rows += attributes.get("hidden") in ("1", "true")
        elif tag == "col" and attributes.get("hidden") in ("1", "true"):
            first, last = attributes.get("min", ""), attributes.get("max", "")
            if first.isdigit() and last.isdigit() and int(first) <= MOST_COLUMNS:
                ends = letters(int(first) - 1), letters(min(int(last), MOST_COLUMNS) - 1)
                found.hidden_columns.append("-".join(dict.fromkeys(ends)))
        elif tag == "mergeCell" and (reach := _RANGE.fullmatch(attributes.get("ref", ""))):
            top, bottom = int(reach[2]), min(int(reach[4] or reach[2]), MOST_ROWS + 1)
            left, right = column_of(reach[1]), column_of(reach[3] or reach[1])
            spread += bottom - top + 1
            if spread > 2 * MOST_ROWS:
                raise BadInput(
                    "most of the sheet is merged cells",
                    where=book.parts.where,
                    step="Take the merging off and fill every cell.",
                )
            for row in range(top, bottom + 1):
                found.merged.setdefault(row, []).append((left, right, reach[0]))

    read_whole(book.parts, sheet.part, Watch(start=start))
    return found


class _Reading:
    """Cells of a sheet as its XML goes by; whole rows wait in ``rows``."""

    def __init__(self, book: Book, survey: Survey) -> None:
        self.book, self.survey = book, survey
        self.rows: list[Row] = []
        self.number = 0
        self.column = -1
        self.text = Gathering()
        self.kind, self.style, self.formula = "n", 0, False
        self.cells: dict[int, str] = {}
        self.faults: dict[int, str] = {}
        self.days: set[int] = set()

    def start(self, tag: str, attributes: Attributes) -> None:
        if tag == "c":
            named = attributes.get("r")
            found = _REFERENCE.fullmatch(named) if named else None
            self.column = column_of(found[1]) if found else self.column + 1
            self.kind = attributes.get("t", "n")
            style = attributes.get("s", "0")
            self.style = int(style) if style.isdigit() and len(style) < 7 else 0
            self.formula = False
        elif tag == "v":
            self.text.on = True
        elif tag == "f":
            self.formula = True
        elif tag == "row":
            named = attributes.get("r", "")
            number = int(named) if named.isdigit() and len(named) < 9 else self.number + 1
            if number <= self.number:
                raise damaged(self.book.parts.where)
            self.number, self.column = number, -1
        elif self.kind == "inlineStr":
            self.text.begin(tag)

    def end(self, tag: str) -> None:
        if tag == "c":
            self._cell(self.text.text())
        elif tag == "v":
            self.text.on = False
        elif tag == "row":
            self._row()
        elif self.kind == "inlineStr":
            self.text.finish(tag)

    def _cell(self, text: str) -> None:
        if not text and not self.formula:
            return
        column = self.column
        if self.number > MOST_ROWS + 1:
            raise too_many_rows(self.number)
        if column >= MOST_COLUMNS:
            raise BadInput(
                "further to the right than any column of a shelf",
                where=f"row {self.number}, column {letters(column)}",
                wanted=f"at most {MOST_COLUMNS} columns",
            )
        if self.formula:
            self.faults[column] = "a formula, whose result is not taken unseen"
            return
        try:
            self.cells[column] = self._value(text).strip()
        except (ValueError, OverflowError, IndexError):
            self.faults[column] = "a cell that cannot be read"
            return
        signs = len(self.cells[column])
        if signs > LONGEST_CELL:
            self.faults[column] = f"more than {LONGEST_CELL} signs in one cell"

    def _value(self, text: str) -> str:
        match self.kind:
            case "s":
                if not text.isdigit():
                    raise ValueError
                return self.book.texts[int(text)]
            case "inlineStr" | "str":
                return text
            case "b":
                return "yes" if text == "1" else "no"
            case "e":
                self.faults[self.column] = f'"{text}", an error of the spreadsheet'
                return ""
            case "d":
                self.days.add(self.column)
                return text[:10]
        if self.style in self.book.day_styles:
            self.days.add(self.column)
            return day_of(float(text), from_1904=self.book.from_1904)
        return figure(text)

    def _row(self) -> None:
        for left, right, called in self.survey.merged.get(self.number, ()):
            for column in range(left, min(right, MOST_COLUMNS) + 1):
                self.faults[column] = f"merged cells ({called})"
        width = max((*self.cells, *self.faults), default=-1) + 1
        if not width:
            return
        self.rows.append(
            Row(
                number=self.number,
                cells=tuple(self.cells.get(column, "") for column in range(width)),
                faults=self.faults,
                days=frozenset(self.days),
            )
        )
        self.cells, self.faults, self.days = {}, {}, set()


def xlsx_rows(book: Book, sheet: Listed, *, survey: Survey) -> Iterator[tuple[int, Row]]:
    """Yield every row with the bytes of the sheet that were read until then.

    Raises
    ------
    BadInput
        Damaged on the way, or a cell further out than makes sense.
    """
    reading = _Reading(book, survey)
    watch = Watch(start=reading.start, end=reading.end, chars=reading.text.take)
    for done in read_part(book.parts, sheet.part, watch):
        for row in reading.rows:
            yield done, row
        reading.rows.clear()


def figure(text: str) -> str:
    """Return a number as one would write it: the shortest that is the same float.

    Examples
    --------
    >>> figure("42.100000000000001"), figure("4.2E-2"), figure("12.0"), figure("0012")
    ('42.1', '0.042', '12', '12')
    """
    if _WHOLE.fullmatch(text):
        return str(int(text))
    value = float(text)
    if value != value or abs(value) > 1e15:
        raise ValueError(text)
    if value == int(value):
        return str(int(value))
    return format(Decimal(repr(value)), "f")


def day_of(serial: float, *, from_1904: bool) -> str:
    """Return the day, and the time when there is one, that a spreadsheet keeps as a number.

    Its first calendar counts a 29 February 1900 that never was (from memory).

    Examples
    --------
    >>> day_of(46085.0, from_1904=False), day_of(61.5, from_1904=False)
    ('2026-03-04', '1900-03-01 12:00')
    """
    if from_1904:
        start = dt.datetime(1904, 1, 1)
    else:
        start = dt.datetime(1899, 12, 30) if serial >= 60 else dt.datetime(1899, 12, 31)
    when = start + dt.timedelta(seconds=round(serial * 86400))
    return when.strftime("%Y-%m-%d %H:%M" if when.time() != dt.time() else "%Y-%m-%d")
