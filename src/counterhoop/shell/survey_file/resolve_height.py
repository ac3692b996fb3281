"""Heights from either edge become heights from the batter edge, at their own place along."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from counterhoop.errors import BadInput


@dataclass(frozen=True, slots=True, kw_only=True)
class Depth:
    """The depth between the planes that heights are measured from.

    Attributes
    ----------
    mean_mm, cos_mm, sin_mm : float
        Round the rim.
    readings_mm : tuple of (str, float)
        Edge to edge as read, by place.
    along_deg : tuple of float
        Where they were read; empty when no places were named.
    """

    mean_mm: float
    cos_mm: float = 0.0
    sin_mm: float = 0.0
    readings_mm: tuple[tuple[str, float], ...] = ()
    along_deg: tuple[float, ...] = ()

    @property
    def by_place(self) -> bool:
        """Whether three different places or more tell how the edges lie to each other."""
        return len({round(deg, 2) % 360.0 for deg in self.along_deg}) >= 3

    def at_mm(self, along_deg: float) -> float:
        """Return the depth at one place round the rim."""
        a = math.radians(along_deg)
        return self.mean_mm + self.cos_mm * math.cos(a) + self.sin_mm * math.sin(a)


@dataclass(frozen=True, slots=True, kw_only=True)
class Heights:
    """Turns heights as read into heights from the batter edge.

    ``depth`` is worked out when it is first asked for: depths are told by places along, and those
    by lugs and marks.
    """

    depth: Callable[[], Depth]

    def down_mm(
        self, read_mm: float, *, from_edge: str, along_deg: float, where: str, given: str
    ) -> float:
        """Return a height from the batter edge, whichever edge it was read from.

        Raises
        ------
        BadInput
            When it does not lie on the shell at all.
        """
        depth_mm = self.depth().at_mm(along_deg)
        down_mm = depth_mm - read_mm if from_edge == "resonant" else read_mm
        if not 0.0 <= down_mm <= depth_mm:
            raise BadInput(
                "outside the shell",
                where=where,
                given=given,
                wanted=f"between the edges, within {round(depth_mm, 1):g} mm",
                step="Look at the depth, and at the edge it was read from.",
            )
        return down_mm
