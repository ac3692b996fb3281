"""Forces: the pull of a rod."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.typed import need_text, plain_typed, with_unit

NEWTONS_PER_KGF = Fraction("9.80665")
"""Exact: standard gravity, 3rd General Conference on Weights and Measures, 1901."""
NEWTONS_PER_LBF = NEWTONS_PER_KGF * Fraction("0.45359237")
MOST_N = 20_000
"""No rod of a drum stands more; more is a slip of unit."""

_NEWTONS: dict[str, Fraction] = {
    **dict.fromkeys(("n", "newton", "newtons"), Fraction(1)),
    **dict.fromkeys(("kn",), Fraction(1000)),
    **dict.fromkeys(("kgf", "kp"), NEWTONS_PER_KGF),
    **dict.fromkeys(("lbf",), NEWTONS_PER_LBF),
}
_WEIGHTS = {"kg": "kgf", "lb": "lbf", "lbs": "lbf"}
_FORCE = re.compile(r"(?P<number>[0-9.,/ ]+?)\s*(?P<unit>[a-z]+)?\.?")
_WANTED = 'a force such as "400 N" or "90 lbf"'


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
    example = with_unit(text, unit="N", below=MOST_N, otherwise="400 N")
    as_written = need_text(text, where=where, noun="a force", example=example)
    found = _FORCE.fullmatch(plain_typed(as_written))

    def refuse(what: str, wanted: str = _WANTED, step: str = "") -> BadInput:
        return BadInput(what, where=where, given=as_written, wanted=wanted, step=step)

    if found is None:
        raise refuse("cannot be read as a force")
    number, unit = found["number"].strip(), found["unit"] or ""
    size = parse_number(number, where=where, given=as_written, unit=unit)
    if not unit:
        raise refuse("no unit", f'"{number} N" or "{number} lbf"')
    if unit in _WEIGHTS:
        raise refuse(f'"{unit}" is a weight', f'"{number} {_WEIGHTS[unit]}" for that pull')
    if unit not in _NEWTONS:
        near = did_you_mean(unit, ("N", "kN", "kgf", "lbf"), likeness=0.5)
        raise refuse(f'"{unit}" is not a unit of force here', step=near)
    force = size * _NEWTONS[unit]
    if not 0 < force <= MOST_N:
        raise refuse("no rod of a drum pulls so", step="Look at the unit and the decimal point.")
    return Force(exact_n=force, as_written=as_written)
