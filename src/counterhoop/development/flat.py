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
