"""Differences of pitch in cents, hundredths of a semitone."""

from __future__ import annotations

import re

from counterhoop.errors import BadInput
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.typed import need_text, plain_typed, with_unit

_CENTS = re.compile(r"(?P<number>[0-9.,/\s-]+?)\s*(?P<unit>cents?)?")
_SEMITONE = 100
_WANTED = 'cents such as "10 cents"'


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
    as_written = need_text(
        text, where=where, noun="cents",
        example=with_unit(text, unit="cents", below=_SEMITONE, otherwise="10 cents"),
    )  # fmt: skip
    found = _CENTS.fullmatch(plain_typed(as_written))
    if found is None:
        raise BadInput("cannot be read as cents", where=where, given=as_written, wanted=_WANTED)
    cents = float(parse_number(found["number"], where=where, given=as_written, unit="cents"))
    if not found["unit"]:
        raise BadInput(
            "no unit", where=where, given=as_written, wanted=f'"{found["number"].strip()} cents"'
        )
    if not 0.0 < cents <= _SEMITONE:
        raise BadInput("not a part of a semitone", where=where, given=as_written, wanted=_WANTED)
    return cents
