"""Lengths as whole nanometres, for records that must compare exactly."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from counterhoop.quantities.length import Length

NM_PER_MM = 10**6


def whole_nm(length: Length) -> int:
    """Return a length in nanometres, to the nearest whole one, halves away from zero.

    A 64th of an inch is a whole number of nanometres, though not of micrometres: 25.4 mm / 64 =
    396 875 nm. A third of an inch is not; what was written is kept beside the number.

    Examples
    --------
    >>> from counterhoop.quantities.length import parse_length
    >>> whole_nm(parse_length("1/64 in")), whole_nm(parse_length("1/3 in"))
    (396875, 8466667)
    """
    exact = length.exact_mm * NM_PER_MM
    whole = (abs(exact) + Fraction(1, 2)).__floor__()
    return whole if exact >= 0 else -whole


# Few sizes are common, and a list of all drums asks for the same ones over and over.
@lru_cache(maxsize=1024)
def length_of_nm(nm: int, *, as_written: str = "") -> Length:
    """Return the length of so many nanometres, with the text that it was read from.

    Examples
    --------
    >>> length_of_nm(5 * 396875, as_written="5/64 in").exact_mm
    Fraction(127, 64)
    """
    return Length(exact_mm=Fraction(nm, NM_PER_MM), as_written=as_written)
