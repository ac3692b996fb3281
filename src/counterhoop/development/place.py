"""A place on the shell laid flat."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Place:
    """Along and down: where something lies on the shell laid flat.

    Attributes
    ----------
    along_deg : float
        Angle from the datum, [0, 360), growing to the right as one looks at the outside with the
        batter edge up (anticlockwise seen from the batter side). Kept as an angle so that a new
        finish moves nothing.
    down_mm : float
        Distance from the plane of the batter edge, downward.
    """

    along_deg: float
    down_mm: float

    def __post_init__(self) -> None:
        object.__setattr__(self, "along_deg", float(self.along_deg) % 360.0 % 360.0)
        object.__setattr__(self, "down_mm", float(self.down_mm))
