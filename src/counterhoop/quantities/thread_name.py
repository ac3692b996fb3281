"""Names of screw threads, brought to one spelling; what they measure stands in the tables."""

from __future__ import annotations

import re
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.typed import need_text, plain_typed

_WANTED = 'a thread such as "12-24", "1/4-20 UNC", "M6" or "M6x0.75"'
_CLASS = r"(?:\s*-?\s*(?:[123][ab]|[4-8][egh](?:[4-8][gh])?))?"
_METRIC = re.compile(
    rf"m\s*(?P<size>[1-9][0-9]*(?:[.,][0-9]+)?)(?:\s*[x*-]\s*(?P<pitch>(?=[0-9.,]*[1-9])[0-9]*[.,]?[0-9]+)(?:\s*mm)?)?{_CLASS}"
)
_INCH = re.compile(
    r"(?:#|no\.?\s*|number\s*)?(?P<size>[0-9]+(?:/[0-9]+)?|[0-9]*\.[0-9]+)\s*(?:\"|in\b\.?)?"
    r"\s*[-x*]\s*(?P<tpi>[1-9][0-9]*)(?:\s*tpi)?"
    rf"\s*-?\s*(?P<series>unc|unf|unef|uns|un|nc|nf|ns)?{_CLASS}"
)
_WHITWORTH = re.compile(
    r"(?P<size>[0-9]+(?:/[0-9]+)?)\s*(?:\"|in\b\.?)?\s*-?\s*(?P<series>bsw|bsf|whitworth|whit|w)"
)
_BA = re.compile(r"(?:no\.?\s*|#)?(?P<size>[0-9]{1,2})\s*-?\s*b\.?a\.?")
_OLD_SERIES = {"nc": "UNC", "nf": "UNF", "ns": "UNS"}
_FRACTION_SIZES = ("1/32", "3/32", "5/32", "1/64", "3/64", "5/64")
_NUMBER_SIZES = (0, 1, 2, 3, 4, 5, 6, 8, 10, 12)


def parse_thread_name(text: object, *, where: str = "") -> str:
    """Return the one spelling of a thread's name.

    Only the spelling is settled here: ``M6x1`` and ``M6``, or ``12-24`` and ``12-24 UNC``, stay
    two names of one thread. A class of fit (2A, 6g) is dropped.

    Parameters
    ----------
    text : object
        ``12-24``, ``#12 - 24 unc``, ``1/4"-20``, ``m6 x 0,75``, ``7/32-24``, ``3/16 bsw``,
        ``2 ba``.
    where : str
        Place in the file, for the message.

    Raises
    ------
    BadInput
        For a size without its threads to the inch, for ``12/24`` and for ``6mm``.

    Examples
    --------
    >>> parse_thread_name("m6 X 0,75"), parse_thread_name("No. 12 - 24unc")
    ('M6x0.75', '12-24 UNC')
    """
    as_written = need_text(text, where=where, noun="a thread", example="12-24")
    plain = plain_typed(as_written)
    if metric := _METRIC.fullmatch(plain):
        size = _decimal(metric["size"])
        return f"M{size}x{_decimal(metric['pitch'])}" if metric["pitch"] else f"M{size}"
    if ba := _BA.fullmatch(plain):
        return f"{int(ba['size'])}BA"
    if whitworth := _WHITWORTH.fullmatch(plain):
        series = "BSF" if whitworth["series"] == "bsf" else "BSW"
        return f"{_lowest(whitworth['size'], where=where, given=as_written)} {series}"
    if inch := _INCH.fullmatch(plain):
        size = _inch_size(inch["size"], tpi=inch["tpi"], where=where, given=as_written)
        series = inch["series"] or ""
        series = _OLD_SERIES.get(series, series.upper())
        return f"{size}-{int(inch['tpi'])} {series}".strip()
    raise _unread(plain, where=where, given=as_written)


def _decimal(digits: str) -> str:
    value = Fraction(digits.replace(",", "."))
    return f"{float(value):g}"


def _inch_size(size: str, *, tpi: str, where: str, given: str) -> str:
    if "/" in size or "." in size:
        return _lowest(size, where=where, given=given)
    if int(size) not in _NUMBER_SIZES:
        raise BadInput(
            f"there is no number {int(size)} screw",
            where=where,
            given=given,
            wanted=f'number 0 to 6, 8, 10 or 12, or a fraction, such as "12-{tpi}" or "1/4-{tpi}"',
        )
    return f"{int(size)}"


def _lowest(size: str, *, where: str, given: str) -> str:
    value = parse_number(size, where=where, given=given)
    if "/" in size and str(value) != size:
        raise BadInput(
            f'"{size}" is not in its lowest terms, so it may be a slip of a number size',
            where=where,
            given=given,
            wanted=_WANTED,
        )
    if value.denominator & (value.denominator - 1):
        raise BadInput("no screw is sized so", where=where, given=given, wanted=_WANTED)
    return str(value)


def _unread(plain: str, *, where: str, given: str) -> BadInput:
    wanted, what = _WANTED, "cannot be read as the name of a thread"
    if slash := re.fullmatch(r"([0-9]+)\s*/\s*([0-9]+)", plain):
        top, bottom = int(slash[1]), int(slash[2])
        if top in _NUMBER_SIZES and bottom >= 20 and f"{top}/{bottom}" not in _FRACTION_SIZES:
            what = "a stroke where a dash belongs"
            wanted = f'"{top}-{bottom}" for number {top}, {bottom} threads to the inch'
        else:
            what = "a size without its threads to the inch"
            wanted = f'both, such as "{top}/{bottom}-24"; hold a thread gauge against it'
    elif bare := re.fullmatch(
        r"([0-9]+(?:[.,][0-9]+)?)\s*mm(?:\s*x\s*([0-9.,]+)(?:\s*mm)?)?", plain
    ):
        pitch = (
            f"x{_decimal(bare[2])}"
            if bare[2] and re.fullmatch(r"[0-9]+([.,][0-9]+)?", bare[2])
            else ""
        )
        what = "a diameter alone names no thread" if not pitch else "a metric thread begins with M"
        wanted = f'"M{_decimal(bare[1])}{pitch}" if it is a metric thread'
    elif re.fullmatch(
        r"(?:#|no\.?\s*)?[0-9]+(?:/[0-9]+)?\s*(?:\"|in\b\.?)?(?:\s*(?:unc|unf))?", plain
    ):
        what = "a size without its threads to the inch"
        wanted = 'both, such as "12-24"; hold a thread gauge against it'
    return BadInput(what, where=where, given=given, wanted=wanted)
