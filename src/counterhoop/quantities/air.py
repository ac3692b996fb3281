"""Temperature and humidity of a room, as its thermometer and hygrometer show them."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.typed import need_text, plain_typed

LEAST_C, MOST_C = -20, 50
"""No bench is colder or warmer; beyond lies a slip of unit."""
_TEMPERATURE = re.compile(
    r"(?P<sign>[+-]?)\s*(?P<number>[0-9.,/ ]+?)\s*(?:(?:deg(?:rees?)?\.?|°)\s*)?(?P<unit>[a-z]+)?"
)
_CELSIUS, _FAHRENHEIT = ("c", "celsius"), ("f", "fahrenheit")
_PERCENT = re.compile(r"(?P<number>[0-9.,/ ]+?)\s*(?P<unit>%|per ?cent)?\s*(?:r\.?h\.?)?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Temperature:
    """A temperature, exact, and the text it was read from."""

    exact_c: Fraction
    as_written: str = field(default="", compare=False)

    @property
    def celsius(self) -> float:
        """Degrees Celsius, to the nearest float."""
        return float(self.exact_c)


@dataclass(frozen=True, slots=True, kw_only=True)
class Percent:
    """A share in hundredths, from 0 to 100, and the text it was read from."""

    exact: Fraction
    as_written: str = field(default="", compare=False)

    @property
    def percent(self) -> float:
        """Per cent, to the nearest float."""
        return float(self.exact)


def parse_temperature(text: object, *, where: str = "") -> Temperature:
    """Read the temperature of a room.

    Parameters
    ----------
    text : object
        ``18 C``, ``18.5°C``, ``64 F``, ``64 deg F``.
    where : str
        Place in the file, for the message.

    Raises
    ------
    BadInput
        Without C or F, or for what no room has.

    Examples
    --------
    >>> parse_temperature("18 C").celsius, parse_temperature("64.4 F").celsius
    (18.0, 18.0)
    """
    as_written = need_text(text, where=where, noun="a temperature", example="18 C")
    plain = plain_typed(as_written)
    wanted = 'a temperature such as "18 C" or "64 F"'
    found = _TEMPERATURE.fullmatch(plain)
    if found is None:
        raise BadInput(
            "cannot be read as a temperature", where=where, given=as_written, wanted=wanted
        )
    unit, number = found["unit"] or "", found["number"].strip()
    size = parse_number(number, where=where, given=as_written, unit=unit.upper())
    size = -size if found["sign"] == "-" else size
    if not unit:
        raise BadInput(
            "no unit", where=where, given=as_written, wanted=f'"{number} C" or "{number} F"'
        )
    if unit not in (*_CELSIUS, *_FAHRENHEIT):
        raise BadInput(
            f'"{unit}" is not a unit of temperature here',
            where=where,
            given=as_written,
            wanted=wanted,
        )
    if unit in _FAHRENHEIT:
        size = (size - 32) * Fraction(5, 9)
    if not LEAST_C <= size <= MOST_C:
        raise BadInput(
            "no bench is that cold" if size < LEAST_C else "no bench is that warm",
            where=where,
            given=as_written,
            wanted=wanted,
            step="Is it the other unit?",
        )
    return Temperature(exact_c=size, as_written=as_written)


def parse_percent(text: object, *, where: str = "") -> Percent:
    """Read a share in hundredths, from 0 to 100.

    Parameters
    ----------
    text : object
        ``55 %``, ``55 per cent``, ``55 % RH``.
    where : str
        Place in the file, for the message.

    Raises
    ------
    BadInput
        Without its sign, above 100, or for what looks like a share of 1.

    Examples
    --------
    >>> parse_percent("55 %").percent
    55.0
    """
    as_written = need_text(text, where=where, noun="a humidity", example="55 %")
    wanted = 'a humidity from 0 to 100 per cent, such as "55 %"'
    found = _PERCENT.fullmatch(plain_typed(as_written))
    if found is None:
        raise BadInput("cannot be read as per cent", where=where, given=as_written, wanted=wanted)
    number = found["number"].strip()
    size = parse_number(number, where=where, given=as_written, unit="%")
    if found["unit"] is None:
        raise BadInput("no unit", where=where, given=as_written, wanted=f'"{number} %"')
    if size > 100:
        raise BadInput("outside 0 to 100 per cent", where=where, given=as_written, wanted=wanted)
    if 0 < size <= 1:
        raise BadInput(
            "a share of one, it seems, beside the sign for hundredths",
            where=where,
            given=as_written,
            wanted=f'"{float(size * 100):g} %"',
        )
    return Percent(exact=size, as_written=as_written)
