"""Weights as a kitchen or letter scale shows them."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.in_units import Units, parse_in_units
from counterhoop.quantities.typed import with_unit

GRAMS_PER_OUNCE = Fraction("28.349523125")
"""Exact by definition: international yard and pound agreement, 1959."""
MOST_G = 5_000
"""No head is heavier; more is a slip of unit."""

_UNITS = Units(
    noun="a weight",
    called="weight",
    wanted='a weight such as "41 g" or "1.45 oz"',
    example="41 g",
    sizes={
        **dict.fromkeys(("g", "gram", "grams", "gramme", "grammes"), Fraction(1)),
        **dict.fromkeys(("kg", "kilo", "kilos", "kilogram", "kilograms"), Fraction(1000)),
        **dict.fromkeys(("oz", "ounce", "ounces"), GRAMS_PER_OUNCE),
        **dict.fromkeys(("lb", "lbs", "pound", "pounds"), 16 * GRAMS_PER_OUNCE),
    },
    offered=("g", "oz", "kg", "lb"),
    refused={"gr": ('"gr" is a gram to some and a grain to others', "g")},
)


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
        Without a unit, for ``gr`` (gram or grain), for nothing at all, or for what no head weighs.

    Examples
    --------
    >>> parse_weight("41 g").kg, round(parse_weight("1.45 oz").kg, 4)
    (0.041, 0.0411)
    """
    example = with_unit(text, unit="g", below=MOST_G, otherwise=_UNITS.example)
    grams = parse_in_units(text, _UNITS, where=where, example=example)
    if not 0 < grams <= MOST_G:
        raise BadInput(
            "no head weighs that", where=where, given=text, wanted=_UNITS.wanted,
            step="Look at the unit and the decimal point.",
        )  # fmt: skip
    return Weight(exact_g=grams, as_written=str(text))
