"""Differences of pitch in cents, hundredths of a semitone."""

from __future__ import annotations

from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.in_units import Units, parse_in_units
from counterhoop.quantities.typed import with_unit

_SEMITONE = 100
_UNITS = Units(
    noun="cents",
    called="pitch",
    wanted='cents such as "10 cents"',
    example="10 cents",
    sizes=dict.fromkeys(("cents", "cent", "ct", "c"), Fraction(1)),
    offered=("cents",),
    refused={},
)


def parse_cents(text: object, *, where: str = "") -> float:
    """Read how far two pitches are apart, more than 0 to 100 cents.

    Parameters
    ----------
    text : object
        ``10 cents``, ``7 1/2 cents``.
    where : str
        Place in the file, for the message.

    Raises
    ------
    BadInput
        Says what to write instead.

    Examples
    --------
    >>> parse_cents("7.5 cents")
    7.5
    >>> parse_cents("8", where="rules.even_enough")
    Traceback (most recent call last):
        ...
    counterhoop.errors.BadInput: rules.even_enough: no unit: found '8', wanted "8 cents"
    """
    example = with_unit(text, unit="cents", below=_SEMITONE, otherwise=_UNITS.example)
    cents = float(parse_in_units(text, _UNITS, where=where, example=example))
    if not 0.0 < cents <= _SEMITONE:
        raise BadInput("not a part of a semitone", where=where, given=text, wanted=_UNITS.wanted)
    return cents
