"""A strip of readings drawn on the same along axis as the shell laid flat."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable
from dataclasses import dataclass

from counterhoop.papers.drawing.around import Around
from counterhoop.papers.drawing.labels import Room
from counterhoop.papers.drawing.lettering import CAP_SHARE, box_of, width_mm
from counterhoop.papers.drawing.manner import Manner
from counterhoop.papers.drawing.records import Circle, Layer, Line, Path, Pen, Stroke, Text
from counterhoop.papers.drawing.strip import HEAD_MM, Strip, factor_for, say_factor

AXIS_FROM_LEAD_MM = 2.0
AXIS_STEPS = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
TICK_MM = 1.4
DOT_MM = 0.7  # with the outline's pen: a full dot
RING_MM = 1.8
NUMBER_STEPS = (1, 2, 4, 8, 16, 32)
FULL = Pen(weight="outline")
THIN = Pen(weight="dimension")
PLANE = Pen(weight="dimension", dash="dashed")
LUG = Pen(weight="fine", dash="chain")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plot:
    """A strip put in its place: where a value lies on the drawing."""

    strip: Strip
    around: Around
    manner: Manner
    top_mm: float
    factor: float

    def y_mm(self, value_mm: float) -> float:
        least, most = self.strip.reach_mm
        first = most if self.strip.grows > 0 else least
        return self.top_mm + self.strip.grows * (first - value_mm) * self.manner.mm(self.factor)

    @property
    def bottom_mm(self) -> float:
        least, most = self.strip.reach_mm
        return self.top_mm + (most - least) * self.manner.mm(self.factor)

    @property
    def rims_mm(self) -> tuple[float, float]:
        """Top and bottom with the room for words."""
        above, below = (self.manner.mm(pad) for pad in self.strip.pads_mm)
        return self.top_mm - above, self.bottom_mm + below

    def spots(self) -> list[tuple[float, float, int]]:
        """Along, down and place in the row of every reading, in order along."""
        per_deg = self.around.around_mm / 360.0
        pairs = zip(self.strip.along_deg, self.strip.value_mm, strict=True)
        return sorted((a % 360.0 * per_deg, self.y_mm(v), i) for i, (a, v) in enumerate(pairs))

    def copies(self, x_mm: float) -> tuple[tuple[float, str], ...]:
        return self.around.seen(x_mm, from_mm=-1e-6, to_mm=1e-6)


def strip_strokes(
    strip: Strip, *, around: Around, top_mm: float, high_mm: float, manner: Manner,
    lugs_mm: Iterable[float] = (),
) -> tuple[Stroke, ...]:  # fmt: skip
    """Draw one strip.

    Parameters
    ----------
    around : Around
        The stretch of skin that the picture of the shell shows.
    top_mm : float
        Its upper rim, in drawn millimetres.
    high_mm : float
        What its readings may take, on paper.
    lugs_mm : iterable of float
        Where lines of lugs cross it, along.
    """
    plot = _Plot(
        strip=strip, around=around, manner=manner,
        top_mm=top_mm + manner.mm(HEAD_MM + strip.pads_mm[0]),
        factor=factor_for(strip, high_mm=high_mm),
    )  # fmt: skip
    head = _heading(plot, top_mm=top_mm)
    drawn = (*_ground(plot, lugs_mm), *_readings(plot), *_dots(plot), *_axis(plot))
    under = _stations(plot) if strip.numbered else ()
    return (*drawn, *head, *under, *_names(plot, (*drawn, *head)))


def _heading(plot: _Plot, *, top_mm: float) -> tuple[Stroke, ...]:
    size = plot.manner.mm(plot.manner.note_mm)
    y = top_mm + CAP_SHARE * size + plot.manner.mm(0.8)
    bold = Text(
        layer=Layer.NOTE, x_mm=0.0, y_mm=y, text=plot.strip.heading, size_mm=size, bold=True
    )
    more = Text(
        layer=Layer.NOTE, x_mm=box_of(bold)[2] + size, y_mm=y, size_mm=size,
        text=f"{say_factor(plot.factor)} · {plot.strip.says}",
    )  # fmt: skip
    return (bold, more)


def _ground(plot: _Plot, lugs_mm: Iterable[float]) -> tuple[Stroke, ...]:
    """Lines of lugs, the zero line and the fitted plane (which is a cosine once laid flat)."""
    around, strip = plot.around, plot.strip
    top, bottom = plot.rims_mm
    strokes: list[Stroke] = [
        Line(layer=Layer.ROW_LINE, x1_mm=x, y1_mm=top, x2_mm=x, y2_mm=bottom, pen=LUG)
        for lug in lugs_mm
        for x, _ in plot.copies(lug)
    ]
    zero = plot.y_mm(strip.zero_mm)
    strokes.append(
        Line(
            layer=Layer.SCALE, x1_mm=around.left_mm, y1_mm=zero, x2_mm=around.right_mm, y2_mm=zero,
            pen=THIN, ident=f"strip-{strip.name}-zero",
        )
    )  # fmt: skip
    if strip.plane is not None:
        mean, cos, sin = strip.plane
        points = []
        for step in range(181):
            x = around.left_mm + (around.right_mm - around.left_mm) * step / 180
            a = math.tau * x / around.around_mm
            points.append((x, plot.y_mm(mean + cos * math.cos(a) + sin * math.sin(a))))
        strokes.append(
            Path(
                layer=Layer.READING, points=tuple(points), closed=False, pen=PLANE,
                ident=f"strip-{strip.name}-plane", title="the fitted plane",
            )
        )  # fmt: skip
    return tuple(strokes)


def _readings(plot: _Plot) -> tuple[Stroke, ...]:
    """Straight lines from reading to reading, across the datum too, or a stem for each."""
    around, spots = plot.around, plot.spots()
    if not plot.strip.joined:
        zero = plot.y_mm(plot.strip.zero_mm)
        return tuple(
            Line(layer=Layer.READING, x1_mm=at, y1_mm=zero, x2_mm=at, y2_mm=y, pen=THIN)
            for x, y, _ in spots
            for at, _ in plot.copies(x)
            if y != zero
        )
    every = [(x + turn * around.around_mm, y) for turn in (-1, 0, 1) for x, y, _ in spots]
    found: list[Stroke] = []
    for (x1, y1), (x2, y2) in itertools.pairwise(every):
        left, right = max(x1, around.left_mm), min(x2, around.right_mm)
        if left >= right:
            continue
        slope = (y2 - y1) / (x2 - x1)
        found.append(
            Line(
                layer=Layer.READING, x1_mm=left, y1_mm=y1 + slope * (left - x1), x2_mm=right,
                y2_mm=y1 + slope * (right - x1), pen=THIN,
            )
        )  # fmt: skip
    return tuple(found)


def _dots(plot: _Plot) -> tuple[Stroke, ...]:
    strip = plot.strip
    return tuple(
        Circle(
            layer=Layer.READING, x_mm=at, y_mm=y,
            diameter_mm=plot.manner.mm(DOT_MM if strip.joined else RING_MM),
            pen=FULL if strip.joined else THIN, ident=f"strip-{strip.name}-{index + 1}{copy}",
        )
        for x, y, index in plot.spots()
        for at, copy in plot.copies(x)
    )  # fmt: skip


def _axis(plot: _Plot) -> tuple[Stroke, ...]:
    """Millimetres as read, at the left; the zero line by its name where there is room."""
    manner, strip = plot.manner, plot.strip
    size, tick = manner.mm(manner.scale_mm), manner.mm(TICK_MM)
    x = plot.around.left_mm - manner.mm(AXIS_FROM_LEAD_MM)
    least, most = strip.reach_mm
    strokes: list[Stroke] = [
        Line(layer=Layer.SCALE, x1_mm=x, y1_mm=plot.top_mm, x2_mm=x, y2_mm=plot.bottom_mm, pen=THIN)
    ]
    apart = size * 1.15 / manner.mm(plot.factor)
    step = next((s for s in AXIS_STEPS if s >= max(apart, strip.resolution_mm)), AXIS_STEPS[-1])
    for n in range(math.ceil(least / step - 1e-9), math.floor(most / step + 1e-9) + 1):
        y = plot.y_mm(n * step)
        strokes.append(Line(layer=Layer.SCALE, x1_mm=x - tick, y1_mm=y, x2_mm=x, y2_mm=y, pen=THIN))
        strokes.append(
            Text(
                layer=Layer.SCALE, x_mm=x - tick - manner.mm(0.8), y_mm=y + CAP_SHARE * size / 2,
                text=f"{n * step:+g}" if n else "0", size_mm=size, anchor="end",
            )
        )  # fmt: skip
    return tuple(strokes)


def _stations(plot: _Plot) -> tuple[Stroke, ...]:
    """A tick for every station and the numbers that have room."""
    manner, spots = plot.manner, plot.spots()
    size, tick = manner.mm(manner.scale_mm), manner.mm(TICK_MM)
    y = plot.rims_mm[1]
    strokes: list[Stroke] = []
    closest = min((b[0] - a[0] for a, b in itertools.pairwise(spots)), default=math.inf)
    need = width_mm(str(len(spots)), size_mm=size) + manner.mm(1.2)
    every = next((n for n in NUMBER_STEPS if n * closest >= need), NUMBER_STEPS[-1])
    room_mm = need - manner.mm(1.2)
    for x, _, index in spots:
        for at, _ in plot.copies(x):
            strokes.append(
                Line(layer=Layer.SCALE, x1_mm=at, y1_mm=y, x2_mm=at, y2_mm=y + tick, pen=THIN)
            )
            whole = plot.around.left_mm <= at - room_mm / 2 < at + room_mm / 2
            if index % every or not whole or at + room_mm / 2 > plot.around.right_mm:
                continue
            strokes.append(
                Text(
                    layer=Layer.SCALE, x_mm=at, y_mm=y + tick + manner.mm(0.6) + CAP_SHARE * size,
                    text=str(index + 1), size_mm=size, anchor="middle",
                )
            )  # fmt: skip
    return tuple(strokes)


def _names(plot: _Plot, drawn: tuple[Stroke, ...]) -> tuple[Stroke, ...]:
    """Words beside readings, on nothing else; a word that finds no room is left out."""
    manner, around, strip = plot.manner, plot.around, plot.strip
    size = manner.mm(manner.note_mm)
    top, bottom = plot.rims_mm
    room = Room((around.left_mm, top, around.right_mm, bottom))
    room.take(drawn)
    found: list[Stroke] = []
    places = {index: (x, y) for x, y, index in plot.spots()}
    high = CAP_SHARE * size
    for index, text in strip.named:
        x, y = places[index]
        wide = width_mm(text, size_mm=size)
        about = (-wide / 2, -high / 2, wide / 2, high / 2)
        up = -strip.grows if strip.stands_out(index) else strip.grows
        tries = _tries(wide=wide, high=high, gap=manner.mm(1.0), up=up)
        spots = [(x + dx, y + dy) for dx, dy in tries]
        spot = room.first_free(about, spots, pad_mm=manner.mm(0.25))
        if spot is not None:
            left, base = spot[0] - wide / 2, spot[1] + high / 2
            placed = Text(layer=Layer.NOTE, x_mm=left, y_mm=base, text=text, size_mm=size)
            room.take([placed])
            found.append(placed)
    return tuple(found)


def _tries(*, wide: float, high: float, gap: float, up: int) -> list[tuple[float, float]]:
    """Where a word may stand from its reading (middle to middle): over it, aside, past it."""
    beside = wide / 2 + gap
    over = [
        (share * wide, up * (high / 2 + far * gap))
        for far in (1.0, 1.8, 2.6)
        for share in (0.0, 0.3, -0.3, 0.5, -0.5)
    ]
    aside = [(sign * beside, up * high * share) for share in (0.4, 0.0, 0.8) for sign in (1, -1)]
    return [*over, *aside]
