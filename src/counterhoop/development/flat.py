"""The shell laid flat: one surface, one depth, one state of truing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from counterhoop.development.surface import Surface

End: TypeAlias = Literal["batter", "resonant"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A glued reinforcement inside one end."""

    end: End
    wide_mm: float
    thick_mm: float


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
    """

    surface: Surface
    depth_mm: float
    wall_mm: float
    rings: tuple[Ring, ...] = ()
    after_truing: bool = False

    def wall_at_mm(self, down_mm: float) -> float:
        """Thickness at a height, ring included."""
        extra = 0.0
        for ring in self.rings:
            from_edge = down_mm if ring.end == "batter" else self.depth_mm - down_mm
            if from_edge <= ring.wide_mm:
                extra = max(extra, ring.thick_mm)
        return self.wall_mm + extra

    def from_end_mm(self, down_mm: float, *, end: End) -> float:
        """Height from the named edge."""
        return down_mm if end == "batter" else self.depth_mm - down_mm
