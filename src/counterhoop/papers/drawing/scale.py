"""The edges, the scales outside them (degrees above, millimetres below), rings and row lines."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache, partial

from counterhoop.development.flat import Ring
from counterhoop.papers.drawing.around import Around
from counterhoop.papers.drawing.lettering import CAP_SHARE, width_mm
from counterhoop.papers.drawing.manner import Manner
from counterhoop.papers.drawing.records import Layer, Line, Path, Pen, Stroke, Text
from counterhoop.papers.drawing.view import LEAST_SWING_MM, View

EDGE = Pen(weight="outline")
TICK = Pen(weight="dimension")
STEPS_ROUND = 90
"""Chords of a wave once round: 3 mm from its top to its bottom leave them by 0.001 mm."""
INCHES = (1, 2, 5, 10)
TICK_MM = 1.8  # a short tick, on paper; a figured one is twice as long


# No row that is dragged moves an edge or a scale.
@lru_cache(maxsize=64)
def edge_strokes(view: View, *, around: Around) -> tuple[Stroke, ...]:
    """Both edges as strong lines, the datum as thin ones, rings as hidden lines inside.

    Heights count from the batter edge, so that one is straight; a resonant edge that is not
    parallel to it waves.
    """
    strokes: list[Stroke] = []
    for ring in view.flat.rings:
        pen = Pen(weight="fine", dash="dashed", ink="shadow")
        inner = partial(_inner_mm, view, ring)
        strokes.append(_round_the_rim(view, around, inner, pen=pen, ident=f"ring-{ring.end}"))
    for at, copy in around.seen(0.0, from_mm=-1e-6, to_mm=1e-6):
        depth = view.depth_at_mm(at)
        strokes.append(_upright(Layer.OUTLINE, at, 0.0, depth, pen=TICK, ident=f"datum{copy}"))
    left, right = around.left_mm, around.right_mm
    strokes.append(_straight(left, right, 0.0, pen=EDGE, ident="batter-edge"))
    strokes.append(_round_the_rim(view, around, view.depth_at_mm, pen=EDGE, ident="resonant-edge"))
    return tuple(strokes)


def row_line_strokes(view: View, *, around: Around) -> tuple[Stroke, ...]:
    """A chain line down the shell through each lug, once where both heads share it."""
    strokes: list[Stroke] = []
    done: list[float] = []
    for plan in view.fittings:
        if not plan.row or plan.status == "goes":
            continue
        x = view.x_mm(plan.place.along_deg)
        if any(abs(x - other) < 0.05 for other in done):
            continue
        done.append(x)
        for at, copy in around.seen(x, from_mm=-0.1, to_mm=0.1):
            strokes.append(
                Line(
                    layer=Layer.ROW_LINE, x1_mm=at, y1_mm=0.0, x2_mm=at, y2_mm=view.depth_at_mm(at),
                    pen=Pen(weight="fine", dash="chain"), ident=f"row-line-{len(done)}{copy}",
                )
            )  # fmt: skip
    return tuple(strokes)


@lru_cache(maxsize=64)
def scale_strokes(view: View, *, manner: Manner, around: Around) -> tuple[Stroke, ...]:
    """Degrees above the batter edge, millimetres or inches below the resonant edge."""
    round_mm = view.around_mm
    size = manner.mm(manner.scale_mm)
    tick = manner.mm(TICK_MM)
    strokes: list[Stroke] = []
    per_deg = round_mm / 360.0
    step_deg = _step(width_mm("000°", size_mm=size) * 1.8 / per_deg, (10, 15, 30, 45, 60, 90))
    small_deg = 1 if per_deg * manner.scale >= 1.6 else 5 if per_deg * manner.scale >= 0.4 else 10
    for deg in _ticks(around.left_mm / per_deg, around.right_mm / per_deg, small_deg):
        x = deg * per_deg
        figured = deg % step_deg == 0
        half = figured or deg % (5 if small_deg == 1 else 30) == 0
        high = tick * (2.0 if figured else 1.4 if half else 0.8)
        strokes.append(_upright(Layer.SCALE, x, -high, 0.0, pen=TICK))
        said = 360 if deg == 360 else deg % 360
        if figured:
            strokes += _figure(f"{said}°", x, -tick * 2.0 - manner.mm(0.8), size, around)
    ruled = _ruled(manner, size_mm=size)
    first = math.ceil((around.left_mm - 1e-9) / ruled.tick_mm)
    for count in range(max(first, 0), math.floor((around.right_mm + 1e-9) / ruled.tick_mm) + 1):
        at = count * ruled.tick_mm
        if at > round_mm:
            break
        figured = count % ruled.figure_every == 0
        high = tick * (2.0 if figured else 1.4 if count % ruled.half_every == 0 else 0.8)
        depth = view.depth_at_mm(at)
        strokes.append(_upright(Layer.SCALE, at, depth, depth + high, pen=TICK))
        if figured:
            low = depth + tick * 2.0 + manner.mm(0.8) + CAP_SHARE * size
            said = count // ruled.figure_every * ruled.step
            strokes += _figure(f"{said}", at, low, size, around)
    return tuple(strokes)


def down_scale_strokes(view: View, *, manner: Manner, x_mm: float) -> tuple[Stroke, ...]:
    """Millimetres or inches down from the batter edge, beside the picture."""
    size, tick = manner.mm(manner.scale_mm), manner.mm(TICK_MM)
    unit_mm, steps = (25.4, INCHES) if manner.units == "in" else (1.0, (10, 20, 50, 100))
    step = _step(size * 2.2 / unit_mm, steps)
    deepest = view.depths_mm()[1]
    strokes: list[Stroke] = [_upright(Layer.SCALE, x_mm, 0.0, deepest, pen=TICK)]
    for said in _ticks(0.0, deepest / unit_mm, step):
        at = said * unit_mm
        strokes.append(
            Line(layer=Layer.SCALE, x1_mm=x_mm - 2 * tick, y1_mm=at, x2_mm=x_mm, y2_mm=at, pen=TICK)
        )
        strokes.append(
            Text(
                layer=Layer.SCALE, x_mm=x_mm - 2 * tick - manner.mm(0.8),
                y_mm=at + CAP_SHARE * size / 2, text=f"{said}", size_mm=size, anchor="end",
            )
        )  # fmt: skip
    return tuple(strokes)


def scale_room_mm(manner: Manner) -> float:
    """Height that the figures outside an edge take."""
    return manner.mm(TICK_MM * 2.0 + 1.6) + CAP_SHARE * manner.mm(manner.scale_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ruled:
    """How the tape below the shell is ruled: ``step`` is from one figure to the next."""

    tick_mm: float
    half_every: int
    figure_every: int
    step: int


def _ruled(manner: Manner, *, size_mm: float) -> _Ruled:
    wide = width_mm("0000", size_mm=size_mm) * 1.8
    if manner.units == "in":
        parts = 16 if manner.scale >= 0.99 else 4 if manner.scale >= 0.3 else 2
        step = _step(wide / 25.4, INCHES)
        return _Ruled(tick_mm=25.4 / parts, half_every=parts, figure_every=step * parts, step=step)
    small = 1 if manner.scale >= 0.99 else 5 if manner.scale >= 0.3 else 10
    step = _step(wide, (10, 20, 50, 100, 200))
    return _Ruled(tick_mm=small, half_every=5, figure_every=step // small, step=step)


def _figure(text: str, x: float, y: float, size: float, around: Around) -> list[Stroke]:
    half = width_mm(text, size_mm=size) / 2
    if x - half < around.left_mm - size or x + half > around.right_mm + size:
        return []
    return [Text(layer=Layer.SCALE, x_mm=x, y_mm=y, text=text, size_mm=size, anchor="middle")]


def _ticks(start: float, end: float, step: int) -> range:
    first = math.ceil((start - 1e-9) / step) * step
    return range(first, math.floor(end + 1e-9) + 1, step)


def _step(least: float, steps: tuple[int, ...]) -> int:
    return next((step for step in steps if step >= least), steps[-1])


def _inner_mm(view: View, ring: Ring, x_mm: float) -> float:
    """Where a ring ends inside the shell."""
    wide = ring.wide_at_mm(x_mm * 360.0 / view.around_mm)
    return wide if ring.end == "batter" else view.depth_at_mm(x_mm) - wide


def _round_the_rim(
    view: View, around: Around, down_mm: Callable[[float], float], *, pen: Pen, ident: str
) -> Line | Path:
    """A line once round: straight, or in steps so short that its chords leave it by nothing."""
    left, right = around.left_mm, around.right_mm
    count = math.ceil((right - left) / view.around_mm * STEPS_ROUND)
    xs = [left + (right - left) * step / count for step in range(count + 1)]
    ys = [down_mm(x) for x in xs]
    if max(ys) - min(ys) <= 2.0 * LEAST_SWING_MM:
        return _straight(left, right, (max(ys) + min(ys)) / 2.0, pen=pen, ident=ident)
    points = tuple(zip(xs, ys, strict=True))
    return Path(layer=Layer.OUTLINE, points=points, closed=False, pen=pen, ident=ident)


def _straight(left: float, right: float, y: float, *, pen: Pen, ident: str) -> Line:
    return Line(
        layer=Layer.OUTLINE, x1_mm=left, y1_mm=y, x2_mm=right, y2_mm=y, pen=pen, ident=ident
    )


def _upright(layer: Layer, x: float, y1: float, y2: float, *, pen: Pen, ident: str = "") -> Line:
    return Line(layer=layer, x1_mm=x, y1_mm=y1, x2_mm=x, y2_mm=y2, pen=pen, ident=ident)
