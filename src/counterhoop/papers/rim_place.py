"""Where a place along and a pitch lie on a strip round the rim."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from counterhoop.listen.advice import RodShare
from counterhoop.listen.round_rim import RimReading
from counterhoop.papers.drawing.records import Layer, Text

Anchor: TypeAlias = Literal["start", "middle", "end"]
HIGH_MM = 34.0
AXIS_MM, RIGHT_MM = 15.0, 6.0
LEAD_DEG = 8.0
"""Shown beyond the datum at both ends, so that a rod there is whole."""
NOTE_MM, NUMBER_MM = 3.5, 4.6


@dataclass(frozen=True, slots=True, kw_only=True)
class RimPlace:
    """A reading, what it is drawn with, and where its places and pitches lie, in paper millimetres.

    Attributes
    ----------
    reading, rods, pattern, even_cents
        As for ``draw_rim``.
    reach_cents : float
        Shown above and below the middle pitch.
    wide_mm, top_mm : float
        Of the whole drawing, and the upper rim of the strip in it.
    name : str
        Begins every ident.
    """

    reading: RimReading
    rods: tuple[tuple[int, float], ...]
    pattern: tuple[RodShare, ...]
    even_cents: float
    reach_cents: float
    wide_mm: float
    name: str
    top_mm: float

    def lowered(self, top_mm: float) -> RimPlace:
        """Return the same with its upper rim there."""
        return replace(self, top_mm=top_mm)

    @property
    def left_mm(self) -> float:
        """Where the strip begins."""
        return AXIS_MM

    @property
    def right_mm(self) -> float:
        """Where it ends."""
        return self.wide_mm - RIGHT_MM

    @property
    def bottom_mm(self) -> float:
        """Its lower rim."""
        return self.top_mm + HIGH_MM

    @property
    def zero_mm(self) -> float:
        """Where the middle pitch lies."""
        return self.top_mm + HIGH_MM / 2.0

    @property
    def per_deg(self) -> float:
        """Paper millimetres for one degree along."""
        return (self.right_mm - self.left_mm) / (360.0 + 2.0 * LEAD_DEG)

    def x_mm(self, along_deg: float) -> float:
        """Return where a place along lies."""
        return self.left_mm + (along_deg + LEAD_DEG) * self.per_deg

    def y_mm(self, cents: float) -> float:
        """Return where a pitch lies; what is beyond the strip lies on its rim."""
        shown = max(-self.reach_cents, min(self.reach_cents, cents))
        return self.zero_mm - shown / self.reach_cents * HIGH_MM / 2.0

    def copies(self, along_deg: float) -> list[tuple[float, str]]:
        """Return where a place is seen: near the datum at both ends."""
        at = along_deg % 360.0
        seen = [(at, ""), (at - 360.0, "-before"), (at + 360.0, "-after")]
        return [(self.x_mm(a), mark) for a, mark in seen if -LEAD_DEG <= a <= 360.0 + LEAD_DEG]


def rim_text(
    x: float, y: float, text: str, *, size: float = NOTE_MM, anchor: Anchor = "start",
    bold: bool = False, layer: Layer = Layer.NOTE, ident: str = "", proposed: bool = False,
) -> Text:  # fmt: skip
    """Return a word on the strip."""
    return Text(
        layer=layer, x_mm=x, y_mm=y, text=text, size_mm=size, bold=bold, ident=ident,
        anchor=anchor,
        ink="proposed" if proposed else "ink",
    )  # fmt: skip
