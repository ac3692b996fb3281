"""What a citation is, and the loader that refuses a table row without one."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from counterhoop.errors import CounterhoopError


class TableError(CounterhoopError):
    """A packaged table is not what it must be: a fault of this package, not of the user."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Where a figure comes from.

    Attributes
    ----------
    text : str
        Author or body, year, table or equation; or "common practice, no source".
    seen : bool
        True when the source was read while the row was typed; False when it stands from memory.
    """

    text: str
    seen: bool

    def __str__(self) -> str:
        return self.text if self.seen else f"{self.text} (from memory)"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row of a packaged table with its source."""

    values: dict[str, Any]
    source: Source


@cache
def load_table(package: str, name: str) -> tuple[Row, ...]:
    """Load the rows of a packaged TOML file; every row carries ``source`` and ``seen``.

    Rows are arrays of tables: ``[[row]]``, or another word that says better what a row is
    (``[[fitting]]``).

    A file may set ``source`` and ``seen`` once at its top for rows that do not say otherwise.

    Parameters
    ----------
    package : str
        Import path of the package that ships the file ("counterhoop.standards").
    name : str
        File name below that package's ``tables`` folder.

    Returns
    -------
    tuple of Row

    Raises
    ------
    TableError
        When the file is not TOML or a row has no source.
    """
    text = (files(package) / "tables" / name).read_text(encoding="utf-8")
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise TableError(f"{name} is not TOML: {fault}") from fault
    return tuple(
        _row(entry, name=f"{name} {word} {number}", top=raw)
        for word, rows in raw.items()
        if isinstance(rows, list) and all(isinstance(entry, dict) for entry in rows)
        for number, entry in enumerate(rows, 1)
    )


def _row(entry: dict[str, Any], *, name: str, top: dict[str, Any]) -> Row:
    values = dict(entry)
    text = values.pop("source", top.get("source", ""))
    seen = values.pop("seen", top.get("seen"))
    if not isinstance(text, str) or not text.strip():
        raise TableError(f"{name} has no source")
    if not isinstance(seen, bool):
        raise TableError(f'{name} does not say whether its source was seen ("seen = true")')
    return Row(values=values, source=Source(text=text, seen=seen))
