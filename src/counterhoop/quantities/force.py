"""Forces: the pull of a rod."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.in_units import Units, parse_in_units
from counterhoop.quantities.typed import with_unit

NEWTONS_PER_KGF = Fraction("9.80665")
"""Exact: standard gravity, 3rd General Conference on Weights and Measures, 1901."""
NEWTONS_PER_LBF = NEWTONS_PER_KGF * Fraction("0.45359237")
MOST_N = 20_000
"""No rod of a drum stands more; more is a slip of unit."""

_UNITS = Units(
    noun="a force",
    called="force",
    wanted='a force such as "400 N" or "90 lbf"',
    example="400 N",
    sizes={
        **dict.fromkeys(("n", "newton", "newtons"), Fraction(1)),
        "kn": Fraction(1000),
        **dict.fromkeys(("kgf", "kp"), NEWTONS_PER_KGF),
        "lbf": NEWTONS_PER_LBF,
    },
    offered=("N", "lbf", "kN", "kgf"),
    refused={
        **{unit: (f'"{unit}" is a weight', "kgf") for unit in ("kg", "kilo", "kilos")},
        **{unit: (f'"{unit}" is a weight', "lbf") for unit in ("lb", "lbs", "pound", "pounds")},
    },
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Force:
    """A force, exact, and the text it was read from."""

    exact_n: Fraction
    as_written: str = field(default="", compare=False)

    @property
    def newtons(self) -> float:
        """Newtons, to the nearest float."""
        return float(self.exact_n)


def parse_force(text: object, *, where: str = "") -> Force:
    """Read one force with its unit.

    Parameters
    ----------
    text : object
        ``400 N``, ``0.4 kN``, ``40 kgf``, ``90 lbf``.
    where : str
        Place in the file, for the message.

    Raises
    ------
    BadInput
        Without a unit, for a unit of weight, for nothing, or for what no rod stands.

    Examples
    --------
    >>> parse_force("400 N").newtons, round(parse_force("90 lbf").newtons, 1)
    (400.0, 400.3)
    """
    example = with_unit(text, unit="N", below=MOST_N, otherwise=_UNITS.example)
    force = parse_in_units(text, _UNITS, where=where, example=example)
    if not 0 < force <= MOST_N:
        raise BadInput(
            "no rod of a drum pulls so", where=where, given=text, wanted=_UNITS.wanted,
            step="Look at the unit and the decimal point.",
        )  # fmt: skip
    return Force(exact_n=force, as_written=str(text))
