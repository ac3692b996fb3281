"""Lengths as a rule shows them: never finer than the instrument, inches in fractions."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.quantities.length import MM_PER_INCH

TAPE_MM = 0.5
"""What a tape or a steel rule is read to."""
CALIPER_MM = 0.1
"""What a vernier or dial caliper is read to on a drum."""


@lru_cache(maxsize=4096)
def nearest_step(value: float, *, step: Fraction) -> Fraction:
    """Return the multiple of ``step`` nearest to ``value``; halves go away from zero.

    The value is taken as it would be written with nine decimals, so that 0.15 counts as the
    half that it looks like and not as the float just below it.

    Examples
    --------
    >>> nearest_step(0.15, step=Fraction(1, 10)), nearest_step(-0.25, step=Fraction(1, 2))
    (Fraction(1, 5), Fraction(-1, 2))
    """
    if not math.isfinite(value):
        raise BadInput("a size that is not a number cannot be printed", given=value)
    steps = abs(Fraction(Decimal(repr(round(value, 9))))) / step
    whole = math.floor(steps + Fraction(1, 2))
    return (whole if value >= 0 else -whole) * step


# A drawing says the same few hundred lengths again and again while a row is dragged.
@lru_cache(maxsize=8192)
def print_mm(value_mm: float, *, resolution_mm: float = TAPE_MM, with_unit: bool = True) -> str:
    """Print millimetres to the nearest ``resolution_mm``.

    A resolution of 0.1 or 0.01 always shows its decimals (the instrument gave them); one of
    0.5 shows a half only where there is one, as it is read off a rule. An instrument marked in
    inches has no whole millimetre step: the next coarser of 1, 2 or 5 is taken, with its tens.

    Examples
    --------
    >>> print_mm(356.39), print_mm(203.0), print_mm(203.0, resolution_mm=0.1)
    ('356.5 mm', '203 mm', '203.0 mm')
    >>> print_mm(355.203125, resolution_mm=25.4 / 64), print_mm(0.1016, resolution_mm=0.0254)
    ('355 mm', '0.1 mm')
    """
    if not math.isfinite(resolution_mm) or resolution_mm <= 0:
        raise BadInput("the finest step must be above zero", given=resolution_mm, wanted="0.5")
    step = _printed_step(resolution_mm)
    shown = _in_figures(nearest_step(value_mm, step=step), step)
    return f"{shown} mm" if with_unit else shown


def _in_figures(rounded: Fraction, step: Fraction) -> str:
    places = _decimals(step)
    shown = f"{float(rounded) + 0.0:.{places}f}"
    if step.numerator != 1 or step != Fraction(1, 10**places):
        shown = shown.rstrip("0").rstrip(".") if "." in shown else shown
    return shown


@lru_cache
def _printed_step(resolution_mm: float) -> Fraction:
    """Return a step that prints in at most two figures, never finer than the one given."""
    step = Fraction(Decimal(repr(resolution_mm)))
    tens = Fraction(10) ** math.floor(math.log10(resolution_mm))
    if (step / tens * 10).denominator == 1:
        return step
    return next(tens * first for first in (1, 2, 5, 10) if tens * first >= step)


@lru_cache
def _decimals(step: Fraction) -> int:
    places = 0
    while (step * 10**places).denominator != 1:
        places += 1
    return places


def print_inch(value_mm: float, *, denominator: int = 32, with_unit: bool = True) -> str:
    """Print inches as a whole number and a fraction in its lowest terms.

    Parameters
    ----------
    value_mm : float
        The length in millimetres.
    denominator : int
        The finest mark of the rule: 2, 4, 8, 16, 32, 64 or 128.
    with_unit : bool
        Whether " in" follows.

    Examples
    --------
    >>> print_inch(356.39), print_inch(5.55625), print_inch(203.2)
    ('14 1/32 in', '7/32 in', '8 in')
    """
    if denominator not in (1, 2, 4, 8, 16, 32, 64, 128):
        raise BadInput(
            "no rule is marked so", given=denominator, wanted="2, 4, 8, 16, 32, 64 or 128"
        )
    inches = nearest_step(value_mm / float(MM_PER_INCH), step=Fraction(1, denominator))
    whole, part = divmod(abs(inches), 1)
    shown = f"{whole} {part}" if whole and part else f"{part}" if part else f"{whole}"
    sign = "-" if inches < 0 else ""
    return f"{sign}{shown} in" if with_unit else f"{sign}{shown}"


def print_length(
    value_mm: float,
    *,
    units: Literal["mm", "in"] = "mm",
    resolution_mm: float = TAPE_MM,
    denominator: int = 32,
) -> str:
    """Print a length both ways, the unit the workshop reads first and the other beside it.

    Examples
    --------
    >>> print_length(356.39), print_length(139.7, units="in")
    ('356.5 mm (14 1/32 in)', '5 1/2 in (139.5 mm)')
    """
    metric = print_mm(value_mm, resolution_mm=resolution_mm)
    inches = print_inch(value_mm, denominator=denominator)
    if units not in ("mm", "in"):
        raise BadInput("not a unit to print in", given=units, wanted='"mm" or "in"')
    return f"{metric} ({inches})" if units == "mm" else f"{inches} ({metric})"
