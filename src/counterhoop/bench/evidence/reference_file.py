"""The workshop's dated features as a file: handed out, looked at, taken in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from counterhoop.bench.evidence.own_reference import SORTS, laid_over, own_reference
from counterhoop.bench.workshop import Workshop
from counterhoop.evidence.read_reference import rows_in

HEAD = """\
# What was in use when, as this workshop knows it. Each row says where it was had from. Rows of the
# same name take the place of those that come with the program.
"""
KEYS = {
    "line": ("family", "name"),
    "part": ("name",),
    "feature": ("name",),
    "value": ("family", "feature", "name"),
    "serial": ("family", "number"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class FileLooked:
    """What taking a file in would change; rows by what they are called.

    Attributes
    ----------
    rows : dict
        By sort, ready for ``write_rows``.
    new, changed, gone : tuple of str
        Against the own rows as they are.
    same : int
        How many rows stay as they are.
    """

    rows: dict[str, list[dict[str, Any]]]
    new: tuple[str, ...]
    changed: tuple[str, ...]
    gone: tuple[str, ...]
    same: int


def reference_text(shop: Workshop) -> str:
    """Return the workshop's own rows as the text of a TOML file."""
    import tomli_w

    rows = own_reference(shop).rows
    return HEAD + tomli_w.dumps({sort: rows[sort] for sort in SORTS if rows[sort]})


def look_at_file(shop: Workshop, text: str, *, name: str) -> FileLooked:
    """Return what a file would change, with nothing written.

    Parameters
    ----------
    text : str
        Of a TOML file: it takes the place of all own rows.
    name : str
        What the file is called, in complaints.

    Raises
    ------
    BadInput
        Names the row and the field that cannot be read.
    """
    rows = rows_in(text, name=name)
    laid_over(rows, name=name)
    mine, theirs = _by_name(own_reference(shop).rows), _by_name(rows)
    return FileLooked(
        rows=rows,
        new=tuple(called for called in theirs if called not in mine),
        changed=tuple(c for c, row in theirs.items() if c in mine and mine[c] != row),
        gone=tuple(called for called in mine if called not in theirs),
        same=sum(mine.get(called) == row for called, row in theirs.items()),
    )


def row_called(sort: str, row: dict[str, Any]) -> str:
    """Return what a row is called: "Corvane badge, round"."""
    *front, last = (str(row.get(word, "")) for word in KEYS[sort])
    return f"{' '.join(front)}, {last}" if front else f"{sort} {last}"


def _by_name(rows: dict[str, list[dict[str, Any]]]) -> dict[str, dict[str, Any]]:
    return {row_called(sort, row): row for sort in SORTS for row in rows.get(sort, ())}
