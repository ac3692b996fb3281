"""A rate in hundredths, as a workshop types it."""

from __future__ import annotations

import re
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.typed import need_text, plain_typed

_RATE = re.compile(r"(?P<number>[0-9][0-9.,/ ]*?)\s*(?P<sign>%|per ?cent)?")


def parse_rate(text: object, *, where: str = "") -> Fraction:
    """Read a rate from 0 to 100 per cent, exactly.

    Parameters
    ----------
    text : object
        ``20 %``, ``8,1 per cent``, ``0 %``. One below 1 % is taken as it stands.
    where : str
        Place in the file, for the message.

    Returns
    -------
    Fraction
        The share of one.

    Raises
    ------
    BadInput
        Without its sign, and above 100.

    Examples
    --------
    >>> parse_rate("20 %"), parse_rate("8,1%")
    (Fraction(1, 5), Fraction(81, 1000))
    """
    as_written = need_text(text, where=where, noun="a rate", example="20 %")
    found = _RATE.fullmatch(plain_typed(as_written))
    wanted = 'a rate such as "20 %"'
    if found is None:
        raise BadInput("cannot be read as per cent", where=where, given=as_written, wanted=wanted)
    number = found["number"].strip()
    size = parse_number(number, where=where, given=as_written, unit="%")
    if found["sign"] is None:
        raise BadInput("no unit", where=where, given=as_written, wanted=f'"{number} %"')
    if size > 100:
        raise BadInput("more than the whole", where=where, given=as_written, wanted=wanted)
    return size / 100


def print_rate(rate: Fraction) -> str:
    """Print a rate in hundredths, with as many decimals as it has and at most three.

    Examples
    --------
    >>> print_rate(Fraction(1, 5)), print_rate(Fraction(81, 1000)), print_rate(Fraction(1, 3))
    ('20 %', '8.1 %', '33.333 %')
    """
    thousandths = round(rate * 100_000)
    whole, part = divmod(thousandths, 1000)
    return f"{whole}.{part:03d}".rstrip("0").rstrip(".") + " %"
