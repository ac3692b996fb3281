"""A shell with one head or two, as its sound asks for it."""

from __future__ import annotations

from dataclasses import dataclass, field

from counterhoop.errors import BadInput
from counterhoop.heads.air import Air, air_at
from counterhoop.heads.believed import believed, believed_pull, believed_radius
from counterhoop.heads.head import Head


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadedShell:
    """A round, rigid shell with evenly tensioned heads.

    Attributes
    ----------
    radius_m : float
        Inside the bearing edge, where the film is held.
    depth_m : float
        Between the heads, or from the head to the open end.
    batter, batter_n_per_m : Head, float
        The head that is struck, and its tension.
    resonant, resonant_n_per_m : Head or None, float or None
        The other one; None: that end is open.
    vent_m, wall_m : float
        How wide the vent is, 0: none, and how thick the wall that it goes through.
    air : Air
        In it and round it.

    Raises
    ------
    BadInput
        For what no drum has, and a resonant head without its tension.
    """

    radius_m: float
    depth_m: float
    batter: Head
    batter_n_per_m: float
    resonant: Head | None = None
    resonant_n_per_m: float | None = None
    vent_m: float = 0.0
    wall_m: float = 0.006
    air: Air = field(default_factory=air_at)

    def __post_init__(self) -> None:
        believed_radius(self.radius_m)
        believed(self.depth_m, where="depth_m", least=0.005, most=5.0, unit="m")
        believed_pull(self.batter_n_per_m, where="batter_n_per_m")
        believed(self.vent_m, where="vent_m", least=0.0, most=self.depth_m, unit="m")
        believed(self.wall_m, where="wall_m", least=0.0, most=self.radius_m, unit="m")
        if (self.resonant is None) != (self.resonant_n_per_m is None):
            raise BadInput("a resonant head has a tension, an open end has none", where="resonant")
        if self.resonant_n_per_m is not None:
            believed_pull(self.resonant_n_per_m, where="resonant_n_per_m")

    @property
    def is_open(self) -> bool:
        """Whether the end that is not struck has no head."""
        return self.resonant is None
