"""The skin that a millimetre along lies on."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum


class Skin(StrEnum):
    """Which skin of the shell."""

    BARE = "bare wood"
    OLD = "over the old finish"
    NEW = "over the new finish"


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """A named skin and its circumference.

    Examples
    --------
    >>> old = Surface(skin=Skin.OLD, circumference_mm=360.0)
    >>> old.along_mm(90.0), old.along_deg(370.0)
    (90.0, 10.0)
    >>> old.apart_mm(350.0, 10.0)
    20.0
    """

    skin: Skin
    circumference_mm: float

    @property
    def radius_mm(self) -> float:
        """Radius of the round shell with this circumference."""
        return self.circumference_mm / (2.0 * math.pi)

    def along_mm(self, along_deg: float) -> float:
        """Millimetres along this skin from the datum."""
        return along_deg * self.circumference_mm / 360.0

    def along_deg(self, along_mm: float) -> float:
        """Angle in [0, 360) of a distance along this skin."""
        return (along_mm * 360.0 / self.circumference_mm) % 360.0

    def apart_mm(self, from_deg: float, to_deg: float) -> float:
        """Shortest signed way along the skin, in [-C/2, C/2)."""
        return self.along_mm((to_deg - from_deg + 180.0) % 360.0 - 180.0)
