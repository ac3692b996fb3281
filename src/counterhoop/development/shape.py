"""Shapes of holes: round, slot, oval, rectangle."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, TypeAlias

Lie: TypeAlias = Literal["along", "down"]


@dataclass(frozen=True, slots=True)
class Round:
    """A round hole."""

    diameter_mm: float

    @property
    def size_mm(self) -> tuple[float, float]:
        """Extent along and down."""
        return (self.diameter_mm, self.diameter_mm)

    @property
    def around_mm(self) -> float:
        """Diameter of the smallest circle that holds it."""
        return self.diameter_mm


@dataclass(frozen=True, slots=True)
class _Long:
    width_mm: float
    length_mm: float
    lies: Lie = "along"

    @property
    def size_mm(self) -> tuple[float, float]:
        """Extent along and down."""
        both = (self.length_mm, self.width_mm)
        return both if self.lies == "along" else (both[1], both[0])

    @property
    def around_mm(self) -> float:
        """Diameter of the smallest circle that holds it."""
        return self.length_mm


@dataclass(frozen=True, slots=True)
class Slot(_Long):
    """A hole with straight sides and round ends; ``length_mm`` is over the round ends."""


@dataclass(frozen=True, slots=True)
class Oval(_Long):
    """An ellipse, as a worn hole is."""


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A rectangular cut-out, such as a badge or a strainer box leaves."""

    along_mm: float
    down_mm: float

    @property
    def size_mm(self) -> tuple[float, float]:
        """Extent along and down."""
        return (self.along_mm, self.down_mm)

    @property
    def around_mm(self) -> float:
        """Diameter of the smallest circle that holds it."""
        return math.hypot(self.along_mm, self.down_mm)


HoleShape: TypeAlias = Round | Slot | Oval | Rectangle
