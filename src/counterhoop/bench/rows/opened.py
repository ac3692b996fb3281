"""A file of rows opened far enough to choose what its columns are."""

from __future__ import annotations

from collections.abc import Mapping as AnyMapping
from contextlib import closing
from dataclasses import dataclass, replace
from itertools import islice

from counterhoop.bench.rows.waiting import Reading
from counterhoop.errors import BadInput
from counterhoop.parts.rows.layout import Layout
from counterhoop.parts.rows.mapping import Mapping, map_columns
from counterhoop.parts.rows.open_sheet import Sheet, open_sheet
from counterhoop.parts.rows.row import place

LOOKED_AT = 300
MOST_SAMPLES = 3
LONGEST_SAMPLE = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """What is seen of a file before its columns are chosen.

    Attributes
    ----------
    says : tuple of str
        What was found out or left unread, a sentence each.
    header, header_row : tuple of str, int
        The headers, from column A, and where they stand.
    samples : tuple of tuple of str
        By column: its first values that differ.
    has_commas : bool
        Among the rows looked at there are numbers with a comma in them.
    """

    says: tuple[str, ...]
    header: tuple[str, ...]
    header_row: int
    samples: tuple[tuple[str, ...], ...]
    has_commas: bool


def sheet_of(data: bytes, *, name: str, reading: Reading) -> Sheet:
    """Open a file as it is to be read."""
    return open_sheet(
        data, where=name, sheet=reading.sheet, encoding=reading.encoding,
        delimiter=reading.delimiter, header_row=reading.header_row,
    )  # fmt: skip


def opened(data: bytes, *, name: str, reading: Reading) -> Opened:
    """Open a file and look at its first rows.

    Raises
    ------
    BadInput
        It cannot be read, or a person has to choose.
    """
    sheet = sheet_of(data, name=name, reading=reading)
    samples: list[dict[str, None]] = [{} for _ in sheet.header]
    commas = False
    rows = sheet.rows()
    # Closed, so that a workbook is let go half-way.
    with closing(rows):
        for row in islice(rows, LOOKED_AT):
            for seen, text in zip(samples, row.cells, strict=False):
                commas = commas or _has_comma(text)
                if text and len(seen) < MOST_SAMPLES:
                    short = (
                        text if len(text) <= LONGEST_SAMPLE else text[: LONGEST_SAMPLE - 1] + "…"
                    )
                    seen.setdefault(short)
    return Opened(
        says=sheet.says, header=sheet.header, header_row=sheet.header_row,
        samples=tuple(tuple(one) for one in samples), has_commas=commas,
    )  # fmt: skip


def mapped(
    header: tuple[str, ...], layout: Layout, *, header_row: int, reading: Reading,
    chosen: AnyMapping[int, str], units: AnyMapping[int, str],
) -> Mapping:  # fmt: skip
    """Return what the columns hold, by a person's choice and by guess, commas read as chosen.

    Raises
    ------
    BadInput
        As ``map_columns`` does.
    """
    found = map_columns(header, layout, header_row=header_row, chosen=chosen, units=units)
    if not reading.comma:
        return found
    columns = tuple(
        replace(one, hint=replace(one.hint, comma=reading.comma)) for one in found.columns
    )
    return replace(found, columns=columns)


def guessed(opened: Opened, layout: Layout) -> tuple[Mapping, dict[int, BadInput]]:
    """Return what the columns seem to hold, and what is wrong with single headers."""
    units: dict[int, str] = {}
    faults: dict[int, BadInput] = {}
    while True:
        try:
            found = map_columns(opened.header, layout, header_row=opened.header_row, units=units)
        except BadInput as fault:
            at = column_meant(opened, fault)
            if at is None or at in units:
                raise
            # Read without the header's own word for the unit, each cell has to say it.
            units[at], faults[at] = "", fault
        else:
            return found, faults


def column_meant(opened: Opened, fault: BadInput) -> int | None:
    """Return the column that a complaint is about, or None."""
    places = {place(opened.header_row, at, text): at for at, text in enumerate(opened.header)}
    return places.get(fault.where)


def _has_comma(text: str) -> bool:
    front, comma, back = text.partition(",")
    return bool(comma) and front[-1:].isdigit() and back[:1].isdigit()
