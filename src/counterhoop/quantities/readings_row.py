"""A row of readings, written as they were read off, with one unit at its end."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field

from counterhoop.errors import BadInput
from counterhoop.quantities.length import Length, parse_length
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.quantities.typed import plain_typed

MOST_READINGS = 400
LONGEST_ROW = 4000
_UNITS = ("mm", "cm", "in", "inch", "inches", "thou", '"')
_END = re.compile(r"""(?P<numbers>.*?)\s*(?P<unit>[a-z]+\.?|"|')?""", re.DOTALL)
_EXAMPLE = '"0, 0.1, 0.25, 0 mm"'


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingsRow:
    """Readings in the order in which they were taken.

    Attributes
    ----------
    lengths : tuple of Length
        Exact; each keeps its own text.
    as_written : str
        The row as it stood in the file; not compared.
    """

    lengths: tuple[Length, ...]
    as_written: str = field(default="", compare=False)

    @property
    def mm(self) -> tuple[float, ...]:
        """Millimetres, to the nearest floats."""
        return tuple(one.mm for one in self.lengths)

    @property
    def each_as_written(self) -> tuple[str, ...]:
        """What was written of each reading, its unit beside it."""
        return tuple(one.as_written for one in self.lengths)


def parse_readings(
    given: object, *, where: str = "", allow_negative: bool = False, allow_zero: bool = True
) -> ReadingsRow:
    """Read a row of lengths.

    Understood: ``0, 0.1, 0.25, 0 mm``, ``0 0.1 0.25 0 mm``, ``11 63/64, 12, 12 1/64 in``,
    ``0,1; 0,25; 0 mm``, or a list of lengths with a unit each. Refused, with what to write: a
    comma that may be a decimal one or stand between two readings, a space that may be a missing
    comma, and a station left out.

    Parameters
    ----------
    given : object
        The row as one text, or a list of texts.
    where : str
        Place in the file, for the message.
    allow_negative, allow_zero : bool
        Whether a reading below zero, or of zero, makes sense here.

    Raises
    ------
    BadInput
        Says which reading it is and what to write instead.

    Examples
    --------
    >>> parse_readings("0, 0.1, 0.25, 0 mm").mm
    (0.0, 0.1, 0.25, 0.0)
    >>> parse_readings("11 63/64, 12 in").each_as_written
    ('11 63/64 in', '12 in')
    >>> parse_readings("0,1 0,2 mm", where="gaps")
    Traceback (most recent call last):
        ...
    counterhoop.errors.BadInput: gaps: each comma may be a decimal one or stand between two \
readings: found '0,1 0,2 mm', wanted points for decimals and a space after each comma, such as \
"0, 0.1, 0.25, 0 mm"
    """
    if isinstance(given, list | tuple):
        texts, as_written = list(given), ", ".join(str(one) for one in given)
    elif isinstance(given, str):
        texts, as_written = _pieces(given, where=where), given.strip()
    else:
        raise BadInput(
            "a row of readings belongs here",
            where=where,
            given=given if isinstance(given, float) else None,
            wanted=f"them in one text with the unit at its end, such as {_EXAMPLE}",
        )
    if not texts:
        raise BadInput("nothing is read here", where=where, wanted=f"a row such as {_EXAMPLE}")
    if len(texts) > MOST_READINGS:
        raise BadInput(
            f"{len(texts)} readings in one row", where=where, wanted=f"at most {MOST_READINGS}"
        )
    lengths = []
    for number, text in enumerate(texts, 1):
        try:
            if isinstance(text, bool | list | dict | tuple) or text is None:
                raise BadInput("not one reading", wanted='a length such as "0.25 mm"')
            lengths.append(parse_length(text, allow_negative=allow_negative, allow_zero=allow_zero))
        except BadInput as fault:
            raise BadInput(
                f"reading {number}: {fault.what}",
                where=where,
                given=fault.given,
                wanted=fault.wanted,
                step=fault.step,
            ) from fault
    return ReadingsRow(lengths=tuple(lengths), as_written=as_written)


def _pieces(text: str, *, where: str) -> list[str]:
    """Return each reading with the unit that stands at the end of the row."""

    def refuse(what: str, wanted: str = f"a row such as {_EXAMPLE}", step: str = "") -> BadInput:
        return BadInput(what, where=where, given=text, wanted=wanted, step=step)

    if len(text) > LONGEST_ROW:
        raise refuse("too long for a row of readings")
    plain = plain_typed(text)
    if not plain:
        raise refuse("nothing is read here")
    found = _END.fullmatch(plain)
    assert found is not None  # any text matches: the unit may be missing
    numbers, unit = found["numbers"].strip(), (found["unit"] or "").rstrip(".")
    if not unit:
        raise refuse(
            "no unit at the end of the row",
            f'"{plain} mm" or "{plain} in", whichever the rule was marked in'
            if len(plain) <= 60
            else 'such as mm or in, "... mm"',
        )
    if unit not in _UNITS:
        raise refuse(
            f'"{unit}" is not a unit for a row of readings',
            f"mm, cm, in or thou at its end, such as {_EXAMPLE}",
            did_you_mean(unit, ("mm", "cm", "in", "thou"), likeness=0.5),
        )
    if re.search(r"[a-z\"']", numbers):
        raise refuse(
            "words or units between the readings",
            f"numbers only, and one unit at the end of the row, such as {_EXAMPLE}",
            "Readings with a unit each go into a list, each in its own quotes.",
        )
    pieces = _split(numbers, refuse=refuse)
    for number, piece in enumerate(pieces, 1):
        if not re.search(r"[0-9]", piece):
            raise refuse(
                f"reading {number} is missing",
                "one reading for every station",
                "Read the station that was left out.",
            )
    return [f"{piece} {unit}" for piece in pieces]


def _split(numbers: str, *, refuse: Callable[[str, str], BadInput]) -> list[str]:
    if ";" in numbers:
        return [piece.strip() for piece in numbers.split(";")]
    if re.search(r"[0-9],[0-9]", numbers) and not _parts_readings(numbers):
        raise refuse(
            "each comma may be a decimal one or stand between two readings",
            f"points for decimals and a space after each comma, such as {_EXAMPLE}",
        )
    if "," in numbers:
        return [piece.strip() for piece in numbers.split(",")]
    if "/" in numbers and " " in numbers:
        raise refuse(
            "a space that may part two readings or belong to a fraction",
            'a comma between the readings, such as "11 63/64, 12, 12 1/64 in"',
        )
    return numbers.split()


def _parts_readings(numbers: str) -> bool:
    """Tell whether commas with digits on both sides can only stand between readings.

    So they do where decimals have points, or fractions stand, and no comma has a space after it.
    """
    if re.search(r",\s|\s,", numbers):
        return False
    return "/" in numbers or ("." in numbers and " " not in numbers)
