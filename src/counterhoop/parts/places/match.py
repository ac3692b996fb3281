"""What is found when a pattern of holes is laid on old ones."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from counterhoop.errors import BadInput
from counterhoop.fittings.entry import PatternHole
from counterhoop.parts.places.place import HoleAt
from counterhoop.parts.places.pose import Pose, centre_of
from counterhoop.parts.places.screw import Screw
from counterhoop.scheme.reuse.limits import Limits, Tier

Turn: TypeAlias = Literal["upright", "half turn too", "any"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """One hole of a pattern that an old hole serves.

    Attributes
    ----------
    pattern, hole : int
        Which of the pattern and which of the old ones, from 0.
    tier : Tier
        Keep, or enlarge.
    off_mm : float
        How far the old hole lies from where it is wanted, beyond the travel of a slot in the part.
    opening_mm : float
        Diameter afterwards: the old one, or the smallest round hole that holds old and wanted.
    """

    pattern: int
    hole: int
    tier: Tier = Tier.KEEP
    off_mm: float = 0.0
    opening_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """One way in which a pattern goes on old holes.

    Attributes
    ----------
    pose : Pose
        The one that leaves most room.
    pairs : tuple of Pair
        In the pattern's order.
    new : tuple of int
        Holes of the pattern that no old hole serves.
    slack_mm : float
        Room of the screw in a hole that stays which has least, to 0.001 mm; 0 when none stays.
    doubt_mm : float
        Largest doubt of the old holes that serve.
    """

    pose: Pose
    pairs: tuple[Pair, ...]
    new: tuple[int, ...] = ()
    slack_mm: float = 0.0
    doubt_mm: float = 0.0

    @property
    def as_it_is(self) -> bool:
        """Whether no hole is cut."""
        return not self.new and all(pair.tier is Tier.KEEP for pair in self.pairs)

    @property
    def too_close(self) -> bool:
        """Whether the doubt of the old holes decides if two or more that stay go together.

        Where one is enlarged, or only one stays, the part itself shows where the others are cut.
        """
        stay = sum(pair.tier is Tier.KEEP for pair in self.pairs)
        return 1 < stay == len(self.pairs) and self.slack_mm < self.doubt_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A pattern over old holes, one hand of it: what each pair of holes would be."""

    pattern: tuple[PatternHole, ...]
    holes: tuple[HoleAt, ...]
    limits: Limits
    mirror: bool

    def furthest_mm(self, wanted: int, hole: int, tier: Tier) -> float | None:
        """How far off that hole may lie to be used so; None where it never can."""
        if tier is Tier.KEEP:
            play = (self.holes[hole].diameter_mm - self.pattern[wanted].screw_mm) / 2.0
            return min(play, self.limits.keep_mm) if play >= 0.0 else None
        return self.limits.enlarge_mm if self.limits.enlarge_mm > 0.0 else None

    def screw(self, wanted: int, hole: int, *, play_mm: float) -> Screw:
        """One hole of the pattern in one old hole."""
        part, old = self.pattern[wanted], self.holes[hole]
        right, down = centre_of(part, mirror=self.mirror)
        return Screw(
            right_mm=right,
            down_mm=down,
            hole_right_mm=old.along_mm,
            hole_down_mm=old.down_mm,
            play_mm=play_mm,
            half_along_mm=part.slot_along_mm / 2.0,
            half_down_mm=part.slot_down_mm / 2.0,
        )

    def off_mm(self, wanted: int, hole: int, pose: Pose) -> float:
        """How far an old hole lies off at a pose, beyond the travel of a slot in the part."""
        screw = self.screw(wanted, hole, play_mm=0.0)
        return -screw.room_mm(pose)

    def opening_mm(self, pair: Pair) -> float:
        """Diameter of the old hole afterwards."""
        old = self.holes[pair.hole].diameter_mm
        if pair.tier is Tier.KEEP:
            return old
        new = self.pattern[pair.pattern].hole_mm
        return max(old, new, (old + new) / 2.0 + pair.off_mm)

    def measured(self, pair: Pair, pose: Pose) -> Pair:
        """Return the pair with its figures at a pose."""
        off = replace(pair, off_mm=self.off_mm(pair.pattern, pair.hole, pose))
        return replace(off, opening_mm=self.opening_mm(off))


def check_pattern(pattern: tuple[PatternHole, ...], holes: tuple[HoleAt, ...]) -> None:
    """Raise ``BadInput`` for a pattern without holes, or old holes of one number."""
    if not pattern:
        raise BadInput(
            "a pattern without holes", where="pattern", wanted="the holes that the part has"
        )
    numbers = [hole.number for hole in holes if hole.number]
    if len(set(numbers)) < len(numbers):
        twice = next(n for n in numbers if numbers.count(n) > 1)
        raise BadInput("two old holes have one number", where="holes", given=twice)
