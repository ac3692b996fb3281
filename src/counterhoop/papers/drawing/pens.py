"""Pens and inks: line weights, dashes and the day, night and print palettes."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.papers.drawing.records import Dash, Ink, Weight

WEIGHT_MM: dict[Weight, float] = {"outline": 0.5, "hole": 0.35, "dimension": 0.25, "fine": 0.18}
"""Line weights on paper, after the habits of ISO 128 (from memory)."""

DASH_MM: dict[Dash, tuple[float, ...]] = {
    "solid": (),
    "dashed": (3.0, 1.5),
    "chain": (8.0, 1.5, 0.6, 1.5),
    "dotted": (0.4, 1.2),
}
"""Stroke, gap, stroke, gap on a full-size paper; `dashes_mm` for a smaller one."""


def dashes_mm(dash: Dash, *, scale: float) -> tuple[float, ...]:
    """Dashes in drawn millimetres; on a small drawing they are shorter, so that they show."""
    on_paper = 0.4 + 0.6 * min(scale, 1.0)
    return tuple(length * on_paper / scale for length in DASH_MM[dash])


HATCH_APART_MM = 1.1
"""Between the lines of a hatched circle, on paper."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """A colour for each ink; ``paper`` is the ground, empty for none."""

    name: str
    paper: str
    ink: str
    proposed: str
    cut: str
    kept: str
    shadow: str

    def of(self, ink: Ink) -> str:
        """Return the colour of an ink."""
        colours = {
            "ink": self.ink,
            "proposed": self.proposed,
            "cut": self.cut,
            "kept": self.kept,
            "shadow": self.shadow,
        }
        return colours.get(ink, "none")


DAY = Palette(
    name="day",
    paper="#f6f2e7",
    ink="#22303a",
    proposed="#2b5c86",
    cut="#a5452c",
    kept="#5d7040",
    shadow="#5f6a70",
)
NIGHT = Palette(
    name="night",
    paper="#151d24",
    ink="#ece6d6",
    proposed="#8fbfe6",
    cut="#f0a58c",
    kept="#b4c994",
    shadow="#b9b7ad",
)
PRINT = Palette(
    name="print",
    paper="",
    ink="#000000",
    proposed="#000000",
    cut="#000000",
    kept="#000000",
    shadow="#000000",
)
"""Black only: grey or coloured hairlines print as dots and vanish on a copier."""
COLOUR_PRINT = Palette(
    name="colour print",
    paper="",
    ink="#22303a",
    proposed="#2b5c86",
    cut="#a5452c",
    kept="#5d7040",
    shadow="#5f6a70",
)
PALETTES = {p.name: p for p in (DAY, NIGHT, PRINT, COLOUR_PRINT)}
