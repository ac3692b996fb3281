"""How far off an old hole may lie for each way of using it, and what each way is worth."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import IntEnum

from counterhoop.errors import BadInput


class Tier(IntEnum):
    """How an old hole is used, best first."""

    KEEP = 0
    ENLARGE = 1
    SLOT = 2

    @property
    def word(self) -> str:
        """The verdict's word."""
        return self.name.lower()


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How far off is near enough, by what is done to the hole.

    Attributes
    ----------
    keep_mm : float
        As it is: at most this far off, and within the screw's play (d_old - d_screw) / 2.
    enlarge_mm : float
        Enlarged to a round hole that holds the old and the wanted one: at most this far off.
    slot_mm : float
        Slotted at the wanted width: at most this far off. Only where the old hole is no wider
        than the wanted one.
    opening_inside_mm : float
        An enlarged or slotted opening lies this far inside base or washer.
    lengthways : bool
        Whether a slot may run in any direction. Otherwise it runs along the shell: off down by
        no more than ``keep_mm`` and than the slot's own play, (d_new - d_screw) / 2 for the screw
        in it plus (d_new - d_old) / 2 for the old hole in it.
    bush : bool
        Whether all holes of a fitting may be slotted because a bush locates it. Otherwise one of
        them counts as not used and is drilled afresh: a fitting with one hole is never slotted.

    Notes
    -----
    The figures are shop rules (common practice, no source).
    """

    keep_mm: float
    enlarge_mm: float
    slot_mm: float
    opening_inside_mm: float = 1.0
    lengthways: bool = False
    bush: bool = False

    def __post_init__(self) -> None:
        for name in ("keep_mm", "enlarge_mm", "slot_mm", "opening_inside_mm"):
            value = getattr(self, name)
            if not (math.isfinite(value) and value >= 0.0):
                raise BadInput("not a limit", where=name, given=value, wanted="0 mm or more")

    @property
    def furthest_mm(self) -> float:
        """The largest of the three."""
        return max(self.keep_mm, self.enlarge_mm, self.slot_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """What a hole kept, enlarged or slotted is worth: whole numbers, so that sums are exact.

    Keep is worth at least enlarge, enlarge at least slot, slot more than nothing: the search for
    the best pose rests on that order.
    """

    keep: int
    enlarge: int
    slot: int

    def __post_init__(self) -> None:
        if not self.keep >= self.enlarge >= self.slot > 0:
            raise BadInput(
                "the worth of an old hole is out of order",
                where="weights",
                given=(self.keep, self.enlarge, self.slot),
                wanted="keep at least enlarge, enlarge at least slot, slot more than 0",
            )

    @classmethod
    def more_then_better(cls, wanted: int) -> Weights:
        """Most old holes used; among those most kept; among those most enlarged, not slotted.

        Parameters
        ----------
        wanted : int
            Number of holes wanted.

        Examples
        --------
        >>> Weights.more_then_better(2)
        Weights(keep=12, enlarge=10, slot=9)
        """
        m = wanted + 1
        return cls(keep=m * m + m, enlarge=m * m + 1, slot=m * m)

    @property
    def by_tier(self) -> tuple[int, int, int]:
        """Worth of keep, enlarge, slot."""
        return (self.keep, self.enlarge, self.slot)
