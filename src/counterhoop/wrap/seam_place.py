"""Where round the drum the seam of the wrap hides best."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from counterhoop.errors import BadInput
from counterhoop.wrap.seat import Seat, seat

CLEAR_MM = 8.0
"""From a base or hole to the seam that does not run under it: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Base:
    """What sits on the wrap, or a hole in it, on the shell laid flat.

    Attributes
    ----------
    name : str
        "lug 3", "badge", "vent", "left leg".
    along_mm : float
        Its middle, along the new skin.
    breadth_mm : float
        Its extent along; the diameter of something round.
    from_down_mm, to_down_mm : float
        Its extent down.
    over_seam : bool
        A lug, which may sit on the seam; a badge, vent, bracket or leg keeps clear of it.
    """

    name: str
    along_mm: float
    breadth_mm: float
    from_down_mm: float
    to_down_mm: float
    over_seam: bool = False

    def __post_init__(self) -> None:
        sizes = (self.along_mm, self.breadth_mm, self.from_down_mm, self.to_down_mm)
        if not all(math.isfinite(v) for v in sizes) or self.breadth_mm <= 0:
            raise BadInput("not a size", where=self.name, given=sizes, wanted="millimetres")
        if self.to_down_mm <= self.from_down_mm:
            raise BadInput(
                "ends above where it begins",
                where=self.name,
                given=self.to_down_mm,
                wanted=f"more than {self.from_down_mm:g} mm down",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamPlace:
    """One place for the seam (for both, when the wrap is in two pieces).

    Attributes
    ----------
    along_mm : tuple of float
        Middle of each seam, along the new skin.
    allowed : bool
        Nothing rocks and everything else is clear.
    under : tuple of str
        Bases that cover the whole breadth of a seam.
    shows_mm : float
        Length of seam that no base covers.
    clear_mm : float
        From the rim of a seam to the nearest thing that is not on it; below zero it is under it.
    nearest : str
        What that is.
    troubles : tuple of str
        Why not, one sentence each.
    """

    along_mm: tuple[float, ...]
    allowed: bool
    under: tuple[str, ...]
    shows_mm: float
    clear_mm: float
    nearest: str
    troubles: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrapped:
    """The wrapped shell that a seam is placed on.

    Attributes
    ----------
    girth_mm : float
        Circumference of the new skin, on which all places are.
    from_down_mm, to_down_mm : float
        Rims of the wrap.
    overlap_mm, step_mm : float
        Breadth of the seam and the height of its step (one thickness; 0 for a butt seam).
    second_after_mm : float
        From the first seam to the second, along; 0 for a wrap in one piece.
    """

    girth_mm: float
    from_down_mm: float
    to_down_mm: float
    overlap_mm: float
    step_mm: float
    second_after_mm: float = 0.0

    def __post_init__(self) -> None:
        whole = (self.girth_mm, self.overlap_mm, self.step_mm, self.second_after_mm)
        if not all(math.isfinite(v) and v >= 0 for v in whole) or self.girth_mm <= 0:
            raise BadInput("not a size", where="wrap", given=whole, wanted="millimetres")
        if self.to_down_mm <= self.from_down_mm:
            raise BadInput(
                "the wrap ends above where it begins", where="wrap", given=self.to_down_mm
            )

    def seams_mm(self, along_mm: float) -> tuple[float, ...]:
        """Return the middle of every seam when the first is here."""
        first = along_mm % self.girth_mm
        if not self.second_after_mm:
            return (first,)
        return first, (first + self.second_after_mm) % self.girth_mm

    def apart_mm(self, from_mm: float, to_mm: float) -> float:
        """Return the shorter way round, from one place to another; to the right is above 0."""
        half = self.girth_mm / 2
        return (to_mm - from_mm + half) % self.girth_mm - half


def judge_seam(
    along_mm: float, *, on: Wrapped, bases: Sequence[Base], clear_mm: float = CLEAR_MM
) -> SeamPlace:
    """Say what is right and wrong with a seam at one place.

    Examples
    --------
    >>> shell = Wrapped(girth_mm=1118.0, from_down_mm=12.0, to_down_mm=190.0, overlap_mm=25.0,
    ...                 step_mm=0.5)
    >>> lug = Base(name="lug 1", along_mm=100.0, breadth_mm=24.0, from_down_mm=30.0,
    ...            to_down_mm=75.0, over_seam=True)
    >>> judge_seam(112.5, on=shell, bases=[lug]).troubles
    ('lug 1 sits half on the seam and rocks: one side 10 tenths of a mm proud, 2.4 degrees.',)
    """
    seams = on.seams_mm(along_mm)
    under: dict[str, None] = {}
    troubles: list[str] = []
    nearest = (math.inf, "")
    shows = 0.0
    for seam in seams:
        covered = []
        for base in bases:
            offset = on.apart_mm(base.along_mm, seam)
            gap = abs(offset) - base.breadth_mm / 2 - on.overlap_mm / 2
            sits = seat(offset, base_mm=base.breadth_mm, seam_mm=on.overlap_mm, step_mm=on.step_mm)
            whole = sits.covers or abs(offset) + base.breadth_mm / 2 <= on.overlap_mm / 2 + 1e-9
            if sits.covers and base.over_seam:
                covered.append((base.from_down_mm, base.to_down_mm))
                under[base.name] = None
            if not (base.over_seam and whole and sits.steady):
                nearest = min(nearest, (gap, base.name))
                if gap < clear_mm - 1e-9:
                    troubles.append(_trouble(base, sits, gap=gap, clear_mm=clear_mm, step=on))
        shows += on.to_down_mm - on.from_down_mm - _length(covered, on)
    return SeamPlace(
        along_mm=seams,
        allowed=not troubles,
        under=tuple(under),
        shows_mm=shows,
        clear_mm=nearest[0],
        nearest=nearest[1],
        troubles=tuple(troubles),
    )


def _trouble(base: Base, sits: Seat, *, gap: float, clear_mm: float, step: Wrapped) -> str:
    if not sits.touches:
        return f"{base.name} is {gap:.1f} mm from the seam; {clear_mm:g} mm are wanted."
    if not base.over_seam:
        return f"{base.name} lies on the seam; {clear_mm:g} mm clear are wanted."
    if not sits.steady:
        return (
            f"{base.name} sits half on the seam and rocks: one side "
            f"{sits.rock_mm * 10:.0f} tenths of a mm proud, {sits.rock_deg:.1f} degrees."
        )
    return f"{base.name} covers part of the seam; all of it or {clear_mm:g} mm clear are wanted."


def _length(covered: Sequence[tuple[float, float]], on: Wrapped) -> float:
    """Return how much of the seam's length the bases cover, none counted twice."""
    total, reached = 0.0, on.from_down_mm
    for start, end in sorted(covered):
        first, last = max(start, reached), min(end, on.to_down_mm)
        if last > first:
            total += last - first
            reached = last
    return total


def seam_places(
    *,
    on: Wrapped,
    bases: Sequence[Base],
    bottom_mm: float | None = None,
    front_mm: float | None = None,
    clear_mm: float = CLEAR_MM,
) -> tuple[SeamPlace, ...]:
    """Return the allowed places for the seam, the best first.

    Tried are the middle of every lug and line of lugs, the middle of every gap, and the place
    opposite the front; on a bass drum also the bottom, and how far toward it the seam can come
    under each lug and beside each base. Under a line of lugs goes before a gap, less of the
    seam in sight before more; then the middle of a lug before beside it, the far side from the
    front, the wider clearance. On a bass drum the nearest to the bottom goes first.

    Parameters
    ----------
    on : Wrapped
        The wrapped shell.
    bases : sequence of Base
        Everything on it.
    bottom_mm : float or None
        The bottom of a bass drum, along.
    front_mm : float or None
        The side that is seen, along; often the badge.
    clear_mm : float
        Kept between the seam and what is not on it.

    Returns
    -------
    tuple of SeamPlace
        Empty when there is no place; then ``judge_seam`` says why for each that was hoped for.
    """
    tried = _candidates(on, bases)
    if bottom_mm is not None:
        tried.append(bottom_mm)
        for base in bases:
            beside = (base.breadth_mm + on.overlap_mm) / 2 + clear_mm
            below = abs(base.breadth_mm - on.overlap_mm) / 2
            tried += [base.along_mm + reach for reach in (-beside, -below, below, beside)]
    tried.append(front_mm + on.girth_mm / 2 if front_mm is not None else 0.0)
    places = {
        round(start % on.girth_mm, 6): judge_seam(start, on=on, bases=bases, clear_mm=clear_mm)
        for along in tried
        for start in (along, along - on.second_after_mm)
    }

    def order(place: SeamPlace) -> tuple[float, ...]:
        far = (
            -min(abs(on.apart_mm(front_mm, a)) for a in place.along_mm)
            if front_mm is not None
            else 0.0
        )
        low = (
            sum(abs(on.apart_mm(bottom_mm, a)) for a in place.along_mm)
            if bottom_mm is not None
            else 0.0
        )
        return (
            round(low, 3),
            round(place.shows_mm, 3),
            round(_off_middle_mm(place, on, bases), 3),
            round(far, 3),
            -place.clear_mm,
            place.along_mm[0],
        )

    return tuple(sorted((p for p in places.values() if p.allowed), key=order))


def _off_middle_mm(place: SeamPlace, on: Wrapped, bases: Sequence[Base]) -> float:
    """How far the seams lie off the middles of the bases over them."""
    return sum(
        min(abs(on.apart_mm(base.along_mm, along)) for along in place.along_mm)
        for base in bases
        if base.name in place.under
    )


def _candidates(on: Wrapped, bases: Sequence[Base]) -> list[float]:
    """Return the middles of lugs, of lines of lugs and of the gaps between rims of bases."""
    lugs = [base for base in bases if base.over_seam]
    tried = [base.along_mm for base in lugs]
    for one, other in combinations(lugs, 2):
        off = on.apart_mm(one.along_mm, other.along_mm)
        if 0 < abs(off) < min(one.breadth_mm, other.breadth_mm):
            tried.append(one.along_mm + off / 2)
    ends = sorted(
        ((base.along_mm - base.breadth_mm / 2) % on.girth_mm, base.breadth_mm) for base in bases
    )
    if not ends:
        return tried
    origin = ends[0][0]
    reached = origin
    for start, breadth in [*ends, (origin + on.girth_mm, 0.0)]:
        if start > reached:
            tried.append((start + reached) / 2)
        reached = max(reached, start + breadth)
    return tried
