"""Sheets and rolls that templates are printed on."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.quantities.length import MM_PER_INCH, parse_length
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.sources import Source, load_table

POINT_MM = float(MM_PER_INCH / 72)
"""The point of PDF and PostScript, 1/72 in (ISO 32000-1, 8.3.2.3). The printer's point of TeX,
1/72.27 in, is another."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A sheet, a roll, or the card in a pocket that a print can be checked against.

    Attributes
    ----------
    name : str
        "A4", "Letter", "A1 roll".
    kind : "sheet", "roll" or "card"
        A roll has no long side: it is cut to length.
    short_mm : float
        The short side, or the width of the roll.
    long_mm : float or None
        The long side.
    source : Source
        Where the row comes from.
    """

    name: str
    kind: Literal["sheet", "roll", "card"]
    short_mm: float
    long_mm: float | None
    source: Source


@cache
def all_papers() -> tuple[Paper, ...]:
    """Return every row of the table, in its order."""
    return tuple(
        Paper(
            name=row.values["name"],
            kind=row.values["kind"],
            short_mm=parse_length(row.values["short"]).mm,
            long_mm=parse_length(row.values["long"]).mm if "long" in row.values else None,
            source=row.source,
        )
        for row in load_table("counterhoop.standards", "paper.toml")
    )


def find_paper(name: str, *, where: str = "") -> Paper:
    """Return the sheet or roll of that name; capitals do not matter.

    Raises
    ------
    BadInput
        When there is none; lists what there is.

    Examples
    --------
    >>> find_paper("letter").long_mm, find_paper("24 in roll").short_mm
    (279.4, 609.6)
    """
    wanted = " ".join(name.split()).lower()
    papers = [paper for paper in all_papers() if paper.kind != "card"]
    for paper in papers:
        if paper.name.lower() == wanted:
            return paper
    names = [paper.name for paper in papers]
    raise BadInput(
        "no such paper",
        where=where,
        given=name,
        wanted=f"one of {', '.join(names)}",
        step=did_you_mean(name, names),
    )


def bank_card() -> Paper:
    """Return the card of banks and licences, a second check of a print's scale.

    Examples
    --------
    >>> bank_card().long_mm
    85.6
    """
    return next(paper for paper in all_papers() if paper.kind == "card")


def side_tolerance_mm(side_mm: float) -> float:
    """Return how far a side of a cut sheet of ISO 216 may be off, either way.

    Examples
    --------
    >>> side_tolerance_mm(148.0), side_tolerance_mm(297.0), side_tolerance_mm(841.0)
    (1.5, 2.0, 3.0)
    """
    if not side_mm > 0:
        raise BadInput("a sheet has sides above zero", given=side_mm)
    for row in load_table("counterhoop.standards", "paper_tolerance.toml"):
        most = row.values.get("side_up_to")
        if most is None or side_mm <= parse_length(most).mm:
            return parse_length(row.values["off_by"]).mm
    raise BadInput("no tolerance is listed", given=side_mm)
