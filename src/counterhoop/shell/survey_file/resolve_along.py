"""Places along become angles: on the tape, from a lug, a hole, a mark or a fitting by its name."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from counterhoop.development.tape import along_deg_read
from counterhoop.errors import BadInput
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.quantities.place_along import AtDegrees, FromMark, OnTape, PlaceAlong

Angle = Callable[[], float]


def mean_deg(angles_deg: Iterable[float]) -> float:
    """Return the middle of directions that lie close together, also across the datum.

    Exact for two; for more the mean of differences from the first, which is the arithmetic mean
    wherever they lie within half a turn.

    Examples
    --------
    >>> mean_deg([350.0, 20.0])
    5.0
    """
    first, *rest = angles_deg
    swings = [(angle - first + 180.0) % 360.0 - 180.0 for angle in rest]
    return (first + math.fsum(swings) / (len(swings) + 1)) % 360.0


@dataclass(slots=True, kw_only=True)
class PlaceFinder:
    """Everything on one drum that a place can be told from, worked out when it is asked for.

    Attributes
    ----------
    read_girth_mm : float
        What the tape read once round, not corrected: a place read with the same tape becomes an
        angle without the tape's thickness.
    girth_mm : float
        The circumference itself: offsets and diameters are real millimetres on the skin.
    """

    read_girth_mm: float
    girth_mm: float
    lugs: dict[tuple[str, int], Angle] = field(default_factory=dict)
    holes: dict[int, Angle] = field(default_factory=dict)
    marks: dict[str, list[Angle]] = field(default_factory=dict)
    named: dict[str, Angle] = field(default_factory=dict)
    asked: list[str] = field(default_factory=list)

    def off_deg(self, off_mm: float) -> float:
        """Angle of a real distance along the skin; may be below zero."""
        return 360.0 * off_mm / self.girth_mm

    def find(self, place: PlaceAlong, *, where: str) -> float:
        """Return a place along in degrees, [0, 360).

        Raises
        ------
        BadInput
            When it lies more than once round, or on something that is not on this drum.
        """
        if isinstance(place, AtDegrees):
            return place.along_deg % 360.0
        if isinstance(place, OnTape):
            try:
                return along_deg_read(place.tape_mm, read_girth_mm=self.read_girth_mm)
            except BadInput as fault:
                raise BadInput(
                    fault.what, where=where, given=place.as_written, wanted=fault.wanted
                ) from fault
        from_deg = self._mark(place, where=where)
        off = 360.0 * place.offset_mm / self.read_girth_mm + place.offset_deg
        if abs(off) > 360.0:
            raise BadInput(
                "the place lies more than once round the shell",
                where=where,
                given=place.as_written,
                wanted="an offset within the circumference",
            )
        return (from_deg + off + (180.0 if place.opposite else 0.0)) % 360.0

    def _mark(self, place: FromMark, *, where: str) -> float:
        angle, asked = self._angle(place, where=where)
        if asked in self.asked:
            raise BadInput(
                f"its place is told from {asked}, which is itself told from here",
                where=where,
                given=place.as_written,
                wanted='a place read on its own, such as "90 deg"',
                step='For a lug off its place write right = "-3 mm".',
            )
        self.asked.append(asked)
        try:
            return angle()
        finally:
            self.asked.pop()

    def _angle(self, place: FromMark, *, where: str) -> tuple[Angle, str]:
        def refuse(what: str, wanted: str, step: str = "") -> BadInput:
            return BadInput(what, where=where, given=place.as_written, wanted=wanted, step=step)

        if place.mark == "lug":
            head, number = place.head or "batter", place.number or 0
            if (head, number) in self.lugs:
                return self.lugs[head, number], f"{head} lug {number}"
            count = sum(1 for row, _ in self.lugs if row == head)
            raise refuse(
                f"there is no {head} lug {number}",
                f"a lug of its {count}" if count else "a place on something that is there",
                "" if count else f"This drum has no {head} row of lugs.",
            )
        if place.mark == "hole":
            if place.number in self.holes:
                return self.holes[place.number], f"hole {place.number}"
            raise refuse(f"there is no hole {place.number}", f"one of its {len(self.holes)} holes")
        if place.mark == "named":
            if place.name in self.named:
                return self.named[place.name], f'"{place.name}"'
            raise refuse(
                f'nothing on this drum is called "{place.name}"',
                'a fitting by its label, or a place such as "90 deg"',
                did_you_mean(place.name, self.named),
            )
        found = self.marks.get(place.mark, [])
        if len(found) == 1:
            return found[0], place.mark
        raise refuse(
            f"there are {len(found)} of it" if found else f"no {place.mark} is written down",
            'a place such as "90 deg"',
            f'Say which by its number, such as "hole 7", instead of "{place.mark}".'
            if found
            else "",
        )
