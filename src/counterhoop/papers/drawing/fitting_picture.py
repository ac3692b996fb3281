"""A fitting of the book as it stands, life-size: its outline, its holes, where the rod goes."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Literal

from counterhoop.development.outline import Outline, disc, rounded
from counterhoop.fittings.entry import Fitting, Kind, Mouth, PatternHole
from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.records import (
    Circle,
    Drawing,
    Layer,
    Line,
    Path,
    Pen,
    Stroke,
    Text,
)

AROUND_MM = 4.0
LETTER_MM = 3.6
ROD_MM = 9.0
HEAD_MM = (6.0, 10.0)
"""A rod's head is drawn, not measured: the book does not say how large it is."""
DOT_MM = 25.4 / 96.0
"""A drawing so many whole dots wide and high is printed life-size by a browser (CSS Values and
Units 3, 6.2, from memory)."""

EDGE = Pen(weight="outline")
THIN = Pen(weight="dimension")
FINE = Pen(weight="fine")
CUT = Pen(weight="hole", ink="cut")
ROOM = Pen(weight="dimension", dash="dashed")
ROD = Pen(weight="dimension", dash="chain")


def fitting_drawing(entry: Fitting, *, units: Literal["mm", "in"] = "mm") -> Drawing | None:
    """Draw an entry life-size; None for what the book gives no outline of.

    Parameters
    ----------
    entry : Fitting
    units : "mm" or "in"
        Of the bar to lay a rule on.
    """
    strokes = list(_strokes(entry))
    if not strokes:
        return None
    boxes = [extent_box(stroke) for stroke in strokes]
    left, right = min(b[0] for b in boxes), max(b[2] for b in boxes)
    bar = list(_bar(left, max(b[3] for b in boxes) + 7.0, units=units))
    boxes += [extent_box(stroke) for stroke in bar]
    right = max(b[2] for b in boxes)
    top, bottom = min(b[1] for b in boxes), max(b[3] for b in boxes)
    return Drawing(
        left_mm=left - AROUND_MM,
        top_mm=top - AROUND_MM,
        width_mm=_whole_dots(right - left + 2 * AROUND_MM),
        height_mm=_whole_dots(bottom - top + 2 * AROUND_MM),
        strokes=(*strokes, *bar),
        title=f"{entry.name}, life-size",
        says="Upright, seen from outside. The figures beneath say the same.",
    )


def _whole_dots(length_mm: float) -> float:
    return math.ceil(length_mm / DOT_MM) * DOT_MM - 1e-9


def _strokes(entry: Fitting) -> Iterator[Stroke]:
    if entry.kind in (Kind.ROD, Kind.T_ROD):
        yield from _rod(entry)
    elif entry.kind is Kind.WASHER and entry.diameter_mm and entry.inside_mm:
        yield _outline(disc(entry.diameter_mm), EDGE)
        yield _outline(disc(entry.inside_mm), EDGE)
    elif entry.base is not None:
        if entry.throw is not None:
            yield _outline(entry.throw, ROOM, ident="throw")
        yield _outline(entry.base, EDGE, ident="base")
        right = entry.base.bounds_mm[2]
        for number, hole in enumerate(entry.holes, 1):
            yield from _hole(hole, number=number, of=len(entry.holes), right_mm=right)
        for mouth in entry.mouths:
            yield from _mouth(mouth, width_mm=2 * right)
        yield Circle(layer=Layer.NOTE, x_mm=0, y_mm=0, diameter_mm=1.6, pen=FINE, ident="zero")


def _outline(outline: Outline, pen: Pen, *, ident: str = "") -> Path:
    return Path(layer=Layer.BASE_STAYS, points=outline.points, pen=pen, ident=ident)


def _hole(hole: PatternHole, *, number: int, of: int, right_mm: float) -> Iterator[Stroke]:
    x, y, r = hole.right_mm, hole.down_mm, hole.hole_mm / 2
    if hole.slot_along_mm or hole.slot_down_mm:
        slot = rounded(
            hole.screw_mm + hole.slot_along_mm, hole.screw_mm + hole.slot_down_mm,
            corner_mm=hole.screw_mm / 2,
        )  # fmt: skip
        yield _outline(slot.moved(x, y), THIN)
    yield Circle(
        layer=Layer.DRILL, x_mm=x, y_mm=y, diameter_mm=hole.hole_mm, pen=CUT, ident=f"hole-{number}"
    )
    reach = r + 1.5
    yield Line(layer=Layer.DRILL, x1_mm=x - reach, y1_mm=y, x2_mm=x + reach, y2_mm=y, pen=FINE)
    yield Line(layer=Layer.DRILL, x1_mm=x, y1_mm=y - reach, x2_mm=x, y2_mm=y + reach, pen=FINE)
    if of > 1:
        says = hole.called or str(number)
        # Holes side by side would write over each other at the right: those stand beneath.
        aside = abs(x) < 1e-6
        yield Text(
            layer=Layer.NUMBER, text=says, size_mm=LETTER_MM,
            x_mm=right_mm + 2.5 if aside else x, y_mm=y + 1.3 if aside else y + reach + 3.2,
            anchor="start" if aside else "middle",
        )  # fmt: skip


def _mouth(mouth: Mouth, *, width_mm: float) -> Iterator[Stroke]:
    way = -1.0 if mouth.toward == "batter" else 1.0
    y, tip = mouth.down_mm, mouth.down_mm + way * ROD_MM
    half = min(width_mm / 4, 5.0)
    yield Line(
        layer=Layer.ROW_LINE, x1_mm=-half, y1_mm=y, x2_mm=half, y2_mm=y, pen=EDGE, ident="mouth"
    )
    yield Line(layer=Layer.ROW_LINE, x1_mm=0, y1_mm=y, x2_mm=0, y2_mm=tip, pen=ROD)
    for side in (-1.5, 1.5):
        yield Line(layer=Layer.ROW_LINE, x1_mm=side, y1_mm=y + way * 3, x2_mm=0, y2_mm=y, pen=THIN)
    yield Text(
        layer=Layer.NOTE,
        x_mm=2.5,
        y_mm=tip + (2.5 if way < 0 else 0),
        text="rod",
        size_mm=LETTER_MM,
    )


def _rod(entry: Fitting) -> Iterator[Stroke]:
    if not (entry.rod_length_mm and entry.shank_mm):
        return
    long, r = entry.rod_length_mm, entry.shank_mm / 2
    deep, high = HEAD_MM
    head = ((-deep, -high / 2), (0.0, -high / 2), (0.0, high / 2), (-deep, high / 2))
    yield Path(layer=Layer.BASE_STAYS, points=head, pen=ROOM, ident="head")
    shank = ((0.0, -r), (long, -r), (long, r), (0.0, r))
    yield Path(layer=Layer.BASE_STAYS, points=shank, pen=EDGE, ident="shank")
    begins = long - (entry.thread_length_mm or 0.0)
    step = 2.0
    for count in range(int((long - begins) / step) + 1):
        x = long - count * step
        yield Line(
            layer=Layer.BASE_STAYS, x1_mm=x, y1_mm=-r, x2_mm=max(x - 1.0, begins), y2_mm=r, pen=FINE
        )


def _bar(left_mm: float, down_mm: float, *, units: Literal["mm", "in"]) -> Iterator[Stroke]:
    """A bar of 50 mm or 2 in, so that a print is checked before a part is laid on it."""
    step, count, says = (25.4 / 4, 8, "2 in") if units == "in" else (10.0, 5, "50 mm")
    end = left_mm + step * count
    yield Line(
        layer=Layer.SCALE, x1_mm=left_mm, y1_mm=down_mm, x2_mm=end, y2_mm=down_mm, pen=THIN,
        ident="bar",
    )  # fmt: skip
    for place in range(count + 1):
        x = left_mm + place * step
        up = 3.0 if place in (0, count) else 1.6
        yield Line(layer=Layer.SCALE, x1_mm=x, y1_mm=down_mm - up, x2_mm=x, y2_mm=down_mm, pen=THIN)
    yield Text(layer=Layer.SCALE, x_mm=end + 2.0, y_mm=down_mm, text=says, size_mm=LETTER_MM)
