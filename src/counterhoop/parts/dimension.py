"""What a caliper, a rule, a gauge or a scale can take on any part, and a reading of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.quantities.length import parse_length
from counterhoop.quantities.print_length import CALIPER_MM, TAPE_MM, print_mm
from counterhoop.quantities.thread_pitch import parse_thread_pitch
from counterhoop.quantities.weight import parse_weight
from counterhoop.sources import Source, load_table

Unit = Literal["mm", "g", "count"]
Wear = Literal["shrinks", "grows", "stays"]

STEPS = {"rule": TAPE_MM, "caliper": CALIPER_MM, "thread gauge": 0.02, "scale": 1.0, "eye": 0.0}
"""Smallest step of each instrument, in the unit that it reads: millimetres, the scale grams. A
blade of a thread gauge is told from the next by about so much pitch (common practice, no
source)."""


class Dimension(StrEnum):
    """One closed list of what may be measured, in bench words."""

    HOLES_APART = "holes apart"
    HOLES_APART_2 = "holes apart, second"
    HOLE_COUNT = "hole count"
    HOLE = "hole"
    SHELL_HOLE = "hole in the shell"
    SCREW = "mounting screw"
    BASE_WIDE = "base wide"
    BASE_HIGH = "base high"
    REACH = "stands out"
    PITCH = "pitch"
    MAJOR = "thread across"
    LENGTH = "length"
    THREAD_LENGTH = "threaded length"
    SHANK = "shank"
    ACROSS = "across"
    WIDE = "wide"
    HIGH = "high"
    TAKES = "takes"
    EARS = "ears"
    EAR_CIRCLE = "ears' circle"
    INSIDE = "inside"
    THICK = "thick"
    ROD_LINE = "rod line"
    MOUTHS_APART = "mouths apart"
    ROD_DEPTH = "rod goes in"
    MASS = "mass"

    @property
    def about(self) -> About:
        """Its unit, its wear, its spread and how it is taken."""
        return _abouts()[self]

    @property
    def unit(self) -> Unit:
        """ "mm", "g" or "count"."""
        return self.about.unit

    @property
    def wear_way(self) -> int:
        """Which way wear moves it: -1 (outer sizes, mass), +1 (holes, clamps) or 0."""
        return {"shrinks": -1, "grows": 1, "stays": 0}[self.about.wear]


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What is known of a dimension, whatever part it is taken on.

    Attributes
    ----------
    unit, wear : str
        What it is counted in, and what use does to it.
    worn, worn_share : float
        How much the mean used part has lost or its hole gained: in the unit, and as a share.
    cast, cast_share : float
        Standard deviation between new parts of one make: in the unit, and as a share.
    shared : float
        How often another make of the kind has the very same size (threads do, bases seldom).
    instrument, minutes, taken : str, float, str
        What it is usually taken with, how long that takes, and how.
    source : Source
        Where these come from.
    """

    unit: Unit
    wear: Wear
    worn: float = 0.0
    worn_share: float = 0.0
    cast: float = 0.0
    cast_share: float = 0.0
    shared: float = 0.0
    instrument: str
    minutes: float
    taken: str
    source: Source

    def worn_by(self, size: float) -> float:
        """Return the mean wear of a part of this size, without its sign."""
        return self.worn + self.worn_share * size

    def cast_by(self, size: float) -> float:
        """Return the standard deviation between new parts of this size."""
        return math.hypot(self.cast, self.cast_share * size)


@cache
def _abouts() -> dict[Dimension, About]:
    found = {}
    for row in load_table("counterhoop.parts", "dimensions.toml"):
        given = {name: value for name, value in row.values.items() if name != "called"}
        found[Dimension(row.values["called"])] = About(**given, source=row.source)
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """One dimension as it was read off a part.

    Attributes
    ----------
    dimension : Dimension
        Which.
    value : float
        In the dimension's unit.
    doubt : float
        Half-width of what the instrument cannot tell, in the same unit; 0 for a count.
    written : str
        What was written down.

    Raises
    ------
    BadInput
        For a value that no part has.
    """

    dimension: Dimension
    value: float
    doubt: float
    written: str = ""

    def __post_init__(self) -> None:
        where: str = self.dimension
        if not 0.0 <= self.value < math.inf:
            raise BadInput("no part measures that", where=where, given=self.value, wanted="12.5")
        if not 0.0 <= self.doubt < math.inf:
            raise BadInput("no doubt", where=where, given=self.doubt, wanted="0 or more")
        if _abouts()[self.dimension].unit == "count":
            if self.value != round(self.value):
                raise BadInput("not a whole number", where=where, given=self.value, wanted="2")
        elif self.doubt == 0.0:
            raise BadInput(
                "nothing is measured without doubt", where=where, given=0.0, wanted="0.1"
            )

    def __str__(self) -> str:
        """Print it as fine as the instrument gave it."""
        return print_size(self.dimension, self.value, doubt=self.doubt)


def print_size(dimension: Dimension, value: float, *, doubt: float) -> str:
    """Print a size with its unit, never finer than the doubt of its reading.

    Examples
    --------
    >>> print_size(Dimension.BASE_WIDE, 23.94, doubt=0.1), print_size(Dimension.EARS, 8, doubt=0)
    ('23.9 mm', '8')
    """
    if dimension.unit == "count":
        return f"{value:.0f}"
    if dimension.unit == "g":
        return f"{value:.0f} g"
    if dimension is Dimension.PITCH:
        return f"{value:.2f} mm"
    return print_mm(float(value), resolution_mm=doubt)


def surest(measured: Sequence[Measured]) -> tuple[Measured, ...]:
    """Return one reading of each dimension: the surest, the last of equally sure ones."""
    kept: dict[Dimension, Measured] = {}
    for one in measured:
        if one.dimension not in kept or one.doubt <= kept[one.dimension].doubt:
            kept[one.dimension] = one
    return tuple(kept.values())


def usual_doubt(dimension: Dimension, *, instrument: str = "") -> float:
    """Return the half-width of the doubt of a reading.

    Both ends are read to half a step, which makes one step together; a count has none.

    Parameters
    ----------
    dimension : Dimension
        What is read.
    instrument : str
        "rule", "caliper", "thread gauge", "scale" or "eye"; the usual one when left out.

    Raises
    ------
    BadInput
        For an instrument that is not known, or that does not read this.

    Examples
    --------
    >>> usual_doubt(Dimension.HOLES_APART), usual_doubt(Dimension.LENGTH)
    (0.1, 0.5)
    """
    usual = dimension.about.instrument
    chosen = instrument or usual
    lengths = ("rule", "caliper")
    if chosen != usual and not {chosen, usual} <= set(lengths):
        raise BadInput(
            "cannot be taken with that",
            where=dimension.value,
            given=chosen,
            wanted=" or ".join(lengths) if usual in lengths else usual,
        )
    return STEPS[chosen]


def read_measured(
    dimension: Dimension, text: str, *, instrument: str = "", where: str = ""
) -> Measured:
    """Read one measurement as it is written.

    Parameters
    ----------
    dimension : Dimension
        What it is of.
    text : str
        ``42.5 mm``, ``1 5/8 in``; of a pitch also ``24 tpi``; of a mass ``61 g``; of a count ``4``.
    instrument : str
        See `usual_doubt`.
    where : str
        Place in the form, for the message.

    Raises
    ------
    BadInput
        Says what to write instead.

    Examples
    --------
    >>> str(read_measured(Dimension.HOLES_APART, "1 5/8 in", instrument="rule"))
    '41.5 mm'
    >>> read_measured(Dimension.PITCH, "24 tpi").value
    1.0583333333333333
    """
    doubt = usual_doubt(dimension, instrument=instrument)
    if dimension is Dimension.PITCH:
        value = parse_thread_pitch(text, where=where).mm
    elif dimension.unit == "g":
        value = parse_weight(text, where=where).kg * 1000.0
    elif dimension.unit == "mm":
        value = parse_length(text, where=where, allow_zero=False).mm
    elif text.strip().isascii() and text.strip().isdigit():
        value = float(text)
    else:
        raise BadInput("not a count", where=where, given=text, wanted='a whole number such as "4"')
    return Measured(dimension=dimension, value=value, doubt=doubt, written=text)
