"""A hole in the shell, as found."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape

ON_THE_WAY: Final = "found on the way"
"""The purpose of a hole that was found once work had begun: nobody knows what it was for."""


class Origin(StrEnum):
    """Who made it."""

    FACTORY = "factory"
    EXTRA = "extra"
    NOT_SURE = "not sure"


class Condition(StrEnum):
    """What state the wood round the hole is in."""

    SOUND = "sound"
    WORN = "worn"
    BROKEN_OUT = "broken out"
    DOWEL = "plugged with a dowel"
    FACE_GRAIN = "plugged with face grain"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """One hole as found; heights are from the batter edge before any truing.

    Attributes
    ----------
    number : int
        Its number on the hole list, from 1.
    place : Place
        The centre, made from what was read.
    shape : HoleShape
        Size in millimetres.
    purpose : str
        What it was for, in words ("lug 3, upper").
    origin, who_says : Origin, str
        Factory, extra or not sure, and on whose word.
    condition : Condition
        Sound, worn, broken out or plugged by an earlier owner.
    doubt_mm : float
        Half-width of the doubt of the centre, along and down alike (rule and tape 0.5).
    as_written : str
        What was written down, kept.
    """

    number: int
    place: Place
    shape: HoleShape
    purpose: str = ""
    origin: Origin = Origin.NOT_SURE
    who_says: str = ""
    condition: Condition = Condition.SOUND
    doubt_mm: float = 0.5
    as_written: str = ""
