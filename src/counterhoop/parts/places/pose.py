"""How a part stands on the skin: mirrored or not, turned, and moved."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.development.outline import Outline
from counterhoop.fittings.entry import PatternHole


@dataclass(frozen=True, slots=True, kw_only=True)
class Pose:
    """Where a part's reference point lies, and how the part is turned about it.

    Attributes
    ----------
    right_mm, down_mm : float
        The reference point on the skin laid flat.
    turn_deg : float
        Right toward down is positive, as for an outline.
    mirrored : bool
        Left and right of the part are changed before it is turned: the other hand of a pair.

    Examples
    --------
    >>> Pose(right_mm=10.0, down_mm=0.0, turn_deg=90.0, mirrored=True).at(3.0, 1.0)
    (9.0, -3.0)
    """

    right_mm: float
    down_mm: float
    turn_deg: float = 0.0
    mirrored: bool = False

    def at(self, right_mm: float, down_mm: float) -> tuple[float, float]:
        """Return where a point of the part comes to lie."""
        return self.laid(Outline(((right_mm, down_mm),))).points[0]

    def laid(self, outline: Outline) -> Outline:
        """Return an outline of the part as it comes to lie."""
        own = mirrored(outline) if self.mirrored else outline
        return own.turned(self.turn_deg).moved(self.right_mm, self.down_mm)


def mirrored(outline: Outline) -> Outline:
    """Return an outline with left and right changed."""
    return Outline(tuple((-x, y) for x, y in outline.points))


def centre_of(hole: PatternHole, *, mirror: bool) -> tuple[float, float]:
    """Return a pattern hole's centre from the reference point of the part or of its other hand."""
    return (-hole.right_mm if mirror else hole.right_mm, hole.down_mm)
