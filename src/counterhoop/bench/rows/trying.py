"""What the rows of a sheet are held against, and how each is told to a person."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from counterhoop.parts.rows.dry_run import Changed, Check, KeptOf, New
from counterhoop.parts.rows.layout import Layout, Values
from counterhoop.store.body import Json

MOST_SAID = 6
"""Cells of a row that are said: enough to know it again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One thing that taking a row will write.

    Attributes
    ----------
    sort : str
        One letter.
    about : Json
        What is to be known of it.
    body : str
        What will be kept, as it will be kept; one line.
    """

    sort: str
    about: Json
    body: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trying:
    """One sort of rows against what is kept of it.

    Attributes
    ----------
    kept_of : callable
        From keys of rows to what is kept of them.
    check : callable
        What a row must hold to beyond its single cells.
    lines : callable
        From a row that is new or changed to what taking it will write.
    mark : int
        Of what the rows are held against: while it is the same, nothing there has changed.
    named : callable
        How a row that would change is called there now.
    whole : callable
        Called once all rows were tried; raises where they do not go together.
    """

    kept_of: KeptOf
    check: Check
    lines: Callable[[New | Changed], tuple[Line, ...]]
    mark: int
    named: Callable[[Changed], str] = lambda changed: " ".join(changed.key.split())
    whole: Callable[[], None] = lambda: None


def called(values: Values, layout: Layout) -> str:
    """Return how a row is called, as a person would look for it.

    Examples
    --------
    >>> from counterhoop.parts.rows.shelf_layout import shelf_layout
    >>> called({"number": "A1", "kind": "lug", "bin": "3"}, shelf_layout())
    'A1: kind lug; bin 3'
    """
    key = " ".join(str(values.get(name, "")) for name in layout.key)
    rest = [
        f"{each.name} {each.write(values[each.name])}"
        for each in layout.fields
        if each.name in values and each.name not in layout.key
    ]
    more = f"; and {len(rest) - MOST_SAID} more" if len(rest) > MOST_SAID + 1 else ""
    return f"{key}: {'; '.join(rest[: MOST_SAID if more else None])}{more}" if rest else key


def changes_said(changed: Changed, layout: Layout) -> list[tuple[str, str, str]]:
    """Return each field that would change, what it says and what it would say, as in a cell."""
    told = []
    for each in changed.changes:
        field = layout.field(each.field)
        was = "" if each.was is None else str(field.write(each.was))
        told.append((each.field, was, str(field.write(each.becomes))))
    return told
