"""A parcel against what a carrier takes: longest side, length and girth, weight."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.errors import BadInput, Finding, Grade
from counterhoop.quantities.print_length import print_mm

TAPE_DOUBT_MM = 10.0
"""A packed box bulges and its corners crush. Common practice, no source."""
SCALE_DOUBT_KG = 0.1
"""Of a bathroom or hanging scale. Common practice, no source."""
_TO_MM = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Parcel:
    """A packed box, measured over all."""

    sides_mm: tuple[float, float, float]
    weight_kg: float

    def __post_init__(self) -> None:
        sizes = (*self.sides_mm, self.weight_kg)
        if not all(math.isfinite(size) and size > 0.0 for size in sizes):
            raise BadInput("a parcel without a size", where="parcel", given=sizes)

    @property
    def longest_mm(self) -> float:
        """The longest side, which carriers call the length."""
        return max(self.sides_mm)

    @property
    def girth_mm(self) -> float:
        """Once round the two shorter sides."""
        return 2.0 * (sum(self.sides_mm) - self.longest_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What the carrier takes, typed from the carrier's own paper; None for not typed.

    Attributes
    ----------
    carrier : str
        Which service, and of which day the paper is.
    longest_mm, length_and_girth_mm, weight_kg : float or None
    """

    carrier: str
    longest_mm: float | None = None
    length_and_girth_mm: float | None = None
    weight_kg: float | None = None


def against_limits(parcel: Parcel, limits: Limits) -> tuple[Finding, ...]:
    """Hold a parcel against what was typed of the carrier's limits.

    Over the limit is *stop*; within the doubt of tape or scale is *take care* and too close to
    call; a limit that nobody typed is a *note*.

    Examples
    --------
    A box of 500 x 500 x 300 mm is 500 long and 1600 round, 2100 together:

    >>> box = Parcel(sides_mm=(500, 300, 500), weight_kg=6)
    >>> held = Limits(carrier="post", longest_mm=600, length_and_girth_mm=2500, weight_kg=5)
    >>> [found.says for found in against_limits(box, held)]
    ['The parcel weighs 6.0 kg, and post takes 5 kg.']
    """
    asked = (
        ("longest", "is", parcel.longest_mm, limits.longest_mm, TAPE_DOUBT_MM, "mm", "long"),
        (
            "girth", "is", parcel.longest_mm + parcel.girth_mm, limits.length_and_girth_mm,
            3.0 * TAPE_DOUBT_MM, "mm", "by length and girth together",
        ),
        ("weight", "weighs", parcel.weight_kg, limits.weight_kg, SCALE_DOUBT_KG, "kg", ""),
    )  # fmt: skip
    found, untyped = [], []
    for name, verb, measured, limit, doubt, unit, how in asked:
        if limit is None:
            untyped.append({"longest": "length", "girth": "length and girth"}.get(name, name))
            continue
        if measured <= limit - doubt:
            continue
        close = measured < limit + doubt
        says = (
            f"The parcel {verb} {_said(measured, unit)}{' ' + how if how else ''}, and "
            f"{limits.carrier or 'the carrier'} takes {_said(limit, unit, typed=True)}"
        )
        found.append(
            Finding(
                code=f"parcel-{name}",
                grade=Grade.TAKE_CARE if close else Grade.STOP,
                says=f"{says}{': too close to call' if close else ''}.",
                where="parcel",
                measured=measured,
                limit=limit,
                doubt=doubt,
                unit=unit,
                rule=limits.carrier or "the carrier's limits",
                remedy="Measure and weigh it again, packed."
                if close
                else "Send hoops and fittings apart, or ask another carrier.",
                too_close=close,
            )
        )
    if untyped:
        found.append(
            Finding(
                code="parcel-limits-untyped",
                grade=Grade.NOTE,
                says=f"Not checked, no limit typed: {', '.join(untyped)}.",
                where="parcel",
                unit="",
                rule="the carrier's limits",
                remedy="Type them from the carrier's own paper.",
            )
        )
    return tuple(found)


def _said(size: float, unit: str, *, typed: bool = False) -> str:
    """Print a size no finer than it was measured; a limit as it was typed."""
    if typed:
        return f"{size:g} {unit}"
    return print_mm(size, resolution_mm=_TO_MM) if unit == "mm" else f"{size:.1f} kg"
