"""Working time as it is said: minutes and hours."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.typed import need_text, plain_typed, with_unit

_HOURS = ("h", "hr", "hrs", "hour", "hours")
_MINUTES = ("min", "mins", "minute", "minutes")
_PIECE = re.compile(r"(?P<number>[0-9.,/\s-]+?)\s*(?P<unit>[a-z]+)\.?\s*")
_WANTED = 'a time such as "25 min", "1.5 h" or "1 h 30 min"'
_LONGEST_MIN = Fraction(10_000 * 60)


@dataclass(frozen=True, slots=True, kw_only=True)
class Duration:
    """A length of time, exact, and the text it was read from.

    Attributes
    ----------
    exact_min : Fraction
        Minutes, zero or more.
    as_written : str
        The text as a person wrote it; not compared.
    """

    exact_min: Fraction
    as_written: str = field(default="", compare=False)

    @property
    def minutes(self) -> float:
        """Minutes, to the nearest float."""
        return float(self.exact_min)

    def __str__(self) -> str:
        return self.as_written or print_minutes(self.minutes)


def parse_duration(text: object, *, where: str = "") -> Duration:
    """Read one length of working time.

    Parameters
    ----------
    text : object
        ``25 min``, ``1.5 h``, ``1 h 30``, ``1 h 30 min``, ``1 1/2 hours``.
    where : str
        Place in the file, for the message.

    Raises
    ------
    BadInput
        For a bare number, ``1:30`` (hours or minutes?) and days (a working day or 24 hours?).

    Examples
    --------
    >>> parse_duration("1 h 30").minutes, parse_duration("1,5 h").minutes
    (90.0, 90.0)
    """
    example = with_unit(text, unit="min", below=10_000, otherwise="25 min")
    as_written = need_text(text, where=where, noun="a time", example=example)
    plain = plain_typed(as_written)

    def refuse(what: str, wanted: str = _WANTED, step: str = "") -> BadInput:
        return BadInput(what, where=where, given=as_written, wanted=wanted, step=step)

    if clock := re.fullmatch(r"([0-9]+):([0-9]+)", plain):
        raise refuse(
            "hours and minutes, or minutes and seconds?", f'"{clock[1]} h {int(clock[2])} min"'
        )
    if re.fullmatch(r"[0-9.,/\s-]+", plain):
        raise refuse("no unit", f'"{plain} min" or "{plain} h"')
    if re.search(r"\b(days?|d|weeks?)\b", plain):
        raise refuse("a day at the bench and a day on the calendar differ", 'hours, such as "8 h"')
    total, used = Fraction(0), ""
    rest = re.sub(r"(?<=[0-9] h )([0-9]{1,2})$|(?<=[0-9]h)([0-9]{1,2})$", r"\1\2 min", plain)
    while rest:
        piece = _PIECE.match(rest)
        if piece is None:
            raise refuse("cannot be read as one length of time")
        unit = piece["unit"]
        kind = "h" if unit in _HOURS else "m" if unit in _MINUTES else ""
        if not kind:
            near = did_you_mean(unit, ("h", "min", "hours", "minutes"), likeness=0.5)
            raise refuse(f'"{unit}" is not a unit of time here', step=near)
        number = parse_number(piece["number"], where=where, given=as_written, unit=unit)
        if used and (used + kind != "hm" or number >= 60):
            raise refuse("more than one length of time")
        used += kind
        total += number * (60 if kind == "h" else 1)
        rest = rest[piece.end() :]
    if total > _LONGEST_MIN:
        raise refuse("more than 10000 hours")
    return Duration(exact_min=total, as_written=as_written)


def print_minutes(minutes: float) -> str:
    """Print time to the nearest minute, in hours and minutes.

    Examples
    --------
    >>> print_minutes(25), print_minutes(90), print_minutes(120)
    ('25 min', '1 h 30 min', '2 h')
    """
    whole = int(Fraction(minutes) + Fraction(1, 2)) if minutes >= 0 else -1
    if whole < 0:
        raise BadInput("time below zero cannot be printed", given=minutes)
    hours, rest = divmod(whole, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"
