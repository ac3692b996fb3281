"""What is asked of the shelf, words and measurements together, in one line as one says it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.parts.asked_names import (
    DIMENSION_CALLED,
    FILLERS,
    LONG_PARTS,
    MOST_WORDS,
    meant,
)
from counterhoop.parts.asked_numbers import Number, Token, tokens_of
from counterhoop.parts.dimension import Dimension, Measured, usual_doubt
from counterhoop.parts.of_thread import is_named
from counterhoop.quantities.print_length import CALIPER_MM, TAPE_MM, print_mm
from counterhoop.quantities.typed import plain_typed

LONGEST = 300
"""Nobody says more of a part in one line; more is a slip of the clipboard."""
FEW_HOLES = 6
"""So few after "holes" may be their number: fewer millimetres apart no two screws stand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One line, read.

    Attributes
    ----------
    words : tuple of str
        What is no measurement, in lower case; the name of a thread is one word ("12-24").
    measures : tuple of Measured
        Each a middle and the half-width of what is allowed round it; "40 to 44" is 42 and 2.
    unread : tuple of str
        What could not be taken as a measurement, a sentence each: what to write instead.
    """

    words: tuple[str, ...] = ()
    measures: tuple[Measured, ...] = ()
    unread: tuple[str, ...] = ()

    @property
    def read_as(self) -> tuple[str, ...]:
        """Say how each measurement was taken, to stand under the line that was typed."""
        return tuple(read_as(measured) for measured in self.measures)


def asked(text: str, *, units: Literal["mm", "in"] = "mm") -> Asked:
    """Read words and measurements.

    Parameters
    ----------
    text : str
        ``single-ended, holes 42 +- 0.5, 24 to the inch``; ``rod 12-24 x 90 mm``;
        ``hoop 8 ears, inside 360 to 364``; ``bracket, takes 5/8 in``.
    units : {"mm", "in"}
        What a length is in that has no unit.

    Raises
    ------
    BadInput
        Only for a text that is far too long; whatever else cannot be read is in ``unread``.

    Examples
    --------
    >>> found = asked("single-ended, holes 42 +- 0.5, 24 to the inch")
    >>> found.words
    ('single-ended',)
    >>> found.read_as
    ('holes apart 42 mm, give or take 0.5 mm', 'pitch 1.06 mm, 24 to the inch')
    """
    if len(text) > LONGEST:
        raise BadInput(
            "too long for one line", where="find", given=text, wanted=f"at most {LONGEST} signs"
        )
    tokens = tokens_of(plain_typed(text.replace("±", "+-")))
    named, used = _names(tokens)
    kept = frozenset(token.text for at, token in enumerate(tokens) if at not in used)
    measures: list[Measured] = []
    unread: list[str] = []
    said: list[str] = []
    for at, token in enumerate(tokens):
        if token.number is None:
            is_word = at not in used and not token.parts_off and token.text not in FILLERS
            said += [token.text] if is_word else []
            continue
        try:
            what = _dimension(token.number, named.get(at), kept)
            if what is None:
                said += token.text.split()
                unread += _of_what(token.number)
            else:
                measures.append(
                    _once(_measured(token.number, meant(what, kept), units=units), measures)
                )
        except BadInput as fault:
            unread.append(f"{token.text}: {_sentence(fault)}")
    return Asked(words=tuple(said), measures=tuple(measures), unread=tuple(unread))


def read_as(measured: Measured) -> str:
    """Say one measurement with what is allowed round it.

    Examples
    --------
    >>> read_as(Measured(dimension=Dimension.LENGTH, value=42.0, doubt=2.0, written="40 to 44"))
    'length 42 mm, give or take 2 mm'
    """
    name, value, doubt = measured.dimension.value, measured.value, measured.doubt
    if measured.dimension.unit == "count":
        return f"{name} {value:.0f}"
    if measured.dimension.unit == "g":
        return f"{name} {value:.0f} g, give or take {doubt:.0f} g"
    if is_named(measured):
        return f"{name} {measured.written}"
    if measured.dimension is Dimension.PITCH:
        to_the_inch = 25.4 / value
        whole = abs(to_the_inch - round(to_the_inch)) < 0.01
        return f"{measured}".join((f"{name} ", f", {to_the_inch:.0f} to the inch" if whole else ""))
    shown = print_mm(value) if doubt == TAPE_MM else _said(value)
    return f"{name} {shown}, give or take {_said(doubt)}"


def _said(mm: float) -> str:
    half = abs(2.0 * mm - round(2.0 * mm)) < 1e-6
    return print_mm(mm, resolution_mm=TAPE_MM if half else CALIPER_MM)


Named = tuple[Dimension, tuple[int, ...]]


def _names(tokens: list[Token]) -> tuple[dict[int, Dimension], set[int]]:
    """Return the name of each number that has one, and all words that are part of names.

    The words just before a number go first, the longest name of all; then those just after it.
    A word names one number; only "holes" may count some and go on to say how far apart they are.
    """
    named: dict[int, Dimension] = {}
    used: set[int] = set()
    claimed: set[int] = set()
    for at, token in enumerate(tokens):
        if token.number is None:
            continue
        before = None if token.number.first_of_count else _beside(at, tokens, claimed, step=-1)
        after = _beside(at, tokens, claimed, step=1)
        found = before or after
        if found is None:
            continue
        named[at] = found[0]
        again = after[1] if after and before and after[0] is before[0] else ()
        used |= {*found[1], *again}
        if not token.number.first_of_count:
            claimed |= {*found[1], *again}
    return named, used


def _beside(
    at: int, tokens: list[Token], claimed: set[int], *, step: Literal[-1, 1]
) -> Named | None:
    places: list[int] = []
    fillers: list[int] = []
    here = at + step
    while (
        0 <= here < len(tokens)
        and tokens[here].is_word
        and here not in claimed
        and len(places) < MOST_WORDS
    ):
        if tokens[here].text in FILLERS and not places:
            fillers.append(here)
        else:
            places.append(here)
        here += step
    for count in range(len(places), 0, -1):
        chosen = tuple(sorted(places[:count]))
        what = DIMENSION_CALLED.get(tuple(tokens[place].text for place in chosen))
        if what is not None:
            return what, (*chosen, *fillers)
    return None


def _dimension(number: Number, named: Dimension | None, words: frozenset[str]) -> Dimension | None:
    if number.to_the_inch:
        return Dimension.PITCH
    if named is Dimension.HOLES_APART and number.count is not None:
        if number.first_of_count:
            return Dimension.HOLE_COUNT
        if number.count <= FEW_HOLES:
            raise BadInput(
                "how many, or how far apart?",
                wanted=f'"{number.count} holes" or "holes {number.count} mm"',
            )
    if named is None and number.weighs:
        return Dimension.MASS
    if named is None and (number.after_thread or (number.unit and words & LONG_PARTS)):
        return Dimension.LENGTH
    return named


def _of_what(number: Number) -> list[str]:
    if not number.unit:
        return []
    said = number.text
    return [f'{said}: of what? Write "holes {said}", "{said} long" or the like; taken as words.']


def _measured(number: Number, what: Dimension, *, units: Literal["mm", "in"]) -> Measured:
    value, doubt = number.read(what, units=units)
    if doubt == 0.0:
        by_length = what.unit == "mm" and what is not Dimension.PITCH
        instrument = number.tool if by_length else ""
        doubt = usual_doubt(what, instrument=instrument)
    return Measured(dimension=what, value=value, doubt=doubt, written=number.text)


def _once(measured: Measured, before: list[Measured]) -> Measured:
    """Return a measurement of a dimension that none before it is of."""
    for other in before:
        if other.dimension is measured.dimension:
            raise BadInput(
                f"{measured.dimension} was said before, {other.written}",
                wanted='a range such as "40 to 44 mm" if either will do',
            )
    return measured


def _sentence(fault: BadInput) -> str:
    end = "" if fault.what.endswith("?") else "."
    wanted = f"Write {fault.wanted}." if fault.wanted else ""
    return " ".join(filter(None, (f"{fault.what}{end}", wanted, fault.step)))
