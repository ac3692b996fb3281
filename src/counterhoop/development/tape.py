"""What a tape reads, and what the shell measures under it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from counterhoop.development.closing import Closing, close_gaps
from counterhoop.errors import BadInput

__all__ = [
    "Closing",
    "along_deg_read",
    "bare_girth_mm",
    "close_gaps",
    "girth_from_diameters_mm",
    "girth_mm",
    "girth_over_mm",
]

# Two readings of 0.5 mm: as far as a place at the datum may read past once round.
PAST_THE_DATUM_MM = 1.0


def girth_mm(read_mm: float, *, tape_mm: float) -> float:
    """Circumference of the skin under a tape of a given thickness.

    The tape bends about its own middle, so it reads the circle half its thickness outside the
    skin: ``C = read - pi t``. A diameter tape is ruled with that allowed for: give 0.

    Examples
    --------
    >>> round(girth_mm(951.28, tape_mm=0.2), 2)
    950.65
    """
    _over_nothing(read_mm, "read_mm")
    if not 0.0 <= tape_mm <= 3.0:
        raise BadInput(
            "no tape is that thick",
            where="tape_mm",
            given=tape_mm,
            wanted="its thickness in mm, such as 0.2",
        )
    return read_mm - math.pi * tape_mm


def girth_from_diameters_mm(diameters_mm: Sequence[float]) -> float:
    """Circumference from diameters across alone: pi times their mean.

    Exact for a shell out of round by an oval read at two diameters square to each other, to first
    order in the difference; diameters cannot see three-lobed shells. A tape is better.

    Examples
    --------
    >>> round(girth_from_diameters_mm([302.2, 303.0]), 2)
    950.65
    """
    if not diameters_mm:
        raise BadInput(
            "there is no diameter to go by", where="diameters_mm", wanted="one or more, in mm"
        )
    for diameter_mm in diameters_mm:
        _over_nothing(diameter_mm, "diameters_mm")
    return math.pi * math.fsum(diameters_mm) / len(diameters_mm)


def along_deg_read(reading_mm: float, *, read_girth_mm: float) -> float:
    """Angle of a place read with the tape lying on the datum.

    Place and circumference are read with the same tape, so its thickness drops out.

    Parameters
    ----------
    reading_mm : float
        To the right of the datum; to the left of it negative.
    read_girth_mm : float
        What the same tape reads once round, not corrected.

    Returns
    -------
    float
        Degrees in [0, 360).

    Examples
    --------
    >>> along_deg_read(317.0, read_girth_mm=951.0)
    120.0
    """
    _over_nothing(read_girth_mm, "read_girth_mm")
    if not abs(reading_mm) <= read_girth_mm + PAST_THE_DATUM_MM:
        raise BadInput(
            "the place lies more than once round the shell",
            where="reading_mm",
            given=reading_mm,
            wanted=f"up to {read_girth_mm:.1f} mm, what the tape reads once round",
        )
    return (360.0 * reading_mm / read_girth_mm) % 360.0 % 360.0


def girth_over_mm(bare_girth_mm: float, *, thickness_mm: float) -> float:
    """Circumference over a finish of a given thickness: bare plus 2 pi t.

    Examples
    --------
    Half a millimetre of wrap:

    >>> round(girth_over_mm(1000.0, thickness_mm=0.5) - 1000.0, 2)
    3.14
    """
    _over_nothing(bare_girth_mm, "bare_girth_mm")
    return bare_girth_mm + 2.0 * math.pi * _thickness(thickness_mm)


def bare_girth_mm(girth_mm: float, *, thickness_mm: float) -> float:
    """Circumference of the bare wood under a finish: the girth over it less 2 pi t."""
    _over_nothing(girth_mm, "girth_mm")
    bare = girth_mm - 2.0 * math.pi * _thickness(thickness_mm)
    _over_nothing(bare, "thickness_mm")
    return bare


def _thickness(thickness_mm: float) -> float:
    if not 0.0 <= thickness_mm < math.inf:
        raise BadInput(
            "a finish is not thinner than nothing",
            where="thickness_mm",
            given=thickness_mm,
            wanted="0 or more, in mm",
        )
    return thickness_mm


def _over_nothing(value_mm: float, where: str) -> None:
    if not 0.0 < value_mm < math.inf:
        raise BadInput(
            "a length round or across a shell is more than nothing",
            where=where,
            given=value_mm,
            wanted="a length in mm, such as 950.5",
        )
