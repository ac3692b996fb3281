"""Weights as a kitchen or letter scale shows them."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.typed import need_text, plain_typed, with_unit

GRAMS_PER_OUNCE = Fraction("28.349523125")
"""Exact by definition: international yard and pound agreement, 1959."""
MOST_G = 5_000
"""No head is heavier; more is a slip of unit."""

_GRAMS: dict[str, Fraction] = {
    **dict.fromkeys(("g", "gr", "gram", "grams", "gramme", "grammes"), Fraction(1)),
    **dict.fromkeys(("kg", "kilo", "kilos", "kilogram", "kilograms"), Fraction(1000)),
    **dict.fromkeys(("oz", "ounce", "ounces"), GRAMS_PER_OUNCE),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), 16 * GRAMS_PER_OUNCE),
}
_WEIGHT = re.compile(r"(?P<number>[0-9.,/ -]+?)\s*(?P<unit>[a-z]+)?\.?")
_WANTED = 'a weight such as "41 g" or "1.45 oz"'


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight:
    """A weight, exact, and the text it was read from."""

    exact_g: Fraction
    as_written: str = field(default="", compare=False)

    @property
    def kg(self) -> float:
        """Kilograms, to the nearest float."""
        return float(self.exact_g / 1000)


def parse_weight(text: object, *, where: str = "") -> Weight:
    """Read one weight with its unit.

    Parameters
    ----------
    text : object
        ``41 g``, ``0.041 kg``, ``1.45 oz``, ``1 1/2 oz``.
    where : str
        Place in the file, for the message.

    Raises
    ------
    BadInput
        Without a unit, for nothing at all, or for what no head weighs.

    Examples
    --------
    >>> parse_weight("41 g").kg, round(parse_weight("1.45 oz").kg, 4)
    (0.041, 0.0411)
    """
    example = with_unit(text, unit="g", below=MOST_G, otherwise="41 g")
    as_written = need_text(text, where=where, noun="a weight", example=example)
    found = _WEIGHT.fullmatch(plain_typed(as_written))

    def refuse(what: str, wanted: str = _WANTED, step: str = "") -> BadInput:
        return BadInput(what, where=where, given=as_written, wanted=wanted, step=step)

    if found is None:
        raise refuse("cannot be read as a weight")
    number, unit = found["number"].strip(), found["unit"] or ""
    size = parse_number(number, where=where, given=as_written, unit=unit)
    if not unit:
        raise refuse("no unit", f'"{number} g" or "{number} oz"')
    if unit not in _GRAMS:
        near = did_you_mean(unit, ("g", "kg", "oz", "lb"), likeness=0.5)
        raise refuse(f'"{unit}" is not a unit of weight here', step=near)
    grams = size * _GRAMS[unit]
    if not 0 < grams <= MOST_G:
        raise refuse("no head weighs that", step="Look at the unit and the decimal point.")
    return Weight(exact_g=grams, as_written=as_written)
