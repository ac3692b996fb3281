"""What comes off one edge, station by station, on the along axis of the shell laid flat."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable

from counterhoop.development.surface import Surface
from counterhoop.papers.drawing.around import Around
from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.lettering import CAP_SHARE, box_of
from counterhoop.papers.drawing.manner import Manner, manner_of
from counterhoop.papers.drawing.records import Circle, Drawing, Layer, Line, Path, Pen, Stroke, Text
from counterhoop.papers.drawing.strip import Strip, factor_for, say_factor
from counterhoop.papers.drawing.strip_marks import strip_strokes
from counterhoop.quantities.print_length import print_mm
from counterhoop.survey.truing_plan import EdgeCut

WIDE_MM = 184.0
"""Width on paper, axis and all."""
AXIS_MM = 12.0
LEAD_MM = 4.0
"""Shown beyond the datum at both ends, so that the station there is whole."""
HIGH_MM = 24.0
"""What the wood that goes may take on paper."""
WOOD = Pen(weight="fine")
NEW_EDGE = Pen(weight="outline")
LUG = Pen(weight="fine", dash="chain")
LUG_TICK_MM = 2.2


def draw_cut(
    cut: EdgeCut, *, surface: Surface, resolution_mm: float, lugs: Iterable[tuple[str, float]] = ()
) -> Drawing:
    """Draw what comes off an edge.

    Outward is up for the batter edge and down for the resonant one, as on the shell laid flat.
    Between stations nobody has read the edge: straight lines join what was read.

    Parameters
    ----------
    cut : EdgeCut
        What comes off at each station.
    surface : Surface
        The skin whose millimetres the drawing runs along.
    resolution_mm : float
        The instrument's step; nothing finer is printed.
    lugs : iterable of (name, degrees along)
        Lines of lugs to find one's place by.
    """
    scale = (WIDE_MM - AXIS_MM - 2.0 * LEAD_MM) / surface.circumference_mm
    manner = manner_of("working", scale=scale)
    around = Around(
        around_mm=surface.circumference_mm,
        left_mm=-manner.mm(LEAD_MM),
        right_mm=surface.circumference_mm + manner.mm(LEAD_MM),
    )
    strip = cut_strip(cut, resolution_mm=resolution_mm)
    places = [(name, deg % 360.0 * surface.circumference_mm / 360.0) for name, deg in lugs]
    strokes = strip_strokes(strip, around=around, top_mm=0.0, high_mm=HIGH_MM, manner=manner)
    wood = _wood(strokes, name=strip.name, around=around)
    bottom = max(extent_box(stroke)[3] for stroke in strokes)
    named = _lug_names(places, y_mm=bottom + manner.mm(1.0), manner=manner, around=around)
    every = (*wood, *strokes, *named)
    said = says_cut(cut, resolution_mm=resolution_mm)
    enlarged = f"of the wood {say_factor(factor_for(strip, high_mm=HIGH_MM))}"
    low = max(extent_box(stroke)[3] for stroke in every) + manner.mm(0.8)
    return Drawing(
        left_mm=-manner.mm(AXIS_MM + LEAD_MM), top_mm=0.0, width_mm=manner.mm(WIDE_MM),
        height_mm=low, strokes=every, scale=scale,
        title=f"What comes off the {cut.end} edge",
        says=f"{said} Along 1 : {1.0 / scale:.1f}; {enlarged}.",
    )  # fmt: skip


def cut_strip(cut: EdgeCut, *, resolution_mm: float) -> Strip:
    """Return the strip of what comes off: the line it stands on is the new edge."""
    return Strip(
        name=f"cut-{cut.end}",
        heading="Outward is up" if cut.end == "batter" else "Outward is down",
        says="hatched: wood that comes off · strong line: the new edge",
        along_deg=cut.along_deg,
        value_mm=cut.removal_mm,
        resolution_mm=resolution_mm,
        zero_says="the new edge",
        grows=1 if cut.end == "batter" else -1,
        named=tuple(
            (index, print_mm(off, resolution_mm=resolution_mm, with_unit=False))
            for index, off in enumerate(cut.removal_mm)
        ),
    )


def says_cut(cut: EdgeCut, *, resolution_mm: float) -> str:
    """Say where most comes off and where nothing does.

    Names of stations are numbers here, as on the strip.
    """
    names = {name: str(number) for number, name in enumerate(cut.names, 1)}
    most = print_mm(cut.most_mm, resolution_mm=resolution_mm)
    none = [
        names[n]
        for n, off in zip(cut.names, cut.removal_mm, strict=True)
        if off < resolution_mm / 2.0
    ]
    if len(none) == len(cut.names):
        return f"Nothing comes off the {cut.end} edge that could be read."
    at = [names[name] for name in cut.most_at]
    mean = print_mm(cut.mean_mm, resolution_mm=resolution_mm)
    said = f"Most comes off at {_stations(at)}: {most}; on average {mean}."
    return f"{said} Nothing at {_stations(none)}." if none else said


def _stations(numbers: list[str]) -> str:
    if len(numbers) == 1:
        return f"station {numbers[0]}"
    if len(numbers) > 8:
        return f"{len(numbers)} stations"
    return f"stations {', '.join(numbers[:-1])} and {numbers[-1]}"


def _wood(strokes: Iterable[Stroke], *, name: str, around: Around) -> tuple[Stroke, ...]:
    """Hatch between the new edge and the readings, read off the strip itself."""
    drawn = list(strokes)
    zero = next(s.y1_mm for s in drawn if isinstance(s, Line) and s.ident == f"strip-{name}-zero")
    dots = sorted(
        (s.x_mm, s.y_mm)
        for s in drawn
        if isinstance(s, Circle) and s.ident.removeprefix(f"strip-{name}-").isdigit()
    )
    c = around.around_mm
    rim = [(x + turn * c, y) for turn in (-1, 0, 1) for x, y in dots]
    top = [p for a, b in itertools.pairwise(rim) for p in _within(a, b, around)]
    points = ((around.left_mm, zero), *dict.fromkeys(top), (around.right_mm, zero))
    edge = Line(
        layer=Layer.OUTLINE, x1_mm=around.left_mm, y1_mm=zero, x2_mm=around.right_mm, y2_mm=zero,
        pen=NEW_EDGE, ident=f"new-{name}",
    )  # fmt: skip
    if all(abs(y - zero) < 1e-9 for _, y in points):
        return (edge,)
    wood = Path(
        layer=Layer.OUTLINE, points=points, pen=WOOD, hatched=True, ident=f"wood-{name}",
        title="wood that comes off",
    )  # fmt: skip
    return (wood, edge)


def _within(
    a: tuple[float, float], b: tuple[float, float], around: Around
) -> list[tuple[float, float]]:
    """The part of a stretch that lies within the picture."""
    left, right = max(a[0], around.left_mm), min(b[0], around.right_mm)
    if left > right:
        return []
    slope = (b[1] - a[1]) / (b[0] - a[0])
    return [(x, a[1] + slope * (x - a[0])) for x in (left, right)]


def _lug_names(
    places: Iterable[tuple[str, float]], *, y_mm: float, manner: Manner, around: Around
) -> tuple[Stroke, ...]:
    """A tick at every lug, and the names that have room."""
    size, tick = manner.mm(manner.scale_mm), manner.mm(LUG_TICK_MM)
    found: list[Stroke] = []
    taken = -math.inf
    for name, x in sorted(places, key=lambda place: place[1]):
        found.append(
            Line(layer=Layer.ROW_LINE, x1_mm=x, y1_mm=y_mm, x2_mm=x, y2_mm=y_mm + tick, pen=LUG)
        )
        text = Text(
            layer=Layer.NOTE, x_mm=x, y_mm=y_mm + tick + manner.mm(0.6) + CAP_SHARE * size,
            text=name, size_mm=size, anchor="middle",
        )  # fmt: skip
        left, _, right, _ = box_of(text)
        if left > taken + size / 3.0 and right <= around.right_mm + manner.mm(1.0):
            found.append(text)
            taken = right
    return tuple(found)
