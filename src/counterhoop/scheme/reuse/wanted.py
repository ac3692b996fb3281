"""Holes that a rigid group of fittings wants, and the old holes that might serve."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeAlias

from counterhoop.errors import BadInput

Polygon: TypeAlias = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedHole:
    """A hole that a fitting wants, from the fitting's own reference point as it stands.

    Attributes
    ----------
    right_mm, down_mm : float
        Its centre, the fitting turned as it will stand, seen from outside.
    hole_mm, screw_mm : float
        Diameter wanted in the shell, and of the screw that goes through it.
    slot_along_mm, slot_down_mm : float
        Travel that a slotted hole in the part itself gives the screw's centre, end to end.
    washer_mm : float
        Diameter of a washer outside that hides an opening as a base does; 0 for none.
    """

    right_mm: float
    down_mm: float
    hole_mm: float
    screw_mm: float
    slot_along_mm: float = 0.0
    slot_down_mm: float = 0.0
    washer_mm: float = 0.0

    def __post_init__(self) -> None:
        _finite(self, "right_mm", "down_mm")
        _positive(self, "hole_mm", "screw_mm")
        _not_negative(self, "slot_along_mm", "slot_down_mm", "washer_mm")
        if self.screw_mm > self.hole_mm:
            raise BadInput(
                "the screw is thicker than the hole it is to go through",
                where="screw_mm",
                given=self.screw_mm,
                wanted=f"at most the hole's {self.hole_mm:g} mm",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedFitting:
    """One fitting of a rigid group: where it stands in the group, its holes and its base.

    ``base`` is the outline in which it touches the shell, about its reference point; empty when
    nothing limits how large an opening may be.
    """

    along_mm: float
    holes: tuple[WantedHole, ...]
    base: Polygon = ()

    def __post_init__(self) -> None:
        _finite(self, "along_mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedGroup:
    """Fittings, like or unlike, that turn and move down together on a shell of ``girth_mm``."""

    fittings: tuple[WantedFitting, ...]
    girth_mm: float

    def __post_init__(self) -> None:
        _positive(self, "girth_mm")

    @property
    def period_mm(self) -> float:
        """Turning by this much changes nothing: once round."""
        return self.girth_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedRow:
    """``count`` fittings of one kind at equal spacing round a shell of ``girth_mm``.

    Fitting 0 stands at the pose's turn, fitting ``i`` ``i`` spacings to its right.
    """

    holes: tuple[WantedHole, ...]
    count: int
    girth_mm: float
    base: Polygon = ()

    def __post_init__(self) -> None:
        _positive(self, "girth_mm")
        if self.count < 1:
            raise BadInput("a row without fittings", where="count", given=self.count, wanted="1 up")

    @property
    def period_mm(self) -> float:
        """Turning by one spacing only renumbers the fittings."""
        return self.girth_mm / self.count

    @property
    def fittings(self) -> tuple[WantedFitting, ...]:
        """The same row, fitting by fitting."""
        return tuple(
            WantedFitting(along_mm=i * self.girth_mm / self.count, holes=self.holes, base=self.base)
            for i in range(self.count)
        )


Wanted: TypeAlias = WantedRow | WantedGroup


@dataclass(frozen=True, slots=True, kw_only=True)
class OldHole:
    """A hole that is there, on the same surface as the wanted ones.

    Attributes
    ----------
    number : int
        Its number on the hole list; one number, one hole.
    along_mm, down_mm : float
        Its centre.
    diameter_mm : float
        Diameter; of a slot, its width. Give an oval as the circle or the slot that fits in it.
    longer_along_mm, longer_down_mm : float
        How much longer than wide a slot is, along or down. A hole that is longer than wide can be
        kept, and is not cut any longer or larger.
    usable : bool
        False for wood that holds nothing (broken out, plugged).
    """

    number: int
    along_mm: float
    down_mm: float
    diameter_mm: float
    longer_along_mm: float = 0.0
    longer_down_mm: float = 0.0
    usable: bool = True

    def __post_init__(self) -> None:
        _finite(self, "along_mm", "down_mm")
        _positive(self, "diameter_mm")
        _not_negative(self, "longer_along_mm", "longer_down_mm")


def _finite(record: object, *names: str) -> None:
    for name in names:
        value = getattr(record, name)
        if not math.isfinite(value):
            raise BadInput("not a place", where=name, given=value, wanted="millimetres")


def _positive(record: object, *names: str) -> None:
    for name in names:
        value = getattr(record, name)
        if not (math.isfinite(value) and value > 0.0):
            raise BadInput("not a size", where=name, given=value, wanted="more than 0 mm")


def _not_negative(record: object, *names: str) -> None:
    for name in names:
        value = getattr(record, name)
        if not (math.isfinite(value) and value >= 0.0):
            raise BadInput("not a length", where=name, given=value, wanted="0 mm or more")
