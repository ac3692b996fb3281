"""Heights in which a row is level where the edges of its shell are not parallel."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.development.flat import Development
from counterhoop.development.place import Place
from counterhoop.scheme.layout import RowOf

SHARES: dict[RowOf, float] = {"batter": 0.0, "resonant": 1.0, "both": 0.5, "": 0.0}
"""How much of the depth's swing a row takes part in: all of it where it follows the resonant edge,
half on the middle between the two."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """Heights from a row's own edge, or from the middle of the shell for long lugs.

    They are millimetres down with the row's share of the swing taken out, so that one number says
    where a whole row lies. With parallel edges they are plain heights from the batter edge.
    """

    flat: Development
    row: RowOf

    def height_mm(self, place: Place) -> float:
        """Return the height of a place, as this row counts."""
        return place.down_mm - self.swing_mm(place.along_deg)

    def place(self, along_deg: float, height_mm: float) -> Place:
        """Return the place at a height of this row's."""
        return Place(along_deg, height_mm + self.swing_mm(along_deg))

    def swing_mm(self, along_deg: float) -> float:
        """Return how much farther down than on the mean the row lies at one place."""
        share = SHARES[self.row]
        return share * self.flat.swing_mm(along_deg) if share else 0.0

    def room_mm(self, *, from_deg: float, to_deg: float) -> tuple[float, float]:
        """Return where the two edges narrow the shell most over a stretch, as this row counts."""
        share = SHARES[self.row]
        least_mm, _ = self.flat.swings_mm(from_deg=from_deg, to_deg=to_deg)
        return (0.0 - share * least_mm, self.flat.depth_mm + (1.0 - share) * least_mm)
