"""A shell with one head or two, as its sound asks for it."""

from __future__ import annotations

from dataclasses import dataclass, field

from counterhoop.errors import BadInput
from counterhoop.heads.air import Air, air_at
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
        for name in ("radius_m", "depth_m", "batter_n_per_m"):
            if not getattr(self, name) > 0.0:
                raise BadInput("must be more than nothing", where=name, given=getattr(self, name))
        for name in ("vent_m", "wall_m"):
            if not getattr(self, name) >= 0.0:
                raise BadInput("cannot be less than nothing", where=name, given=getattr(self, name))
        if not self.vent_m < self.depth_m:
            raise BadInput("wider than the shell is deep", where="vent_m", given=self.vent_m)
        if (self.resonant is None) != (self.resonant_n_per_m is None):
            raise BadInput("a resonant head has a tension, an open end has none", where="resonant")
        if self.resonant_n_per_m is not None and not self.resonant_n_per_m > 0.0:
            raise BadInput("must be more than nothing", where="resonant_n_per_m")

    @property
    def is_open(self) -> bool:
        """Whether the end that is not struck has no head."""
        return self.resonant is None
