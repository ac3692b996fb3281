"""One way in which the heads of a drum vibrate."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal


class Standing(StrEnum):
    """How far a figure can be trusted."""

    EXACT = "exact"
    CHECKED = "computed, checked against a published value"
    UNCHECKED = "computed, no published check"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mode:
    """A mode of a drum.

    Attributes
    ----------
    around, circles : int
        Nodal diameters, and nodal circles with the rim, on the head that moves more.
    family : {"alone", "together", "against"}
        Whether both heads go the same way, or both outward at once; alone: there is one head.
    hz : float
        Its pitch.
    batter_share : float
        Share of the batter head in the kinetic energy of the heads, 0 to 1.
    batter_shape, resonant_shape : tuple of float
        Outward movement as factors of ``J_m(j_mn r / a)``, n from 1.
    standing : Standing
        What it was checked against.
    """

    around: int
    circles: int
    family: Literal["alone", "together", "against"]
    hz: float
    batter_share: float
    batter_shape: tuple[float, ...]
    resonant_shape: tuple[float, ...]
    standing: Standing

    @property
    def name(self) -> str:
        """As it is written: nodal diameters and circles, and how the heads go.

        Examples
        --------
        >>> Mode(around=0, circles=1, family="together", hz=154.4, batter_share=0.5,
        ...      batter_shape=(1.0,), resonant_shape=(-1.0,), standing=Standing.CHECKED).name
        '(0,1) heads together'
        """
        ways = {"alone": "", "together": " heads together", "against": " heads against each other"}
        return f"({self.around},{self.circles}){ways[self.family]}"
