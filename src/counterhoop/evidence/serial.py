"""What a serial number alone says of the year: spans, never a year; and which examples disagree."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from counterhoop.errors import BadInput
from counterhoop.evidence.in_use import Array
from counterhoop.evidence.reference import SerialExample
from counterhoop.evidence.rows import read_number
from counterhoop.evidence.serial_curve import FEWEST, SerialCurve, serial_curve
from counterhoop.evidence.span import Span, spans_of

_ROUND_YEARS = 80
_CLEARLY = 2.0
_FARTHER = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class SerialYear:
    """A number, and the years that it goes with.

    Attributes
    ----------
    spans : dict
        Shortest run of years for odds of 0.5, 0.8 and 0.95.
    out_of_order : tuple of SerialExample
        Dated examples that go against the order of the others; they count all the same.
    beyond : str
        "before the first", "after the last" dated number, or nothing.
    """

    written: str
    number: int
    curve: SerialCurve
    spans: dict[float, Span]
    out_of_order: tuple[SerialExample, ...]
    beyond: str
    says: tuple[str, ...]

    def odds(self, years: Array) -> Array:
        """Odds of each year by the number alone, shape of the years."""
        return self.curve.odds(self.number, years)


def serial_year(number: str, examples: Sequence[SerialExample]) -> SerialYear:
    """Return the years that a serial number goes with.

    Parameters
    ----------
    number : str
        As it stands on the drum, letters and all.
    examples : sequence of SerialExample
        Of one family; those of the number's own series (the letters before it) are used.

    Raises
    ------
    BadInput
        Not a number, far from every dated one, or fewer than four dated ones in its series.
    """
    prefix, count = read_number(number)
    series = sorted(
        (one for one in examples if one.prefix == prefix), key=lambda one: (one.number, one.year)
    )
    different = len({one.number for one in series})
    if different < FEWEST:
        named = f'series "{prefix}"' if prefix else "numbers without letters"
        raise BadInput(
            "too few dated numbers to say a year by", where="serial number",
            given=f"{different} of the {named}", wanted=f"{FEWEST} or more",
        )  # fmt: skip
    curve = serial_curve(series)
    centre = curve.centre(count)
    covered = curve.years[-1] - curve.years[0]
    if not curve.years[0] - covered - 1.0 <= centre <= curve.years[-1] + covered + 1.0:
        raise BadInput(
            "far from every dated number", where="serial number", given=number,
            wanted=f"one nearer to {series[0].written} to {series[-1].written}",
            step="Read it again, or date more numbers.",
        )  # fmt: skip
    middle = round(centre)
    years = np.arange(middle - _ROUND_YEARS, middle + _ROUND_YEARS + 1, dtype=np.float64)
    odds = curve.odds(count, years)
    spans = spans_of(years, odds)
    strays = out_of_order(series, curve)
    beyond = (
        "before the first" if count < series[0].number
        else "after the last" if count > series[-1].number else ""
    )  # fmt: skip
    says = [f"By the number alone: {spans[0.8]} (4 in 5)."]
    if beyond:
        says.append(f"The number stands {beyond} dated one: that is a guess from the pace of them.")
    says += [
        f"{one.written} is dated {one.year:g}, against the order of the others; it is not left out."
        for one in strays
    ]
    return SerialYear(
        written=number, number=count, curve=curve, spans=spans, out_of_order=strays,
        beyond=beyond, says=tuple(says),
    )  # fmt: skip


def out_of_order(
    examples: Sequence[SerialExample], curve: SerialCurve
) -> tuple[SerialExample, ...]:
    """Return the fewest examples without which the years rise with the numbers.

    Two examples are in order while their years are, or differ by no more than twice their doubts.
    Of two that only go against each other, the one farther off the curve.
    """
    ordered = sorted(examples, key=lambda one: (one.number, one.year))
    worth = [1.0 - _FARTHER * abs(one.year - curve.centre(one.number)) for one in ordered]
    years, gives = (np.array([getattr(one, word) for one in ordered]) for word in ("year", "give"))
    longest = np.zeros(len(ordered))
    came_from: list[int | None] = []
    for at, own in enumerate(worth):
        in_order = years[:at] - years[at] <= _CLEARLY * np.hypot(gives[:at], gives[at])
        before = np.where(in_order, longest[:at], 0.0)
        source = int(before.argmax()) if in_order.any() else None
        longest[at] = own + (0.0 if source is None else before[source])
        came_from.append(source)
    at_last: int | None = int(longest.argmax()) if ordered else None
    kept = set()
    while at_last is not None:
        kept.add(at_last)
        at_last = came_from[at_last]
    return tuple(one for at, one in enumerate(ordered) if at not in kept)
