"""The shell laid flat: one surface, one depth, one state of truing."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, TypeAlias

from counterhoop.development.surface import Surface

End: TypeAlias = Literal["batter", "resonant"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A glued reinforcement inside one end.

    ``wide_mm`` is the mean round the rim; ``wide_cos_mm`` and ``wide_sin_mm`` are what a slanting
    cut has left of it more on one side than on the other.
    """

    end: End
    wide_mm: float
    thick_mm: float
    wide_cos_mm: float = 0.0
    wide_sin_mm: float = 0.0

    def wide_at_mm(self, along_deg: float) -> float:
        """Width left at one place round the rim."""
        return self.wide_mm + _swing(self.wide_cos_mm, self.wide_sin_mm, along_deg)


@dataclass(frozen=True, slots=True, kw_only=True)
class Development:
    """The outer skin cut at the datum and laid flat.

    Attributes
    ----------
    surface : Surface
        The skin that millimetres along lie on.
    depth_mm : float
        Between the planes of the two edges, in this state (the mean round the rim).
    wall_mm : float
        From this surface to the bore, away from the rings (finish included).
    rings : tuple of Ring
        Their width is what is left of it in this state.
    after_truing : bool
        Which of the two geometries this is.
    depth_cos_mm, depth_sin_mm : float
        How the depth swings round the rim when the two edges are not parallel.
    """

    surface: Surface
    depth_mm: float
    wall_mm: float
    rings: tuple[Ring, ...] = ()
    after_truing: bool = False
    depth_cos_mm: float = 0.0
    depth_sin_mm: float = 0.0

    def depth_at_mm(self, along_deg: float) -> float:
        """Depth at one place round the rim."""
        return self.depth_mm + _swing(self.depth_cos_mm, self.depth_sin_mm, along_deg)

    def swing_mm(self, along_deg: float) -> float:
        """Depth at one place less the mean round the rim."""
        return _swing(self.depth_cos_mm, self.depth_sin_mm, along_deg)

    def swings_mm(self, *, from_deg: float = 0.0, to_deg: float = 360.0) -> tuple[float, float]:
        """Least and greatest swing of the depth over a stretch that runs to the right.

        Examples
        --------
        >>> from counterhoop.development.surface import Skin
        >>> flat = Development(
        ...     surface=Surface(skin=Skin.OLD, circumference_mm=360.0),
        ...     depth_mm=140.0,
        ...     wall_mm=5.0,
        ...     depth_cos_mm=2.0,
        ... )
        >>> flat.swings_mm(), flat.swings_mm(from_deg=-90.0, to_deg=90.0)[1]
        ((-2.0, 2.0), 2.0)
        """
        if self.depth_cos_mm == 0.0 and self.depth_sin_mm == 0.0:
            return (0.0, 0.0)
        most_deg = math.degrees(math.atan2(self.depth_sin_mm, self.depth_cos_mm))
        most_mm = math.hypot(self.depth_cos_mm, self.depth_sin_mm)
        wide_deg = to_deg - from_deg
        found = [self.swing_mm(from_deg), self.swing_mm(to_deg)]
        for turned_deg, there_mm in ((most_deg, most_mm), (most_deg + 180.0, -most_mm)):
            if (turned_deg - from_deg) % 360.0 <= wide_deg:
                found.append(there_mm)
        return (min(found), max(found))

    def depths_mm(self, *, from_deg: float = 0.0, to_deg: float = 360.0) -> tuple[float, float]:
        """Least and greatest depth over a stretch that runs to the right."""
        least_mm, most_mm = self.swings_mm(from_deg=from_deg, to_deg=to_deg)
        return (self.depth_mm + least_mm, self.depth_mm + most_mm)

    def wall_at_mm(self, down_mm: float, *, along_deg: float | None = None) -> float:
        """Thickness at a height, ring included; without ``along_deg`` by the mean depth."""
        extra = 0.0
        for ring in self.rings:
            from_edge = self.from_end_mm(down_mm, end=ring.end, along_deg=along_deg)
            wide = ring.wide_mm if along_deg is None else ring.wide_at_mm(along_deg)
            if from_edge <= wide:
                extra = max(extra, ring.thick_mm)
        return self.wall_mm + extra

    def from_end_mm(self, down_mm: float, *, end: End, along_deg: float | None = None) -> float:
        """Height from the named edge; without ``along_deg`` by the mean depth."""
        if end == "batter":
            return down_mm
        return (self.depth_mm if along_deg is None else self.depth_at_mm(along_deg)) - down_mm


def _swing(cos_mm: float, sin_mm: float, along_deg: float) -> float:
    if cos_mm == 0.0 and sin_mm == 0.0:
        return 0.0
    a = math.radians(along_deg)
    return cos_mm * math.cos(a) + sin_mm * math.sin(a)
