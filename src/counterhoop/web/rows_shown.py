"""The columns of a file of rows as a page asks for them, and what a form said of them."""

from __future__ import annotations

from collections.abc import Mapping as AnyMapping
from dataclasses import dataclass

from starlette.datastructures import FormData

from counterhoop.bench.rows.opened import Opened, column_meant, guessed, mapped
from counterhoop.bench.rows.row_sorts import RowSort
from counterhoop.bench.rows.waiting import Reading
from counterhoop.errors import BadInput
from counterhoop.parts.rows.layout import Layout
from counterhoop.parts.rows.row import letters
from counterhoop.web.given_form import text_in

Choices = tuple[tuple[str, str], ...]
NOT_READ = ("", "Not read")
BY_ITSELF = ("", "as written")
COMMAS: Choices = (
    ("", "Ask me where it could be either"),
    ("decimal", "The decimal sign: 42,5"),
    ("thousands", "Parts thousands: 1,250"),
)
DELIMITERS: Choices = (
    ("", "Find out"), (",", "Commas"), (";", "Semicolons"), ("\t", "Tabs"),
    ("|", "Upright strokes"),
)  # fmt: skip
ENCODINGS: Choices = (
    ("", "Find out"), ("UTF-8", "UTF-8"), ("UTF-16", "UTF-16"),
    ("Western (code page 1252)", "Western (code page 1252)"),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnShown:
    """One column of a file.

    Attributes
    ----------
    at, letter, header : int, str, str
        Where it stands, and what stands above it.
    samples : tuple of str
        Its first values.
    field, unit : str
        What it is taken for; empty for not read, and for a unit that each cell says.
    units : tuple
        Units to choose from; empty where there are none.
    fault : str
        What is wrong with the choice.
    """

    at: int
    letter: str
    header: str
    samples: tuple[str, ...]
    field: str
    unit: str
    units: Choices
    fault: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnsShown:
    """All columns, and what is wrong with all of them together.

    Attributes
    ----------
    says : tuple of str
        What the new rows will lack.
    """

    columns: tuple[ColumnShown, ...]
    fault: str = ""
    says: tuple[str, ...] = ()


def field_choices(layout: Layout) -> Choices:
    """Return what a column may be taken for, each with another word for it."""
    named = (
        (each.name, each.name[:1].upper() + each.name[1:], next(iter(each.words), ""))
        for each in layout.fields
    )
    return (NOT_READ, *((name, f"{says} ({word})" if word else says) for name, says, word in named))


def guessed_columns(opened: Opened, sort: RowSort) -> ColumnsShown:
    """Return the columns as they seem to be."""
    found, faults = guessed(opened, sort.layout())
    chosen = {one.at: one.field.name for one in found.columns}
    units = {one.at: one.hint.unit for one in found.columns}
    return shown_columns(opened, sort, chosen=chosen, units=units, faults=faults)


def shown_columns(
    opened: Opened, sort: RowSort, *, chosen: AnyMapping[int, str], units: AnyMapping[int, str],
    faults: AnyMapping[int, BadInput] | None = None, fault: str = "",
) -> ColumnsShown:  # fmt: skip
    """Return the columns as they were chosen."""
    layout, faults = sort.layout(), faults or {}
    by_name = {each.name: each for each in layout.fields}
    every = tuple(dict.fromkeys(unit for each in layout.fields for unit in each.units))
    columns = []
    for at, header in enumerate(opened.header):
        field = by_name.get(chosen.get(at, ""))
        samples = opened.samples[at]
        # One that is not read yet may be chosen to be, and then its figures want a unit.
        open_to_all = field is None and any(sign.isdigit() for text in samples for sign in text)
        offered = field.units if field else every if open_to_all else ()
        unit = units.get(at, "")
        if unit and unit not in offered:
            offered = (*offered, unit)
        complaint = faults.get(at)
        columns.append(
            ColumnShown(
                at=at,
                letter=letters(at),
                header=header,
                samples=samples,
                field=field.name if field else "",
                unit=unit,
                units=(BY_ITSELF, *((one, one) for one in offered)) if offered else (),
                fault=_told(complaint) if complaint else "",
            )
        )
    names = {one.field for one in columns}
    lacking = [name for name in layout.need if name not in names and not fault]
    says = tuple(
        f'No column is the "{name}": rows of what is not there yet will be refused.'
        for name in lacking
    )
    return ColumnsShown(columns=tuple(columns), fault=fault, says=says)


def columns_in(
    given: FormData, opened: Opened, sort: RowSort, *, reading: Reading
) -> tuple[dict[int, str], dict[int, str], ColumnsShown | None]:
    """Return the fields and units that a form says, and the columns again where they are wrong."""
    layout = sort.layout()
    by_name = {each.name: each for each in layout.fields}
    chosen = {at: text_in(given, f"f{at}") for at in range(len(opened.header))}
    chosen = {at: name if name in by_name else "" for at, name in chosen.items()}
    said = {at: text_in(given, f"u{at}") for at in chosen if f"u{at}" in given}
    units = {
        at: unit for at, unit in said.items() if chosen[at] and (unit or by_name[chosen[at]].units)
    }
    wrong: dict[int, BadInput] = {}
    fault = ""
    try:
        found = mapped(
            opened.header, layout, header_row=opened.header_row, reading=reading, chosen=chosen,
            units=units,
        )  # fmt: skip
    except BadInput as complaint:
        at = column_meant(opened, complaint)
        if at is None:
            fault = str(complaint)
        else:
            wrong[at] = complaint
    else:
        missing = [name for name in found.missing if name in layout.key]
        if missing:
            fault = (
                f'Which column is the "{missing[0]}"? Without it no {layout.name} is told from'
                " another."
            )
    if not wrong and not fault:
        return chosen, units, None
    again = shown_columns(opened, sort, chosen=chosen, units=said, faults=wrong, fault=fault)
    return chosen, units, again


def _told(fault: BadInput) -> str:
    """Return a complaint that stands beside its column."""
    says = str(BadInput(fault.what, given=fault.given, wanted=fault.wanted, step=fault.step))
    return says[:1].upper() + says[1:]
