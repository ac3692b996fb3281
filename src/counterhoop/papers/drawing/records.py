"""What a drawing is made of.

Axes: x to the right along the shell, y downward from the batter edge, millimetres. SVG and Typst
write it as it is; DXF writes y = depth - down.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal, TypeAlias


class Layer(StrEnum):
    """A layer for each verdict, and one for each thing that is not a hole."""

    OUTLINE = "outline"
    KEEP = "keep"
    ENLARGE = "enlarge"
    SLOT = "slot"
    PLUG = "plug"
    DRILL = "drill"
    PLUG_AND_DRILL = "plug-and-drill"
    LEAVE_OPEN = "leave-open"
    PLUGGED_ALREADY = "plugged-already"
    BASE_STAYS = "base-stays"
    BASE_NEW = "base-new"
    BASE_GOES = "base-goes"
    SHADOW = "shadow"
    ROW_LINE = "row-line"
    SEAM = "seam"
    DAMAGE = "damage"
    SCALE = "scale"
    READING = "reading"
    NUMBER = "number"
    NOTE = "note"
    TITLE = "title"
    REGISTER = "register"


Weight: TypeAlias = Literal["outline", "hole", "dimension", "fine"]
Dash: TypeAlias = Literal["solid", "dashed", "chain", "dotted"]
Ink: TypeAlias = Literal["ink", "proposed", "cut", "kept", "shadow", "none"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pen:
    """How a line is drawn: 0.5, 0.35, 0.25 or 0.18 mm, and its dashes."""

    weight: Weight = "hole"
    dash: Dash = "solid"
    ink: Ink = "ink"


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A straight line."""

    layer: Layer
    x1_mm: float
    y1_mm: float
    x2_mm: float
    y2_mm: float
    pen: Pen = Pen()
    ident: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle; ``hatched`` fills it with lines at 45 degrees, but not the disc in its middle.

    ``clear_mm`` is the diameter of that disc: room for the punch where a centre is marked.
    """

    layer: Layer
    x_mm: float
    y_mm: float
    diameter_mm: float
    pen: Pen = Pen()
    hatched: bool = False
    clear_mm: float = 0.0
    ident: str = ""
    title: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """A polygon or polyline; ``bulges`` as in DXF (tan of a quarter of the arc), 0 for straight."""

    layer: Layer
    points: tuple[tuple[float, float], ...]
    bulges: tuple[float, ...] = ()
    closed: bool = True
    pen: Pen = Pen()
    fill: Ink = "none"
    fill_share: float = 0.0
    hatched: bool = False
    ident: str = ""
    title: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """A line of text; ``size_mm`` is the height of a capital times 1.4 (the font size)."""

    layer: Layer
    x_mm: float
    y_mm: float
    text: str
    size_mm: float = 3.5
    anchor: Literal["start", "middle", "end"] = "start"
    bold: bool = False
    ink: Ink = "ink"
    turned_deg: float = 0.0
    ident: str = ""


Stroke: TypeAlias = Line | Circle | Path | Text


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A list of strokes and the window it is seen through.

    ``scale`` is paper millimetres for one millimetre drawn; pens, dashes and hatching keep their
    size on paper. Text is in drawn millimetres.
    """

    left_mm: float
    top_mm: float
    width_mm: float
    height_mm: float
    strokes: tuple[Stroke, ...]
    title: str
    says: str = ""  # a text equivalent
    depth_mm: float = 0.0  # for DXF's y = depth - down
    scale: float = 1.0
