"""From the text of one cell to a value: words, counts, days, shares, money, years."""

from __future__ import annotations

import datetime as dt
import re

from counterhoop.errors import BadInput
from counterhoop.parts.rows.layout import Hint
from counterhoop.quantities.day import MONTHS
from counterhoop.quantities.length import Length, parse_length
from counterhoop.quantities.money import Money, parse_money
from counterhoop.quantities.number import parse_number

MOST_OF_ONE = 1_000_000
"""Nobody has more of one part."""
_LONGEST_NUMBER = 40
_UNITS = {
    **{unit: unit for unit in ("mm", "cm", "m", "thou", "ft", "tpi", "g", "kg", "oz", "lb")},
    **dict.fromkeys(("in", "inch", "inches", '"', "″", "”"), "in"),
    **dict.fromkeys(("gram", "grams"), "g"),
}
_NUMBER = re.compile(r"[0-9][0-9.,]*[0-9]")
_UNPRINTED = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffd]")
_UNIT_WORD = re.compile(r"""[a-z]+\.?|"|″|''|”""", re.IGNORECASE)
_ISO = re.compile(r"([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})(?:[ T]00:00(?::00)?)?")
_NAMED = re.compile(r"([0-9]{1,2})\.?\s+([A-Za-z]{3,9})\.?\s+([0-9]{4})")


def plain_commas(text: str, hint: Hint) -> str:
    """Return a text whose numbers have a point or nothing, where it was said what a comma is.

    Raises
    ------
    BadInput
        Commas are decimal signs, and a point stands where it may part thousands.

    Examples
    --------
    >>> plain_commas("1.250,5 mm", Hint(comma="decimal"))
    '1250.5 mm'
    >>> plain_commas("1,250.5", Hint(comma="thousands")), plain_commas("1,250", Hint())
    ('1250.5', '1,250')
    """
    match hint.comma:
        case "decimal":
            return _NUMBER.sub(_with_point, text)
        case "thousands":
            return _NUMBER.sub(lambda found: found[0].replace(",", ""), text)
    return text


def _with_point(found: re.Match[str]) -> str:
    number = found[0]
    if "," in number:
        return number.replace(".", "").replace(",", ".")
    if re.fullmatch(r"[1-9][0-9]{0,2}(\.[0-9]{3})+", number):
        raise BadInput(
            "the point may part thousands or be a decimal sign",
            given=number,
            wanted=f'"{number.replace(".", "")}" or "{number.replace(".", ",", 1)}"',
        )
    return number


def read_words(text: str, _: Hint) -> str:
    """Return text as typed, its line ends alike.

    Raises
    ------
    BadInput
        It holds a sign that cannot be printed.
    """
    if text.isascii() and text.isprintable():
        return text
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    if odd := _UNPRINTED.search(plain):
        if odd[0] >= "\ud800":
            raise BadInput(
                "a sign was lost when this file was saved", step='Save it again as "CSV UTF-8".'
            )
        raise BadInput(
            f"a sign that cannot be printed (U+{ord(odd[0]):04X})",
            step="Type the cell again by hand.",
        )
    return plain


def read_name(text: str, hint: Hint) -> str:
    """Return a short text on one line.

    Raises
    ------
    BadInput
        Too long, or of several lines.
    """
    words = read_words(text, hint)
    if "\n" in words:
        raise BadInput("several lines where one word or name belongs", given=text)
    if len(words) > 120:
        raise BadInput("too long for a name", given=text, wanted="at most 120 signs")
    return words


def read_facts(text: str, hint: Hint) -> tuple[str, ...]:
    """Return facts that semicolons or line ends part.

    Examples
    --------
    >>> read_facts("pitted; one ear bent;", Hint())
    ('pitted', 'one ear bent')
    """
    parts = (part.strip() for part in re.split(r"[;\n]", read_words(text, hint)))
    return tuple(part for part in parts if part)


def read_count(text: str, _: Hint) -> int:
    """Return a whole number, none or more.

    Raises
    ------
    BadInput
        Below none, a part of one, in groups of three, or with words beside it.
    """
    wanted = 'a whole number such as "4"'
    if not re.fullmatch(r"[0-9]{1,9}", text):
        if re.fullmatch(r"-\s*[0-9]+([.,][0-9]+)?", text):
            raise BadInput("fewer than none", given=text, wanted=wanted)
        if re.fullmatch(r"[0-9]+[.,][0-9]+", text):
            raise BadInput(
                "a part of one, or a count in groups of three", given=text, wanted=wanted
            )
        raise BadInput("not a count", given=text, wanted=wanted)
    if int(text) > MOST_OF_ONE:
        raise BadInput("more than any shelf holds", given=text, wanted=wanted)
    return int(text)


def read_yes_no(text: str, _: Hint) -> bool:
    """Return yes or no.

    Raises
    ------
    BadInput
        Anything else.
    """
    said = {"yes": True, "y": True, "x": True, "true": True, "1": True}
    said |= {"no": False, "n": False, "false": False, "0": False}
    if text.casefold() not in said:
        raise BadInput("neither yes nor no", given=text, wanted='"yes" or "no"')
    return said[text.casefold()]


def read_day(text: str, _: Hint) -> dt.date:
    """Return a day that reads one way only.

    Raises
    ------
    BadInput
        Day and month could be either way round, or there is no such day.

    Examples
    --------
    >>> read_day("4 March 2026", Hint()) == read_day("2026-03-04", Hint())
    True
    """
    wanted = "year-month-day, such as 2026-11-02"
    if iso := _ISO.fullmatch(text):
        year, month, day = int(iso[1]), int(iso[2]), int(iso[3])
    elif named := _NAMED.fullmatch(text):
        begins = named[2].casefold()
        months = [n for n, name in enumerate(MONTHS, 1) if name.casefold().startswith(begins)]
        if len(months) != 1:
            raise BadInput("no such month", given=text, wanted=wanted)
        year, month, day = int(named[3]), months[0], int(named[1])
    else:
        raise BadInput("not a day that reads one way only", given=text, wanted=wanted)
    try:
        found = dt.date(year, month, day)
    except ValueError:
        raise BadInput("there is no such day", given=text, wanted=wanted) from None
    if not 1900 <= found.year <= 2200:
        raise BadInput("a year that cannot be", given=text, wanted="a recent day")
    return found


def read_share(text: str, hint: Hint) -> float:
    """Return a share of a whole: ``25 %``, ``0.25`` or ``1/4``.

    Raises
    ------
    BadInput
        Above the whole, or 25 without its sign.
    """
    wanted = 'a share such as "25 %"'
    share = read_figure(plain_commas(text.removesuffix("%").strip(), hint), hint)
    if text.endswith("%"):
        share /= 100.0
    elif share > 1.0:
        raise BadInput("more than the whole", given=text, wanted=wanted)
    if share > 1.0:
        raise BadInput("more than the whole", given=text, wanted=wanted)
    return share


def read_price(text: str, hint: Hint) -> Money:
    """Return an amount; the header may name its currency.

    Raises
    ------
    BadInput
        No currency, another than the header's, or below nothing.
    """
    text = plain_commas(text, hint)
    bare = re.fullmatch(r"-?[0-9., ]*[0-9]", text) is not None
    money = parse_money(f"{text} {hint.unit}" if bare and hint.unit else text)
    if hint.unit and money.currency != hint.unit:
        raise BadInput(
            f"the header says {hint.unit} and this cell {money.currency}",
            given=text,
            wanted="one currency in a column, or none in its header",
        )
    return money


def read_size(text: str, hint: Hint) -> Length:
    """Return a length; the header may name its unit."""
    return parse_length(with_unit_of(text, hint), allow_zero=False)


def with_unit_of(text: str, hint: Hint) -> str:
    """Return what stands in a cell with the header's unit beside it, where it has none.

    Raises
    ------
    BadInput
        The cell has another unit than the header: one of the two is a slip.

    Examples
    --------
    >>> with_unit_of("42,5", Hint(unit="mm")), with_unit_of("1 5/8", Hint(unit="in"))
    ('42,5 mm', '1 5/8 in')
    """
    text = plain_commas(text, hint)
    if not hint.unit:
        return text
    said = {word.lower().rstrip(".") for word in _UNIT_WORD.findall(text)}
    own = {_UNITS[word] for word in said if word in _UNITS}
    if not own:
        return f"{text} {hint.unit}"
    if others := sorted(own - {hint.unit}):
        raise BadInput(
            f"the header says {hint.unit} and this cell says {' and '.join(others)}",
            given=text,
            wanted="one unit in a column, or none in its header and one in each cell",
        )
    return text


def read_year(text: str, _: Hint) -> float:
    """Return a year.

    Raises
    ------
    BadInput
        "about", "1950s" and years that cannot be.
    """
    wanted = "a year such as 1957, and what it is known to in its own column"
    if not re.fullmatch(r"[0-9]{4}", text):
        raise BadInput("not one year", given=text, wanted=wanted)
    if not 1500 <= int(text) <= 2200:
        raise BadInput("a year that cannot be", given=text, wanted=wanted)
    return float(text)


def read_figure(text: str, _: Hint) -> float:
    """Return a plain number, none or more.

    Raises
    ------
    BadInput
        It is none, or has more digits than anybody means.
    """
    if len(text) > _LONGEST_NUMBER:
        raise BadInput("too long for a number", given=text, wanted='one such as "0.25"')
    return float(parse_number(text, given=text))
