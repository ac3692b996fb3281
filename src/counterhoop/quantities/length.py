"""Lengths as a bench writes them, read exactly; what was written is kept."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.typed import need_text, plain_typed, with_unit

MM_PER_INCH = Fraction(254, 10)
"""Exact by definition: international yard and pound agreement, 1959."""

LONGEST_MM = Fraction(10_000)
"""No length on or round a drum reaches 10 m; more is a slip of unit or of the decimal point."""

_MM_PER_UNIT: dict[str, Fraction] = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), Fraction(1)),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), Fraction(10)),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Fraction(1000)),
    **dict.fromkeys(("in", "inch", "inches", "ins", '"'), MM_PER_INCH),
    **dict.fromkeys(("ft", "foot", "feet", "'"), 12 * MM_PER_INCH),
    **dict.fromkeys(("thou", "thous"), MM_PER_INCH / 1000),
}
_INCHES = ("in", "inch", "inches", "ins", '"')
_FEET = ("ft", "foot", "feet", "'")
_PIECE = re.compile(r"""(?P<number>[0-9.,/\s+-]*)(?P<unit>[a-z]+\.?|"|')\s*""")
_TWO_SIZES = re.compile(r"""[0-9"'a-z.]\s*(?:x|\*|\bby\b)\s*[0-9.]""")
_WANTED = 'a length such as "200 mm", "5 1/2 in" or "3 ft 2 in"'


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """A length, exact, and the text it was read from.

    Two lengths are equal when they are equally long, however they were written.

    Attributes
    ----------
    exact_mm : Fraction
        Millimetres, exact.
    as_written : str
        The text as a person wrote it; empty for a computed length.

    Examples
    --------
    >>> parse_length("1 in") == parse_length("25.4 mm")
    True
    """

    exact_mm: Fraction
    as_written: str = field(default="", compare=False)

    @property
    def mm(self) -> float:
        """Millimetres, to the nearest float."""
        return float(self.exact_mm)

    def __str__(self) -> str:
        return self.as_written or f"{self.mm:g} mm"


def parse_length(
    text: object, *, where: str = "", allow_negative: bool = False, allow_zero: bool = True
) -> Length:
    """Read one length with its unit.

    Understood: ``200 mm``, ``35.5cm``, ``1,5 mm``, ``5 1/2 in``, ``5-1/2"``, ``5½″``,
    ``7/32 in``, ``.25in``, ``3' 2"``, ``3 ft 2 1/2 in``, ``250 thou``. Refused, with what to
    write: whatever has no unit or two readings. A nought alone is one in any unit.

    Parameters
    ----------
    text : object
        What stood in the file or the form; only text is understood.
    where : str
        Place in the file, for the message.
    allow_negative, allow_zero : bool
        Whether a length below zero, or of zero, makes sense in this place.

    Returns
    -------
    Length
        Exact, at most 10 m either way.

    Raises
    ------
    BadInput
        Says what to write instead.

    Examples
    --------
    >>> parse_length('5-1/2"').exact_mm, parse_length("3' 2\\"").mm
    (Fraction(1397, 10), 965.2)
    >>> parse_length("200", where="depth")
    Traceback (most recent call last):
        ...
    counterhoop.errors.BadInput: depth: no unit: found '200', wanted "200 mm" or "200 in", \
whichever the rule was marked in
    """
    as_written = need_text(
        text,
        where=where,
        noun="a length",
        example=with_unit(text, unit="mm", below=10_000, otherwise="200 mm"),
    )
    plain = plain_typed(as_written)
    sign = 1
    if plain[:1] in "+-" and plain[:1]:
        sign = -1 if plain[0] == "-" else 1
        plain = plain[1:].strip()
    size = sign * _read_pieces(plain, where=where, given=as_written)
    if size < 0 and not allow_negative:
        raise BadInput(
            "a length cannot be below zero here", where=where, given=as_written, wanted=_WANTED
        )
    if size == 0 and not allow_zero:
        raise BadInput(
            "a length of nothing makes no sense here", where=where, given=as_written, wanted=_WANTED
        )
    if abs(size) > LONGEST_MM:
        raise BadInput(
            "impossible for a drum: more than 10 m",
            where=where,
            given=as_written,
            wanted=_WANTED,
            step="Look at the unit and the decimal point.",
        )
    return Length(exact_mm=size, as_written=as_written)


def _read_pieces(plain: str, *, where: str, given: str) -> Fraction:
    pieces = _pieces(plain, where=where, given=given)
    sizes = [
        parse_number(number, where=where, given=given, unit=unit) * _MM_PER_UNIT[unit]
        for number, unit in pieces
    ]
    units = [unit for _, unit in pieces]
    if len(pieces) == 1:
        return sizes[0]
    if len(pieces) == 2 and units[0] in _FEET and units[1] in _INCHES:
        if not pieces[0][0].isdigit():
            raise BadInput(
                "inches beside a part of a foot", where=where, given=given, wanted='"3 ft 2 in"'
            )
        if sizes[1] >= 12 * MM_PER_INCH:
            raise BadInput(
                "twelve inches or more beside feet",
                where=where,
                given=given,
                wanted='fewer than 12 inches beside the feet, such as "3 ft 2 in"',
            )
        return sizes[0] + sizes[1]
    raise BadInput("more than one length", where=where, given=given, wanted=_WANTED)


def _pieces(plain: str, *, where: str, given: str) -> list[tuple[str, str]]:
    def refuse(what: str, wanted: str = _WANTED, step: str = "") -> BadInput:
        return BadInput(what, where=where, given=given, wanted=wanted, step=step)

    if re.search(r"\b(nan|inf|infinity)\b", plain):
        raise refuse("not a number that can be measured")
    if re.search(r"[0-9.]\s*e\s*[+-]?\s*[0-9]", plain):
        raise refuse("a power of ten", 'the number written out, such as "1000 mm"')
    if _TWO_SIZES.search(plain):
        raise refuse(
            "two sizes where one length belongs",
            _WANTED,
            'The size of a drum is written "14 in dia x 5.5 in deep".',
        )
    pieces: list[tuple[str, str]] = []
    place = 0
    while place < len(plain):
        found = _PIECE.match(plain, place)
        if found is None:
            rest = plain[place:]
            if not re.fullmatch(r"[0-9.,/\s+-]+", rest):
                raise refuse("cannot be read as one length")
            if pieces:
                raise refuse(
                    f'no unit on "{rest}"', f'"{plain} in"' if pieces[-1][1] in _FEET else _WANTED
                )
            if parse_number(rest, where=where, given=given, unit="mm") == 0:
                return [(rest, "mm")]
            raise refuse("no unit", f'"{rest} mm" or "{rest} in", whichever the rule was marked in')
        number, unit = found["number"].strip(), found["unit"].rstrip(".")
        if unit in ("mil", "mils"):
            raise refuse(
                f'"{unit}" is a thou to some and a millimetre to others',
                f'"{number} thou" or "{number} mm"',
            )
        if unit not in _MM_PER_UNIT:
            near = did_you_mean(unit, ("mm", "cm", "in", "ft", "thou"), likeness=0.5)
            raise refuse(f'"{unit}" is not a unit of length', step=near)
        if not number:
            raise refuse("a unit without a number")
        pieces.append((number, unit))
        place = found.end()
    if not pieces:
        raise refuse("no number")
    return pieces
