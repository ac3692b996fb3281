"""Angles: places round the shell and leans, in degrees."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.print_length import nearest_step
from counterhoop.quantities.typed import need_text, plain_typed, with_unit

_UNITS = ("deg", "degs", "degree", "degrees", "°")
_ANGLE = re.compile(r"(?P<sign>[+-]?)\s*(?P<number>[0-9.,/\s-]+?)\s*(?P<unit>[a-z]+\.?|°)?")
_WANTED = 'an angle such as "22.5 deg"'


@dataclass(frozen=True, slots=True, kw_only=True)
class Angle:
    """An angle, exact, and the text it was read from.

    Attributes
    ----------
    exact_deg : Fraction
        Degrees, exact, as written: 360 stays 360 here; ``turned_deg`` brings it to 0.
    as_written : str
        The text as a person wrote it; not compared.
    """

    exact_deg: Fraction
    as_written: str = field(default="", compare=False)

    @property
    def deg(self) -> float:
        """Degrees as written, to the nearest float."""
        return float(self.exact_deg)

    @property
    def turned_deg(self) -> float:
        """The same direction in [0, 360)."""
        return float(self.exact_deg % 360)

    def __str__(self) -> str:
        return self.as_written or f"{self.deg:g} deg"


def parse_angle(text: object, *, where: str = "", allow_negative: bool = False) -> Angle:
    """Read one angle with its unit, from 0 to 360 degrees.

    Parameters
    ----------
    text : object
        ``22.5 deg``, ``22.5°``, ``22 1/2 degrees``, ``22,5 deg``.
    where : str
        Place in the file, for the message.
    allow_negative : bool
        Whether an angle below zero makes sense here (an offset does, a place does not).

    Raises
    ------
    BadInput
        Says what to write instead.

    Examples
    --------
    >>> parse_angle("22.5°").deg, parse_angle("360 deg").turned_deg
    (22.5, 0.0)
    >>> parse_angle("90", where="vent.along")
    Traceback (most recent call last):
        ...
    counterhoop.errors.BadInput: vent.along: no unit: found '90', wanted "90 deg"
    """
    as_written = need_text(
        text,
        where=where,
        noun="an angle",
        example=with_unit(text, unit="deg", below=360, otherwise="22.5 deg"),
    )
    found = _ANGLE.fullmatch(plain_typed(as_written))
    if found is None:
        raise BadInput("cannot be read as one angle", where=where, given=as_written, wanted=_WANTED)
    unit = (found["unit"] or "").rstrip(".")
    if unit and unit not in _UNITS:
        raise BadInput(
            f'"{unit}" is not a unit of angle',
            where=where,
            given=as_written,
            wanted=_WANTED,
            step=did_you_mean(unit, _UNITS),
        )
    size = parse_number(found["number"], where=where, given=as_written, unit="deg")
    if not unit:
        raise BadInput(
            "no unit", where=where, given=as_written, wanted=f'"{found["number"].strip()} deg"'
        )
    if size > 360:
        raise BadInput("more than a full turn", where=where, given=as_written, wanted=_WANTED)
    if found["sign"] == "-" and size:
        if not allow_negative:
            raise BadInput(
                "an angle cannot be below zero here",
                where=where,
                given=as_written,
                wanted=f'"{float(360 - size):g} deg" for the same place',
            )
        size = -size
    return Angle(exact_deg=size, as_written=as_written)


def turned_deg(along_deg: float) -> float:
    """Return the same direction in [0, 360).

    Examples
    --------
    >>> turned_deg(-30.0), turned_deg(720.0), turned_deg(-1e-18)
    (330.0, 0.0, 0.0)
    """
    turned = math.fmod(along_deg, 360.0)
    if turned < 0:
        turned += 360.0
    return 0.0 if turned == 360.0 else turned + 0.0


def difference_deg(to_deg: float, *, from_deg: float) -> float:
    """Return the shorter way round from one direction to another, in [-180, 180).

    Positive is along: to the right as one looks at the outside with the batter edge up.

    Examples
    --------
    >>> difference_deg(10.0, from_deg=350.0), difference_deg(350.0, from_deg=10.0)
    (20.0, -20.0)
    """
    return turned_deg(to_deg - from_deg + 180.0) - 180.0


def print_deg(value_deg: float, *, resolution_deg: float = 0.1) -> str:
    """Print degrees to the nearest ``resolution_deg``, without trailing zeros.

    Examples
    --------
    >>> print_deg(22.5), print_deg(90.0), print_deg(359.98)
    ('22.5 deg', '90 deg', '360 deg')
    """
    rounded = nearest_step(value_deg, step=Fraction(str(resolution_deg)))
    return f"{float(rounded) + 0.0:.10g} deg"
