"""The workshop's own dated features: its rows, over those that come with the program."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import REFERENCE
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.evidence.read_reference import check_reference, make_reference, packaged_reference
from counterhoop.evidence.reference import Reference
from counterhoop.evidence.rows import ROWS

AWAY: Final = "away"
"""Rows that were put away, each with its sort; they stand here until they are taken out again."""
NAME: Final = "your dated features"
SORTS: Final = tuple(ROWS)
Rows = Mapping[str, Sequence[Mapping[str, Any]]]
"""By sort ("line", "part", "feature", "value", "serial"), in the words of the file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnReference:
    """What the workshop has written, and what all of it comes to.

    Attributes
    ----------
    kept : Kept
        As it lies in the drawer.
    rows : dict
        Own rows by their sort.
    own, whole : Reference
        Of the own rows alone, and laid over the packaged ones.
    fault : BadInput or None
        Why the own rows cannot be read; then the packaged ones serve alone.
    """

    kept: Kept
    rows: dict[str, list[dict[str, Any]]]
    own: Reference
    whole: Reference
    fault: BadInput | None = None

    @property
    def away(self) -> list[dict[str, Any]]:
        """Rows that were put away."""
        return away_of(self.kept.body)

    @property
    def many(self) -> int:
        """How many rows are the workshop's own."""
        return sum(len(rows) for rows in self.rows.values())


def own_reference(shop: Workshop) -> OwnReference:
    """Return the workshop's own dated features, remembered until they are written again."""
    kept = drawer(shop).get(REFERENCE, Kept())
    found: OwnReference = shop.remembered.get(
        ("own reference", kept.document_id, kept.number), lambda: _read(kept)
    )
    return found


def reference_of(shop: Workshop) -> Reference:
    """Return what was in use when: the workshop's own rows over the packaged ones."""
    return own_reference(shop).whole


def own_rows(shop: Workshop) -> dict[str, list[dict[str, Any]]]:
    """Return the workshop's own rows by their sort, in the words of the file."""
    return own_reference(shop).rows


def laid_over(rows: Rows, *, name: str = NAME) -> tuple[Reference, Reference]:
    """Return own rows as records, and the whole with them over the packaged ones.

    Parameters
    ----------
    rows : mapping of str to sequence of mapping
        By their sort; every row says its source.
    name : str
        What they are called in complaints.

    Raises
    ------
    BadInput
        Names the row and the field that cannot be read, or that does not go with another row.
    """
    beneath = packaged_reference()
    plain = {sort: [dict(row) for row in rows.get(sort, ())] for sort in SORTS}
    own = make_reference(plain, name=name, beneath=beneath)
    return own, check_reference(own.over(beneath), name=name)


def rows_of(body: Any) -> dict[str, list[dict[str, Any]]]:
    """Return the own rows of a body as it is kept; what is no row is left out."""
    table = body if isinstance(body, dict) else {}
    held = {sort: table.get(sort) for sort in SORTS}
    return {
        sort: [row for row in rows if isinstance(row, dict)] if isinstance(rows, list) else []
        for sort, rows in held.items()
    }


def away_of(body: Any) -> list[dict[str, Any]]:
    """Return the rows that were put away, each with its sort; what is no row is left out."""
    held = body.get(AWAY) if isinstance(body, dict) else None
    return [
        one
        for one in (held if isinstance(held, list) else ())
        if isinstance(one, dict) and one.get("sort") in SORTS and isinstance(one.get("row"), dict)
    ]


def _read(kept: Kept) -> OwnReference:
    rows = rows_of(kept.body)
    try:
        own, whole = laid_over(rows)
    except BadInput as fault:
        return OwnReference(
            kept=kept, rows=rows, own=Reference(), whole=packaged_reference(), fault=fault
        )
    return OwnReference(kept=kept, rows=rows, own=own, whole=whole)
