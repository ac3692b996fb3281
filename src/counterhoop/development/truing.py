"""Wood taken off each end, and what it does to heights."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.development.place import Place


@dataclass(frozen=True, slots=True)
class Removal:
    """What comes off one end: a plane cut, ``mean + cos cos(along) + sin sin(along)``.

    A constant is the special case of an edge taken down square.
    """

    mean_mm: float = 0.0
    cos_mm: float = 0.0
    sin_mm: float = 0.0

    def at_mm(self, along_deg: float) -> float:
        """Millimetres removed at one place round the rim."""
        a = math.radians(along_deg)
        return self.mean_mm + self.cos_mm * math.cos(a) + self.sin_mm * math.sin(a)


@dataclass(frozen=True, slots=True, kw_only=True)
class Truing:
    """What comes off both ends. Nothing at all is ``Truing()``."""

    batter: Removal = Removal()
    resonant: Removal = Removal()

    @property
    def any(self) -> bool:
        """Whether anything is removed at all."""
        return self != Truing()

    def moved(self, place: Place) -> Place:
        """Return the place as measured from the new batter edge."""
        return Place(place.along_deg, place.down_mm - self.batter.at_mm(place.along_deg))

    def depth_mm(self, depth_mm: float, *, along_deg: float) -> float:
        """Depth left at one place round the rim."""
        return depth_mm - self.batter.at_mm(along_deg) - self.resonant.at_mm(along_deg)
