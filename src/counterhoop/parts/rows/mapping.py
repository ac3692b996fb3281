"""Which column holds what: guessed from the headers, and changed by a person."""

from __future__ import annotations

import re
from collections.abc import Mapping as AnyMapping
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.parts.dimension import STEPS
from counterhoop.parts.rows.layout import Field, Hint, Layout
from counterhoop.parts.rows.row import letters, place
from counterhoop.quantities.nearest import nearest

LEFT_OUT = ""
"""Chosen for a column that is not to be read."""
_BRACKET = re.compile(r"(?P<name>.*?)\s*[(\[](?P<inside>[^)\]]*)[)\]]\s*")
_AFTER = re.compile(r"(?P<name>.+?)(?:,|\s+in)?\s+(?P<inside>mm|cm|thou|inch|inches|g|kg|oz)\.?")
_SAID = {"inch": "in", "inches": "in", '"': "in", "″": "in", "grams": "g", "millimetres": "mm"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column that is read: where it stands, its header, its field, what its header adds."""

    at: int
    header: str
    field: Field
    hint: Hint


@dataclass(frozen=True, slots=True, kw_only=True)
class Mapping:
    """Every column that is read and every one that is not.

    Attributes
    ----------
    columns : tuple of Column
        In the order of the sheet.
    left_out : tuple of int
        Columns that are not read.
    missing : tuple of str
        Fields without which no new row can be taken.
    says : tuple of str
        What was guessed, and what is left out, a sentence each.
    """

    columns: tuple[Column, ...]
    left_out: tuple[int, ...]
    missing: tuple[str, ...]
    says: tuple[str, ...]


def map_columns(
    header: tuple[str, ...],
    layout: Layout,
    *,
    header_row: int = 1,
    chosen: AnyMapping[int, str] | None = None,
    units: AnyMapping[int, str] | None = None,
) -> Mapping:
    """Find the field of each column.

    Parameters
    ----------
    header : tuple of str
        The headers, from column A.
    layout : Layout
        What may stand in the sheet.
    header_row : int
        Where they stand, for messages.
    chosen : mapping of int to str, optional
        By column: the field that a person chose, or ``LEFT_OUT``.
    units : mapping of int to str, optional
        By column: the unit that a person chose for cells that have none.

    Raises
    ------
    BadInput
        Two columns for one field, an unknown field, or a unit that does not go with it.

    Examples
    --------
    >>> from counterhoop.parts.rows.shelf_layout import shelf_layout
    >>> found = map_columns(("No.", "Holes apart (mm)", "bought by"), shelf_layout())
    >>> [(one.field.name, one.hint.unit) for one in found.columns], found.left_out
    ([('number', ''), ('holes apart', 'mm')], (2,))
    """
    chosen, units = chosen or {}, units or {}
    for at in (*chosen, *units):
        if not 0 <= at < len(header):
            raise BadInput("there is no such column", where=place(header_row), given=letters(at))
    parted = [_parted(text) for text in header]
    found: dict[int, Field] = {
        at: layout.field(name) for at, name in chosen.items() if name != LEFT_OUT
    }
    _only_once(found, header, row=header_row)
    says: list[str] = []
    for close in (False, True):
        for at, (name, _) in enumerate(parted):
            if at in found or at in chosen or not header[at]:
                continue
            free = [each for each in layout.fields if each not in found.values()]
            field = _near(name, free) if close else _exact(name, free)
            if field is not None:
                found[at] = field
                if close:
                    says.append(
                        f'Column {letters(at)}, "{header[at]}", is taken for "{field.name}".'
                    )
    columns = tuple(
        Column(
            at=at,
            header=header[at],
            field=found[at],
            hint=_hint(
                found[at],
                parted[at][1],
                unit=units.get(at),
                where=place(header_row, at, header[at]),
            ),
        )
        for at in sorted(found)
    )
    left = tuple(at for at in range(len(header)) if at not in found)
    named = [f'{letters(at)} "{header[at]}"' for at in left if header[at]]
    if named:
        says.append(f"Not read: column {', '.join(named[:20])}.")
    names = {field.name for field in found.values()}
    missing = tuple(name for name in (*layout.key, *layout.need) if name not in names)
    return Mapping(columns=columns, left_out=left, missing=missing, says=tuple(says))


def _parted(text: str) -> tuple[str, str]:
    """Return a header's name and what its brackets or its end add."""
    found = _BRACKET.fullmatch(text) or _AFTER.fullmatch(text.strip().lower())
    return (found["name"], found["inside"]) if found else (text, "")


def _plain(text: str) -> str:
    return " ".join(
        re.sub(r"[^\w]+", " ", text.casefold().replace("'", "").replace("_", " ")).split()
    )


def _exact(name: str, fields: list[Field]) -> Field | None:
    plain = _plain(name)
    by_name = next((each for each in fields if _plain(each.name) == plain), None)
    return by_name or next(
        (each for each in fields if plain in {_plain(word) for word in each.words}), None
    )


def _near(name: str, fields: list[Field]) -> Field | None:
    words = {_plain(word): each for each in fields for word in (each.name, *each.words)}
    meant = nearest(_plain(name), words, likeness=0.8) if len(name) > 3 else None
    return words[meant] if meant else None


def _hint(field: Field, inside: str, *, unit: str | None, where: str) -> Hint:
    own, instrument = "", ""
    for word in (part.strip().casefold() for part in re.split(r"[,;/]", inside)):
        word = _SAID.get(word, word)
        by_capitals = {each.casefold(): each for each in field.units}
        if word in by_capitals:
            own = by_capitals[word]
        elif word in STEPS and field.units:
            instrument = word
        elif word and field.units and unit is None:
            raise BadInput(
                f'"{word}" in the header is no unit that goes with "{field.name}"',
                where=where,
                wanted="one of " + ", ".join(field.units),
                step="Or choose the unit of this column.",
            )
    if unit is not None:
        if unit and unit not in field.units:
            raise BadInput(
                f'no unit of "{field.name}"',
                where=where,
                given=unit,
                wanted="one of " + ", ".join(field.units) if field.units else "none",
            )
        own = unit
    return Hint(unit=own, instrument=instrument)


def _only_once(found: AnyMapping[int, Field], header: tuple[str, ...], *, row: int) -> None:
    seen: dict[str, int] = {}
    for at, field in sorted(found.items()):
        if field.name in seen:
            raise BadInput(
                f'column {letters(seen[field.name])} is taken for "{field.name}" already',
                where=place(row, at, header[at]),
                step="Leave one of the two out.",
            )
        seen[field.name] = at
