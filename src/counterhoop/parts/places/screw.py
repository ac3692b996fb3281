"""Screws of a part in old holes: how far each may lie off, as arrays about two middles."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.parts.places.pose import Pose

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Screw:
    """One screw of a part that is to go through one old hole.

    Attributes
    ----------
    right_mm, down_mm : float
        The screw's middle from the part's reference point, the part upright (mirrored already).
    half_along_mm, half_down_mm : float
        Half of the travel that a slotted hole in the part gives.
    hole_right_mm, hole_down_mm : float
        Centre of the old hole on the skin.
    play_mm : float
        How far off the old hole's centre may lie beyond that travel.
    """

    right_mm: float
    down_mm: float
    hole_right_mm: float
    hole_down_mm: float
    play_mm: float
    half_along_mm: float = 0.0
    half_down_mm: float = 0.0

    def room_mm(self, pose: Pose) -> float:
        """Room left at a pose; below zero by how much the screw lies out."""
        a = math.radians(pose.turn_deg)
        c, s = math.cos(a), math.sin(a)
        x, y = self.hole_right_mm - pose.right_mm, self.hole_down_mm - pose.down_mm
        off = (
            max(0.0, abs(c * x + s * y - self.right_mm) - self.half_along_mm),
            max(0.0, abs(c * y - s * x - self.down_mm) - self.half_down_mm),
        )
        return self.play_mm - math.hypot(*off)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Screws:
    """Screws (k) as columns: in the part and in the skin, each about its own middle (k x 2).

    ``reach_mm`` is the furthest that a hole lies from the middle of all: so much does its misfit
    change with a radian of turn, at most.
    """

    part: Floats
    skin: Floats
    half: Floats
    play: Floats
    part_middle: Floats
    skin_middle: Floats

    @classmethod
    def of(cls, screws: Sequence[Screw]) -> Screws:
        """Lay out one screw or more."""
        part = np.array([(s.right_mm, s.down_mm) for s in screws], dtype=float)
        skin = np.array([(s.hole_right_mm, s.hole_down_mm) for s in screws], dtype=float)
        return cls(
            part=part - part.mean(axis=0),
            skin=skin - skin.mean(axis=0),
            half=np.array([(s.half_along_mm, s.half_down_mm) for s in screws], dtype=float),
            play=np.array([s.play_mm for s in screws], dtype=float),
            part_middle=part.mean(axis=0),
            skin_middle=skin.mean(axis=0),
        )

    @property
    def reach_mm(self) -> float:
        """Distance of the furthest hole from the middle of all."""
        return float(np.max(np.hypot(self.skin[:, 0], self.skin[:, 1])))

    def misfits(self, turns: Floats) -> Floats:
        """Old less wanted centres, seen from the part turned by each turn (n x k x 2; radians)."""
        c, s = np.cos(turns)[:, None], np.sin(turns)[:, None]
        x, y = self.skin[:, 0], self.skin[:, 1]
        seen = np.stack([c * x + s * y, c * y - s * x], axis=2)
        return np.subtract(seen, self.part, dtype=np.float64)

    def least_room(self, misfits: Floats, shifts: Floats) -> Floats:
        """Room of the screw that has least, for shifts of the part (... x 2) in its own frame.

        ``misfits`` (... x k x 2) stand before the shift. Below zero by how much it lies out.
        """
        off = np.abs(misfits - shifts[..., None, :]) - self.half
        beyond = np.maximum(off, 0.0)
        room: Floats = (self.play - np.hypot(beyond[..., 0], beyond[..., 1])).min(axis=-1)
        return room

    def pose(self, turn: float, shift: Floats, *, mirror: bool) -> Pose:
        """Return the pose of a turn and a shift (2) in the part's own frame."""
        c, s = math.cos(turn), math.sin(turn)
        u, v = float(shift[0]) - self.part_middle[0], float(shift[1]) - self.part_middle[1]
        right = self.skin_middle[0] + c * u - s * v
        down = self.skin_middle[1] + s * u + c * v
        degrees = (math.degrees(turn) + 180.0) % 360.0 - 180.0
        return Pose(right_mm=float(right), down_mm=float(down), turn_deg=degrees, mirrored=mirror)
