"""What a form says of a row that is moved by hand."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.quantities.length import parse_length

PLAIN = re.compile(r"-?[0-9]{1,5}(\.[0-9]{1,6})?")


@dataclass(frozen=True, slots=True, kw_only=True)
class RowMove:
    """A row's place asked for by hand.

    Attributes
    ----------
    row : str
        Its name ("resonant").
    right_mm, down_mm : float
        From where its scheme put it, along the surface and toward the resonant edge.
    settled : bool
        Whether it was let go: to be kept, and not only tried.
    based_on : str
        The revision that the page showed.
    """

    row: str
    right_mm: float
    down_mm: float
    settled: bool
    based_on: str


def read_move(form: Mapping[str, object]) -> RowMove:
    """Read a move from a form.

    Raises
    ------
    BadInput
        When a distance cannot be read, or no row is named.

    Examples
    --------
    >>> read_move({"row": "both", "right_mm": "2.5", "down_mm": "-1/4 in", "settled": "yes"})
    RowMove(row='both', right_mm=2.5, down_mm=-6.35, settled=True, based_on='')
    """
    row = str(form.get("row", ""))
    if not row:
        raise BadInput("no row is named", where="row", wanted="the name of a row")
    return RowMove(
        row=row,
        right_mm=_distance_mm(form, "right_mm", called="to the right"),
        down_mm=_distance_mm(form, "down_mm", called="down"),
        settled=form.get("settled") == "yes",
        based_on=str(form.get("based_on", "")),
    )


def _distance_mm(form: Mapping[str, object], name: str, *, called: str) -> float:
    """Read a number of millimetres as the script sends it, or a length as a person types it."""
    text = str(form.get(name, "")).strip() or "0"
    written = f"{text} mm" if PLAIN.fullmatch(text) else text
    return parse_length(written, where=called, allow_negative=True).mm
