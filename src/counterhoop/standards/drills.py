"""Twist drills by the names on their box, and the one nearest to a diameter."""

from __future__ import annotations

import math
from bisect import bisect_left
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any, Literal

from counterhoop.errors import BadInput
from counterhoop.quantities.length import MM_PER_INCH, parse_length
from counterhoop.sources import Row, Source, load_table

System = Literal["number", "letter", "fraction", "metric"]
SYSTEMS: tuple[System, ...] = ("number", "letter", "fraction", "metric")
_TIE_MM = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Drill:
    """One drill.

    Attributes
    ----------
    name : str
        As on the box: "No. 16", "E", "7/32 in", "4.5 mm".
    system : str
        One of ``SYSTEMS``.
    diameter_mm : float
        Nominal.
    source : Source
        Where the row comes from.
    """

    name: str
    system: System
    diameter_mm: float
    source: Source


@cache
def all_drills(*, system: System | None = None) -> tuple[Drill, ...]:
    """Return every drill of one system, or of all, by rising diameter.

    Raises
    ------
    BadInput
        For a system that is not one of ``SYSTEMS``.

    Examples
    --------
    >>> len(all_drills(system="number")), len(all_drills(system="fraction"))
    (80, 64)
    """
    if system is not None and system not in SYSTEMS:
        raise BadInput("no such set of drills", given=system, wanted=" or ".join(SYSTEMS))
    drills = [
        drill
        for row in load_table("counterhoop.standards", "drills.toml")
        if system in (None, row.values["system"])
        for drill in _drills(row)
    ]
    return tuple(sorted(drills, key=lambda d: (d.diameter_mm, SYSTEMS.index(d.system))))


def _drills(row: Row) -> list[Drill]:
    values: dict[str, Any] = row.values
    system: System = values["system"]
    if "diameter" in values:
        size = parse_length(values["diameter"], where=values["name"])
        return [Drill(name=values["name"], system=system, diameter_mm=size.mm, source=row.source)]
    first, last, step = (
        parse_length(values[key], where=f"{system} drills").exact_mm
        for key in ("first", "last", "step")
    )
    sizes = [first + step * number for number in range(int((last - first) / step) + 1)]
    return [
        Drill(
            name=_run_name(size, system=system),
            system=system,
            diameter_mm=float(size),
            source=row.source,
        )
        for size in sizes
    ]


def _run_name(size_mm: Fraction, *, system: System) -> str:
    if system == "metric":
        return f"{float(size_mm):.2f}".removesuffix("0") + " mm"
    return f"{size_mm / MM_PER_INCH} in"


def nearest_drills(
    diameter_mm: float, *, system: System | None = None, at_least: bool = False
) -> tuple[Drill, ...]:
    """Return the drill nearest to a diameter, or several when they are equally near.

    Parameters
    ----------
    diameter_mm : float
        The hole that is wanted.
    system : str, optional
        Only drills of one of ``SYSTEMS``.
    at_least : bool
        Only drills that are not smaller: for a hole that a screw must pass or that a tap must
        not be forced into.

    Returns
    -------
    tuple of Drill
        At least one; by rising diameter.

    Raises
    ------
    BadInput
        When the diameter is not above zero or beyond the largest drill.

    Examples
    --------
    >>> [drill.name for drill in nearest_drills(6.35)]
    ['E', '1/4 in']
    >>> [drill.name for drill in nearest_drills(4.455)]
    ['No. 16']
    >>> [drill.name for drill in nearest_drills(4.455, system="metric")]
    ['4.5 mm']
    """
    drills = all_drills(system=system)
    if not (math.isfinite(diameter_mm) and diameter_mm > 0):
        raise BadInput("a hole has a diameter above zero", given=diameter_mm)
    if diameter_mm > drills[-1].diameter_mm + _TIE_MM:
        raise BadInput(
            "larger than any drill of the set",
            given=f"{diameter_mm:g} mm",
            wanted=f"at most {drills[-1].name}",
            step="Use a saw-tooth bit or a hole saw of the nearest size, and measure its hole.",
        )
    start = bisect_left(drills, diameter_mm - _TIE_MM, key=lambda drill: drill.diameter_mm)
    above_mm = drills[start].diameter_mm
    off = abs(above_mm - diameter_mm)
    if not at_least and start:
        off = min(off, diameter_mm - drills[start - 1].diameter_mm)
    wanted = (diameter_mm + off,) if at_least else (diameter_mm - off, diameter_mm + off)
    return tuple(
        drill
        for drill in drills
        if any(abs(drill.diameter_mm - size_mm) <= _TIE_MM for size_mm in wanted)
    )
