"""How a place in a form is called: as the name of an input, as an id, and as it is said."""

from __future__ import annotations

import re
from typing import TypeAlias

from counterhoop.shell.survey_file.lines import path_of

Path: TypeAlias = tuple[str | int, ...]
"""Names of tables and, from 0, places in lists."""

UNKNOWN = "?"
"""Below it lie the names that a table may not hold but does."""
AT, IS = "at", "is"
"""Name and value of each line of a table whose names are the person's own."""


def input_name(path: Path) -> str:
    """Return the name of the input for a place.

    Examples
    --------
    >>> input_name(("near", 0)), input_name(("?", "1.5 in"))
    ('near.0', '?.1%2E5 in')
    """
    return ".".join(str(part).replace("%", "%25").replace(".", "%2E") for part in path)


def parts_of(name: str) -> tuple[str, ...]:
    """Return what lies between the dots of an input's name.

    Examples
    --------
    >>> parts_of("near.0"), parts_of("?.1%2E5 in")
    (('near', '0'), ('?', '1.5 in'))
    """
    return tuple(part.replace("%2E", ".").replace("%25", "%") for part in name.split("."))


def input_id(form: str, path: Path) -> str:
    """Return an id that no other input of the page has.

    Examples
    --------
    >>> input_id("row-1", ("near", 0)), input_id("hole", ("?", "a b"))
    ('row-1-near-0', 'hole-_3f-a_20b')
    """
    parts = (re.sub(r"[^A-Za-z0-9]", lambda sign: f"_{ord(sign[0]):x}", str(p)) for p in path)
    return "-".join((form, *parts))


def said(path: Path) -> str:
    """Return a place as faults say it: lists are counted from 1."""
    return path_of(path)
