"""What columns a kind of sheet may have, and what stands in each."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.parts.rows.csv_cell import Cell
from counterhoop.quantities.nearest import did_you_mean

Values = Mapping[str, object]
"""What one row says, by the names of its fields; what its sheet does not say is not there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hint:
    """What goes for all cells of a column: a unit, an instrument, what a comma means.

    ``comma`` is "decimal", "thousands", or empty where each cell must say it by itself.
    """

    unit: str = ""
    instrument: str = ""
    comma: str = ""


def same_text(one: object, other: object) -> bool:
    """Tell whether two values are equal, spaces around a text and its kind of line end aside."""
    if isinstance(one, str) and isinstance(other, str):
        return " ".join(one.split()) == " ".join(other.split())
    return one == other


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One thing that a column may hold.

    Attributes
    ----------
    name : str
        How it is called, and the header that is written.
    words : tuple of str
        Other headers that mean the same.
    read : callable
        From a cell's text and the header's hint to a value; raises BadInput.
    write : callable
        From a value to what stands in the cell.
    units : tuple of str
        Units that its header may carry, the usual one first; empty where there are none.
    same : callable
        Whether two values say the same.
    is_day : bool
        Whether a day of the spreadsheet's calendar belongs here.
    """

    name: str
    words: tuple[str, ...] = ()
    read: Callable[[str, Hint], object]
    write: Callable[[object], Cell] = lambda value: None if value is None else str(value)
    units: tuple[str, ...] = ()
    same: Callable[[object, object], bool] = same_text
    is_day: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """A kind of sheet.

    Attributes
    ----------
    name : str
        What its rows are, as one says it ("piece").
    fields : tuple of Field
        In the order in which they are written.
    key : tuple of str
        Fields that together name a row: they must be there, and no two rows share them.
    need : tuple of str
        Fields without which a new row makes no sense; the key's are needed anyway.
    """

    name: str
    fields: tuple[Field, ...]
    key: tuple[str, ...]
    need: tuple[str, ...] = ()

    def field(self, name: str) -> Field:
        """Return a field by its name.

        Raises
        ------
        BadInput
            There is none.
        """
        found = next((each for each in self.fields if each.name == name), None)
        if found is None:
            known = [each.name for each in self.fields]
            raise BadInput(
                f"no such field of a {self.name}",
                given=name,
                wanted="one of " + ", ".join(known),
                step=did_you_mean(name, known),
            )
        return found

    def key_of(self, values: Values) -> str:
        """Return what names a row; capitals and spaces do not tell two apart."""
        parts = [" ".join(str(values.get(name, "")).casefold().split()) for name in self.key]
        return "\n".join(parts)
