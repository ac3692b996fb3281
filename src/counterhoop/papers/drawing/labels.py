"""Where a number can stand: near its hole, on no line, no mark and no other number."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice, pairwise
from typing import NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.lettering import CAP_SHARE, Box, box_of, width_mm
from counterhoop.papers.drawing.records import Circle, Layer, Line, Path, Stroke, Text

Ends: TypeAlias = tuple[float, float, float, float]
Spot: TypeAlias = tuple[float, float]
Mask: TypeAlias = NDArray[np.bool_]
Places: TypeAlias = NDArray[np.int_]
EIGHT = ((1, -1), (-1, -1), (1, 1), (-1, 1), (1, 0), (-1, 0), (0, -1), (0, 1))
BETWEEN = tuple((sx * a, sy * b) for a, b in ((1, 0.5), (0.5, 1)) for sx, sy in EIGHT[:4])
GAPS = (0.7, 1.4, 2.2, 3.2, 4.5, 6.0, 8.0, 11.0, 15.0, 20.0)
BESIDE = 0.3
"""Of the font size: nearer than half a figure, two numbers side by side read as one."""
AT_ONCE = 64
"""Spots that are tried together: few, for one of the first is often free."""


class Thing(NamedTuple):
    """An obstacle: a stretch of line, a disc, or a box (of a text)."""

    box: Box
    kind: str  # "line", "disc", "box"
    numbers: tuple[float, ...]
    soft: bool


class Room:
    """What is taken on a drawing.

    Parameters
    ----------
    bounds : tuple
        Left, top, right, bottom: nothing may stand outside.
    """

    def __init__(self, bounds: Box) -> None:
        self.bounds = bounds
        self._things: list[Thing] = []
        self._boxes = np.empty((4, 0))
        self._whole = np.empty(0, dtype=bool)

    def take(self, strokes: Iterable[Stroke], *, soft: frozenset[Layer] = frozenset()) -> None:
        """Count every stroke as taken; those on the layers named only as lines to be crossed."""
        for stroke in strokes:
            yielding = stroke.layer in soft
            if isinstance(stroke, Circle):
                self._add_disc(stroke, soft=yielding)
            elif isinstance(stroke, Line):
                self._add_line(stroke.x1_mm, stroke.y1_mm, stroke.x2_mm, stroke.y2_mm, yielding)
            elif isinstance(stroke, Text):
                left, top, right, bottom = box_of(stroke)
                gap, beside = 0.18 * stroke.size_mm, BESIDE * stroke.size_mm
                box = (left - beside, top - gap, right + beside, bottom + gap)
                self._things.append(Thing(box, "box", (), False))
            else:
                self._add_path(stroke, yielding)

    def holds(self, box: Box) -> bool:
        """Whether a box stays inside the bounds."""
        left, top, right, bottom = self.bounds
        return box[0] >= left and box[1] >= top and box[2] <= right and box[3] <= bottom

    def first_free(self, box: Box, spots: Iterable[Spot], *, pad_mm: float) -> Spot | None:
        """Find the first spot at which a box stands inside the bounds and on nothing.

        Parameters
        ----------
        box : tuple
            Left, top, right and bottom about a spot.
        spots : iterable of (x, y)
            In the order in which they are liked; none may do, and then there is none.
        pad_mm : float
            How near is too near.
        """
        coming = iter(spots)
        while some := tuple(islice(coming, AT_ONCE)):
            boxes = [(box[0] + x, box[1] + y, box[2] + x, box[3] + y) for x, y in some]
            reached, these = self._reached(boxes, pad_mm=pad_mm)
            taken: Mask = np.asarray(reached[:, self._whole[these]].any(axis=1))
            for spot, there, row, full in zip(some, boxes, reached, taken, strict=True):
                if full or not self.holds(there):
                    continue
                wide = _wider(there, pad_mm)
                if not any(_meets(self._things[place], wide) for place in these[row].tolist()):
                    return spot
        return None

    def is_free(self, box: Box) -> bool:
        """Whether a box stands on nothing but lines that may be crossed."""
        (things,) = self.near([box], pad_mm=0.0)
        return not any(not thing.soft and _meets(thing, box) for thing in things)

    def crossed(self, ends: Ends, *, half_mm: float, step_mm: float) -> int:
        """Count places where a line runs over a mark or a word; its own ends are left out."""
        x1, y1, x2, y2 = ends
        steps = max(3, math.ceil(math.hypot(x2 - x1, y2 - y1) / step_mm))
        shares = [step / (steps + 1) for step in range(1, steps + 1)]
        places = [(x1 + (x2 - x1) * share, y1 + (y2 - y1) * share) for share in shares]
        near = self.near([(x, y, x, y) for x, y in places], pad_mm=half_mm)
        return sum(
            any(
                not thing.soft
                and thing.kind != "line"
                and _meets(thing, _wider((x, y, x, y), half_mm))
                for thing in things
            )
            for (x, y), things in zip(places, near, strict=True)
        )

    def near(self, boxes: Sequence[Box], *, pad_mm: float) -> Iterator[list[Thing]]:
        """Yield for each box the things whose own boxes it reaches, itself or a pad round it."""
        reached, these = self._reached(boxes, pad_mm=pad_mm)
        for row in reached:
            yield [self._things[place] for place in these[row].tolist()]

    def _reached(self, boxes: Sequence[Box], *, pad_mm: float) -> tuple[Mask, Places]:
        """Which of these things each box reaches (boxes x things), and which things these are."""
        if more := self._things[self._boxes.shape[1] :]:
            new = np.array([thing.box for thing in more]).T
            self._boxes = np.concatenate((self._boxes, new), axis=1)
            self._whole = np.concatenate((self._whole, [_fills(thing) for thing in more]))
        pads = np.array((-pad_mm, -pad_mm, pad_mm, pad_mm))
        wide = (np.array(boxes) + pads).T[:, :, None]
        left, _, right, _ = self._boxes
        these = np.flatnonzero((left <= wide[2].max()) & (right >= wide[0].min()))
        left, top, right, bottom = self._boxes[:, these]
        reached = (left <= wide[2]) & (right >= wide[0]) & (top <= wide[3]) & (bottom >= wide[1])
        return reached, these

    def _add_disc(self, c: Circle, *, soft: bool) -> None:
        r = c.diameter_mm / 2
        box = (c.x_mm - r, c.y_mm - r, c.x_mm + r, c.y_mm + r)
        self._things.append(Thing(box, "disc", (c.x_mm, c.y_mm, r), soft))

    def _add_line(self, x1: float, y1: float, x2: float, y2: float, soft: bool) -> None:
        left, right = (x1, x2) if x1 < x2 else (x2, x1)
        top, bottom = (y1, y2) if y1 < y2 else (y2, y1)
        box = (left, top, right, bottom)
        self._things.append(Thing(box, "line", (x1, y1, x2 - x1, y2 - y1), soft))

    def _add_path(self, path: Path, soft: bool) -> None:
        if path.bulges:  # a slot: its whole extent
            self._things.append(Thing(extent_box(path), "box", (), soft))
            return
        corners = path.points
        for (x1, y1), (x2, y2) in pairwise((*corners, corners[0]) if path.closed else corners):
            self._add_line(x1, y1, x2, y2, soft)


def place_number(
    text: str, *, x_mm: float, y_mm: float, half_mm: tuple[float, float], size_mm: float,
    room: Room, paper_mm: float = 1.0, bold: bool = True,
) -> tuple[Box, Ends | None]:  # fmt: skip
    """Find the box for a number near a mark, and the leader that ties it when it is far.

    Parameters
    ----------
    x_mm, y_mm, half_mm
        The mark's centre and half its extent along and down.
    size_mm : float
        Font size, in drawn millimetres.
    room : Room
        What is taken; the caller adds the text afterwards.
    paper_mm : float
        Drawn millimetres for one on paper.

    Returns
    -------
    box, leader
        Eight positions and eight between them are tried, near ones first; the first that is free
        wins. Where none is, the one that crosses the fewest lines and stands on no mark or word.
    """
    wide, high = width_mm(text, size_mm=size_mm, bold=bold), CAP_SHARE * size_mm
    pad, far = 0.45 * paper_mm, 3.0 * paper_mm
    best: tuple[tuple[float, ...], Box, Ends | None] | None = None
    for rank, gap_paper in enumerate(GAPS):
        gap = gap_paper * paper_mm
        boxes = []
        for sx, sy in (*EIGHT, *BETWEEN):
            reach = 1.0 / math.hypot(sx, sy)
            cx = x_mm + sx * ((half_mm[0] + gap) * reach + wide / 2)
            cy = y_mm + sy * ((half_mm[1] + gap) * reach + high / 2)
            boxes.append((cx - wide / 2, cy - high / 2, cx + wide / 2, cy + high / 2))
        near = room.near(boxes, pad_mm=pad)
        for order, (box, things) in enumerate(zip(boxes, near, strict=True)):
            padded = _wider(box, pad)
            hard = sum(not thing.soft and _meets(thing, padded) for thing in things)
            hard += 100 * (not room.holds(box))
            if best is not None and hard > best[0][0]:
                continue
            soft = sum(thing.soft and _meets(thing, padded) for thing in things)
            if best is not None and soft and (hard, soft + rank * 0.3, order) > best[0]:
                continue
            leader = _leader(box, x_mm, y_mm, half_mm, gap, far)
            crossed = 0
            if leader is not None and not hard:
                crossed = room.crossed(leader, half_mm=0.3 * paper_mm, step_mm=0.375 * size_mm)
            if not hard and not soft and not crossed:
                return box, leader
            cost = (hard, soft + crossed * 3 + rank * 0.3, order)
            if best is None or cost < best[0]:
                best = (cost, box, leader)
    assert best is not None
    return best[1], best[2]


def _leader(
    box: Box, x: float, y: float, half: tuple[float, float], gap: float, far: float
) -> Ends | None:
    """A line from the box's nearest point to the mark's rim, when the number stands far off."""
    if gap < far:
        return None
    nx, ny = min(max(x, box[0]), box[2]), min(max(y, box[1]), box[3])
    way = math.hypot(nx - x, ny - y) or 1.0
    ux, uy = (nx - x) / way, (ny - y) / way
    r = max(half)
    return (x + ux * r, y + uy * r, nx - ux * far * 0.15, ny - uy * far * 0.15)


def _wider(box: Box, pad_mm: float) -> Box:
    return box[0] - pad_mm, box[1] - pad_mm, box[2] + pad_mm, box[3] + pad_mm


def _fills(thing: Thing) -> bool:
    """Whether whatever reaches the box about a thing meets the thing."""
    return thing.kind == "box" or (thing.kind == "line" and 0.0 in thing.numbers[2:])


def _meets(thing: Thing, box: Box) -> bool:
    """Whether a thing enters a box that the box about it reaches.

    A stretch of line stays outside if both sides of its own line are not in the box (separating
    axes; Gottschalk, Lin and Manocha 1996, from memory).
    """
    left, top, right, bottom = box
    if thing.kind == "line":
        x, y, dx, dy = thing.numbers
        off = dx * (top + bottom - 2.0 * y) - dy * (left + right - 2.0 * x)
        return abs(off) <= abs(dx) * (bottom - top) + abs(dy) * (right - left)
    if thing.kind == "disc":
        x, y, r = thing.numbers
        return math.hypot(max(left - x, 0.0, x - right), max(top - y, 0.0, y - bottom)) < r
    return True
