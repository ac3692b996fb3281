"""Thickness of film, as heads are sold: in mils, which are thous here."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.in_units import Units, parse_in_units
from counterhoop.quantities.length import MM_PER_INCH

THIN_MM, THICK_MM = Fraction(1, 50), Fraction(1)
"""Thinner and thicker film is on no head; beyond lies a slip of unit."""
_UNITS = Units(
    noun="a thickness of film",
    called="thickness",
    wanted='the thickness of one ply, such as "10 mil" or "0.25 mm"',
    example="10 mil",
    sizes={
        **dict.fromkeys(("mil", "mils", "thou", "thous"), MM_PER_INCH / 1000),
        **dict.fromkeys(("um", "µm", "μm", "micron", "microns"), Fraction(1, 1000)),
        **dict.fromkeys(("mm", "millimetre", "millimetres"), Fraction(1)),
        **dict.fromkeys(("in", "inch", "inches", '"'), MM_PER_INCH),
    },
    offered=("mil", "mm", "thou", "um", "in"),
    refused={},
)


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmThickness:
    """How thick one ply is, exact, and the text it was read from."""

    exact_mm: Fraction
    as_written: str = field(default="", compare=False)

    @property
    def metres(self) -> float:
        """Metres, to the nearest float."""
        return float(self.exact_mm / 1000)


def parse_film_thickness(text: object, *, where: str = "") -> FilmThickness:
    """Read the thickness of one ply of film.

    A mil is a thou here: film of ten millimetres there is none.

    Parameters
    ----------
    text : object
        ``10 mil``, ``7.5 mil``, ``10 thou``, ``0.25 mm``, ``188 um``, ``.010 in``.
    where : str
        Place in the file, for the message.

    Raises
    ------
    BadInput
        Without a unit, or for what no head is made of.

    Examples
    --------
    >>> parse_film_thickness("10 mil").exact_mm, parse_film_thickness("188 um").metres
    (Fraction(127, 500), 0.000188)
    """
    thick = parse_in_units(text, _UNITS, where=where)
    if not THIN_MM <= thick <= THICK_MM:
        raise BadInput(
            "no head is made of film so thin" if thick < THIN_MM else "no head is so thick",
            where=where, given=text, wanted=_UNITS.wanted,
            step="Look at the unit and the decimal point.",
        )  # fmt: skip
    return FilmThickness(exact_mm=thick, as_written=str(text))
