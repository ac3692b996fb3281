"""What the search answers."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.scheme.reuse.limits import Tier


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """One old hole that serves one wanted hole.

    Attributes
    ----------
    lug, hole : int
        Fitting in the group, and hole in the fitting, from 0.
    number : int
        The old hole.
    tier : Tier
        Keep, enlarge or slot.
    off_along_mm, off_down_mm : float
        Where the old centre lies from the wanted one, right and down positive, after the travel
        that a slotted part or a long old hole takes up.
    width_mm, length_mm : float
        The opening afterwards: a round hole's diameter twice; a slot's width, and its length over
        the round ends.
    """

    lug: int
    hole: int
    number: int
    tier: Tier
    off_along_mm: float
    off_down_mm: float
    width_mm: float
    length_mm: float

    @property
    def off_mm(self) -> float:
        """How far off the old hole lies."""
        return float((self.off_along_mm**2 + self.off_down_mm**2) ** 0.5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reuse:
    """A pose and the best use of old holes at it.

    Attributes
    ----------
    turn_mm, down_mm : float
        The pose. Its turn lies in the window as given (not wrapped).
    value : int
        Sum of the weights of all matches.
    matches : tuple of Match
        By fitting and hole.
    wanted : int
        Holes wanted in all.
    from_ideal_mm : float
        How far the pose lies from the ideal, the short way round.
    free : bool
        Whether the pose is allowed: not barred, and nothing drilled where it may not be.
    candidates : int
        Poses that were compared.
    proven : bool
        Whether no pose of the window is worth more, and none worth as much is nearer to the ideal.
    """

    turn_mm: float
    down_mm: float
    value: int
    matches: tuple[Match, ...]
    wanted: int
    from_ideal_mm: float = 0.0
    free: bool = True
    candidates: int = 1
    proven: bool = False

    def count(self, tier: Tier) -> int:
        """How many old holes are used this way."""
        return sum(match.tier is tier for match in self.matches)

    @property
    def kept(self) -> int:
        """Old holes kept as they are."""
        return self.count(Tier.KEEP)

    @property
    def enlarged(self) -> int:
        """Old holes enlarged."""
        return self.count(Tier.ENLARGE)

    @property
    def slotted(self) -> int:
        """Old holes slotted."""
        return self.count(Tier.SLOT)

    @property
    def used(self) -> int:
        """Old holes used in any way."""
        return len(self.matches)

    @property
    def misfit_mm2(self) -> float:
        """Sum of the squares of how far off the used holes lie."""
        return float(sum(m.off_along_mm**2 + m.off_down_mm**2 for m in self.matches))


@dataclass(frozen=True, slots=True, kw_only=True)
class NoRoom:
    """No pose of the window is free. ``candidates`` says how many were tried; it is proven."""

    candidates: int
    proven: bool = True
