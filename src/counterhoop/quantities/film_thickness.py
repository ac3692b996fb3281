"""Thickness of film, as heads are sold: in mils, which are thous here."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.length import MM_PER_INCH, parse_length
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.typed import need_text, plain_typed

THIN_MM, THICK_MM = Fraction(1, 50), Fraction(1)
"""Thinner and thicker film is on no head; beyond lies a slip of unit."""
_MM_PER_UNIT: dict[str, Fraction] = {
    **dict.fromkeys(("mil", "mils"), MM_PER_INCH / 1000),
    **dict.fromkeys(("um", "µm", "μm", "micron", "microns"), Fraction(1, 1000)),
}
_FILM = re.compile(r"(?P<number>[0-9.,/ -]+?)\s*(?P<unit>[a-zµμ]+)?\.?")
_WANTED = 'the thickness of one ply, such as "10 mil" or "0.25 mm"'


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
        ``10 mil``, ``7.5 mil``, ``10 thou``, ``0.25 mm``, ``188 um``.
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
    as_written = need_text(text, where=where, noun="a thickness of film", example="10 mil")
    plain = plain_typed(as_written)
    found = _FILM.fullmatch(plain)
    if found and not found["unit"]:
        raise BadInput(
            "no unit", where=where, given=as_written, wanted=f'"{plain} mil" or "{plain} mm"'
        )
    if found and found["unit"] in _MM_PER_UNIT:
        number = parse_number(found["number"], where=where, given=as_written, unit=found["unit"])
        thick = number * _MM_PER_UNIT[found["unit"]]
    else:
        try:
            thick = parse_length(as_written).exact_mm
        except BadInput as fault:
            raise BadInput(fault.what, where=where, given=as_written, wanted=_WANTED) from fault
    if not THIN_MM <= thick <= THICK_MM:
        raise BadInput(
            "no head is made of film so thin" if thick < THIN_MM else "no head is so thick",
            where=where,
            given=as_written,
            wanted=_WANTED,
            step="Look at the unit and the decimal point.",
        )
    return FilmThickness(exact_mm=thick, as_written=as_written)
