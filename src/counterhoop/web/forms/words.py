"""What fields are called on a form, and the sentence of help beside each."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from typing import Any, Literal, TypeAlias

from counterhoop.sources import TableError, load_table

Units: TypeAlias = Literal["mm", "in"]

_PACKAGE = "counterhoop.web.forms"


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What one field is called, and what stands beside it.

    Attributes
    ----------
    label, help : str
        In bench words; ``{eg}`` in the help becomes ``eg`` in the person's units.
    eg : tuple of str
        One example, or one in millimetres and one in inches.
    each : str
        What one line of a list is called; ``{n}`` is its number.
    lines : int or str
        Lines of a list that stand ready, or the name of the count beside it that says so.
    ends : tuple of str
        Names that the readings of a table usually have.
    otherwise : str
        What stands over the other ways to give a reading.
    at, at_help, at_offers, value : str
        Of a table whose names are the person's own: what a name is called, the help beside it,
        the names offered, and what the value is called.
    pair : tuple of str
        What the two entries of one line are called.
    shown : dict
        Words of a choice that are shown otherwise than they are written.
    offers : str
        Which list of names is offered while one types.
    place : str
        What a tap on the drawing fills in here.
    """

    label: str
    help: str
    eg: tuple[str, ...] = ()
    each: str = ""
    lines: int | str = 1
    ends: tuple[str, ...] = ()
    otherwise: str = "Another way to give it"
    at: str = "at"
    at_help: str = ""
    at_offers: str = ""
    value: str = "reading"
    pair: tuple[str, ...] = ()
    shown: dict[str, str] = field(default_factory=dict)
    offers: str = ""
    place: str = ""

    def helped(self, units: Units) -> str:
        """Return the help with its example in the person's units.

        Examples
        --------
        >>> Words(label="Wall", help="Bare, such as {eg}.", eg=("5 mm", "7/32 in")).helped("in")
        'Bare, such as 7/32 in.'
        """
        eg = self.eg[-1 if units == "in" else 0] if self.eg else ""
        return self.help.replace("{eg}", eg)


@cache
def words_in(table: str) -> dict[tuple[str, str], Words]:
    """Return the words of every field of a table of words, by model and field.

    Raises
    ------
    TableError
        When a field of one model stands there twice.
    """
    found: dict[tuple[str, str], Words] = {}
    for row in load_table(_PACKAGE, table):
        values: dict[str, Any] = {
            name: tuple(value) if isinstance(value, list) else value
            for name, value in row.values.items()
        }
        name = values.pop("name")
        for model in values.pop("of"):
            if (model, name) in found:
                raise TableError(f"{table} has {model}.{name} twice")
            found[model, name] = Words(**values)
    return found
