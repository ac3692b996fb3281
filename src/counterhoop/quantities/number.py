"""Numbers as they are written at a bench, read exactly."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction

from counterhoop.errors import BadInput

_WHOLE = re.compile(r"[0-9]+")
_DECIMAL = re.compile(r"(?P<whole>[0-9]*)(?P<sign>[.,])(?P<part>[0-9]+)")
_FRACTION = re.compile(r"(?:(?P<whole>[0-9]+)(?:\s+|-))?(?P<top>[0-9]+)\s*/\s*(?P<bottom>[0-9]+)")
_MINUS_FRACTION = re.compile(r"(?P<whole>[0-9]+)(?:\s+-\s*|-\s+)(?P<part>[0-9]+\s*/\s*[0-9]+)")
_RANGE = re.compile(r"[0-9.,]+\s*-\s*[0-9.,]+")
_EXPONENT = re.compile(r"[0-9.,]\s*e\s*[+-]?\s*[0-9]")


def parse_number(text: str, *, where: str = "", given: object = None, unit: str = "") -> Fraction:
    """Read one unsigned number: whole, decimal (point or comma), fraction or mixed number.

    Parameters
    ----------
    text : str
        The number alone, already in plain characters.
    where : str
        Place in the file, for the message.
    given : object
        The whole text as it was written, for the message; the number itself when left out.
    unit : str
        The unit that stood beside it, used in what is proposed.

    Returns
    -------
    Fraction
        The exact value, zero or more.

    Raises
    ------
    BadInput
        When the number has no single reading: ``1,500`` (thousand or decimal), ``51/2``
        (a space lost from ``5 1/2``), ``5 - 1/2``, ``5 3/2``, ``1/0``, a range, an exponent.

    Examples
    --------
    >>> parse_number("5 1/2"), parse_number("5-1/2"), parse_number(".25"), parse_number("1,5")
    (Fraction(11, 2), Fraction(11, 2), Fraction(1, 4), Fraction(3, 2))
    """
    text = text.strip()
    unit = f" {unit}" if unit else ""

    def refuse(what: str, wanted: str) -> BadInput:
        return BadInput(
            what, where=where, given=text + unit if given is None else given, wanted=wanted
        )

    if _WHOLE.fullmatch(text):
        return Fraction(int(text))
    if decimal := _DECIMAL.fullmatch(text):
        whole, part = decimal["whole"] or "0", decimal["part"]
        if decimal["sign"] == "," and len(part) == 3 and 1 <= len(whole) <= 3 and whole[0] != "0":
            raise refuse(
                "the comma may mean thousands or a decimal",
                f'"{whole}{part}{unit}" or "{whole}.{part}{unit}"',
            )
        return Fraction(int(whole)) + Fraction(int(part), 10 ** len(part))
    if mixed := _FRACTION.fullmatch(text):
        return _mixed(mixed, refuse=refuse, unit=unit)
    if minus := _MINUS_FRACTION.fullmatch(text):
        raise refuse(
            "the dash may join or take away",
            f'"{minus["whole"]} {minus["part"]}{unit}" with a space and no dash',
        )
    if _EXPONENT.search(text):
        raise refuse("a power of ten", f'the number written out, such as "1000{unit}"')
    if _RANGE.fullmatch(text):
        raise refuse("two numbers with a dash", f'one number, such as "5.5{unit}"')
    if re.fullmatch(r"[0-9]{1,3}([., ][0-9]{3})+([.,][0-9]+)?", text):
        raise refuse("a number in groups of three", f'it without the groups, such as "1500{unit}"')
    raise refuse("cannot be read as a number", f'one such as "5.5{unit}" or "5 1/2{unit}"')


def _mixed(found: re.Match[str], *, refuse: Callable[[str, str], BadInput], unit: str) -> Fraction:
    top, bottom = int(found["top"]), int(found["bottom"])
    if bottom == 0:
        raise refuse("a fraction of nothing", f'a fraction such as "1/2{unit}"')
    part = Fraction(top, bottom)
    if found["whole"] is not None:
        if part >= 1:
            raise refuse("the fraction beside the whole number is not below 1", f'"5 1/2{unit}"')
        return int(found["whole"]) + part
    if part >= 1 and (lost := _space_lost(found["top"], bottom)):
        rest = part - part.__floor__()
        plainly = f"{part.__floor__()} {rest}" if rest else f"{part.__floor__()}"
        raise refuse("a space may be missing", f'"{lost}{unit}" or "{plainly}{unit}"')
    return part


def _space_lost(top: str, bottom: int) -> str:
    """Return ``5 1/2`` for ``51/2``: the mixed number that the digits may stand for, else ''."""
    for cut in range(1, len(top)):
        if top[cut] != "0" and int(top[cut:]) < bottom:
            return f"{top[:cut]} {top[cut:]}/{bottom}"
    return ""
