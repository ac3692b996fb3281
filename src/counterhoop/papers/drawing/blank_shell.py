"""A shell laid flat with nothing on it yet, to draw on with a pencil."""

from __future__ import annotations

from typing import Literal

from counterhoop.papers.drawing.lettering import width_mm
from counterhoop.papers.drawing.records import Drawing, Layer, Line, Pen, Stroke, Text

LUG_COUNTS = (5, 6, 8, 10)
"""Rows of lugs that are ticked over the shell."""
LEFT_MM, RIGHT_MM = 20.0, 6.0
ROW_MM = 5.6
SIZE_MM = 3.5
GRID_DEG = 15
EDGE = Pen(weight="outline")
THIN = Pen(weight="dimension")
GRID = Pen(weight="fine", dash="dotted")
TICK_MM = 1.6
OUTSIDE = "the outside, batter edge up, along to the right → · ticks: when lug 1 is at the datum"


def draw_blank_shell(*, wide_mm: float, deep_mm: float) -> Drawing:
    """Draw it on paper millimetres: the picture's width, and the height of the shell in it.

    Over the batter edge stand degrees and, for the usual numbers of lugs, where they fall when
    lug 1 is at the datum; the skin has a dotted line every 15 degrees and at each quarter down.
    """
    round_mm = wide_mm - LEFT_MM - RIGHT_MM
    per_deg = round_mm / 360.0
    strokes: list[Stroke] = [
        _line(deg * per_deg, 0.0, deg * per_deg, deep_mm, pen=GRID, ident=f"grid-{deg}")
        for deg in range(GRID_DEG, 360, GRID_DEG)
    ]
    strokes += [_line(0.0, deep_mm * q / 4, round_mm, deep_mm * q / 4, pen=GRID) for q in (1, 2, 3)]
    for x, name in ((0.0, "datum"), (round_mm, "datum-after")):
        strokes.append(_line(x, 0.0, x, deep_mm, pen=EDGE, ident=name))
    strokes.append(_line(0.0, 0.0, round_mm, 0.0, pen=EDGE, ident="batter-edge"))
    strokes.append(_line(0.0, deep_mm, round_mm, deep_mm, pen=EDGE, ident="resonant-edge"))
    y = 0.0
    marks = [(f"{deg}°", deg * per_deg) for deg in range(0, 361, 30)]
    strokes += _row(marks, y=y, name="")
    for count in LUG_COUNTS:
        y -= ROW_MM
        lugs = [(str(n % count + 1), n * round_mm / count) for n in range(count + 1)]
        strokes += _row(lugs, y=y, name=f"{count} lugs")
    top = y - ROW_MM - SIZE_MM * 1.5
    edges = (
        (-ROW_MM * len(LUG_COUNTS) - ROW_MM - 1.0, "BATTER EDGE", OUTSIDE),
        (deep_mm + SIZE_MM * 1.5, "RESONANT EDGE", "mm on the tape, 0 on the datum:"),
    )
    for at, bold, more in edges:
        strokes.append(_text(0.0, at, bold, bold=True))
        strokes.append(_text(width_mm(bold, size_mm=SIZE_MM, bold=True) + SIZE_MM, at, more))
    for x in (0.0, round_mm):
        strokes.append(_text(x, deep_mm + SIZE_MM * 3.0, "datum", anchor="middle"))
    bottom = deep_mm + SIZE_MM * 3.4
    return Drawing(
        left_mm=-LEFT_MM, top_mm=top, width_mm=wide_mm, height_mm=bottom - top,
        strokes=tuple(strokes), title="A shell laid flat, to draw on", depth_mm=deep_mm,
        says=(
            "An empty shell laid flat: the datum at both ends, the batter edge up, along to the "
            f"right. Lines every {GRID_DEG} degrees and at each quarter of the depth; ticks for "
            f"{', '.join(map(str, LUG_COUNTS))} lugs when lug 1 is at the datum."
        ),
    )  # fmt: skip


def _row(marks: list[tuple[str, float]], *, y: float, name: str) -> list[Stroke]:
    """Ticks on a line at one height, each with its word above."""
    strokes: list[Stroke] = []
    for text, x in marks:
        strokes.append(_line(x, y - TICK_MM, x, y, pen=THIN))
        strokes.append(_text(x, y - TICK_MM - 0.6, text, anchor="middle"))
    if name:
        strokes.append(_text(-3.0, y - TICK_MM - 0.6, name, anchor="end"))
    return strokes


def _line(x1: float, y1: float, x2: float, y2: float, *, pen: Pen, ident: str = "") -> Line:
    return Line(layer=Layer.OUTLINE, x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen=pen, ident=ident)


def _text(
    x: float, y: float, text: str, *, anchor: Literal["start", "middle", "end"] = "start",
    bold: bool = False,
) -> Text:  # fmt: skip
    return Text(
        layer=Layer.NOTE, x_mm=x, y_mm=y, text=text, size_mm=SIZE_MM, anchor=anchor, bold=bold
    )
