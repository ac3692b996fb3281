"""One number beside one unit, for whatever is not a length."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.typed import need_text, plain_typed

_ONE = re.compile(r"(?P<number>[0-9.,/ -]+?)\s*(?P<unit>[a-zµμ]+|\")?\.?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Units:
    """How one kind of quantity is written.

    Attributes
    ----------
    noun, called : str
        With its article ("a weight"); as one speaks of its units ("weight").
    wanted, example : str
        What would have been understood; what to put in the place of nothing.
    sizes : mapping of str to Fraction
        How much each unit is of the first, by all its spellings in lower case.
    offered : sequence of str
        The usual ones as they are spelled, likeliest first.
    refused : mapping of str to (str, str)
        Units that mean something else: what is wrong, and the unit that would do.
    """

    noun: str
    called: str
    wanted: str
    example: str
    sizes: Mapping[str, Fraction]
    offered: Sequence[str]
    refused: Mapping[str, tuple[str, str]]


def parse_in_units(text: object, units: Units, *, where: str = "", example: str = "") -> Fraction:
    """Read one number with its unit.

    Parameters
    ----------
    text : object
        What stood in the file or the form.
    units : Units
        What it may be in.
    where : str
        Place in the file, for the message.
    example : str
        What would be understood; that of ``units`` if left out.

    Returns
    -------
    Fraction
        In the unit whose size is 1; exact, zero or more.

    Raises
    ------
    BadInput
        Without a unit, in one that is not known or means two things, and for what has no single
        reading: see ``number.parse_number``.

    Examples
    --------
    >>> cups = Units(noun="a volume", called="volume", wanted='a volume such as "1 l"',
    ...              example="1 l", sizes={"l": Fraction(1), "ml": Fraction(1, 1000)},
    ...              offered=("ml", "l"), refused={})
    >>> parse_in_units("1 1/2 l", cups), parse_in_units("250ml", cups)
    (Fraction(3, 2), Fraction(1, 4))
    """
    as_written = need_text(text, where=where, noun=units.noun, example=example or units.example)
    plain = plain_typed(as_written)

    def refuse(what: str, wanted: str = units.wanted, step: str = "") -> BadInput:
        return BadInput(what, where=where, given=as_written, wanted=wanted, step=step)

    if plain.startswith("-"):
        raise refuse(f"{units.noun} is never below nothing")
    found = _ONE.fullmatch(plain)
    if found is None:
        raise refuse(f"cannot be read as {units.noun}")
    number, unit = found["number"].strip(), found["unit"] or ""
    spelled = next((one for one in units.offered if one.lower() == unit), unit)
    if unit in units.refused:
        what, instead = units.refused[unit]
        raise refuse(what, f'"{number} {instead}"')
    if unit and unit not in units.sizes:
        near = did_you_mean(unit, units.offered, likeness=0.5)
        raise refuse(f'"{unit}" is not a unit of {units.called} here', step=near)
    size = parse_number(number, where=where, given=as_written, unit=spelled)
    if not unit:
        raise refuse("no unit", " or ".join(f'"{number} {one}"' for one in units.offered[:2]))
    return size * units.sizes[unit]
