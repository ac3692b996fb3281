"""Where a number can stand: near its hole, on no line, no mark and no other number."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable
from typing import NamedTuple, TypeAlias

from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.lettering import CAP_SHARE, Box, box_of, width_mm
from counterhoop.papers.drawing.records import Circle, Line, Path, Stroke, Text

Ends: TypeAlias = tuple[float, float, float, float]
EIGHT = ((1, -1), (-1, -1), (1, 1), (-1, 1), (1, 0), (-1, 0), (0, -1), (0, 1))
BETWEEN = tuple((sx * a, sy * b) for a, b in ((1, 0.5), (0.5, 1)) for sx, sy in EIGHT[:4])
GAPS = (0.7, 1.4, 2.2, 3.2, 4.5, 6.0, 8.0, 11.0, 15.0, 20.0)


class _Thing(NamedTuple):
    """An obstacle: a stretch of line, a disc, or a box (of a text)."""

    box: Box
    kind: str  # "line", "disc", "box"
    numbers: tuple[float, ...]
    soft: bool


class Room:
    """What is taken on a drawing, in a grid of squares so that asking is quick.

    Parameters
    ----------
    bounds : tuple
        Left, top, right, bottom: nothing may stand outside.
    cell_mm : float
        Side of a square; about the size of a label.
    """

    def __init__(self, bounds: Box, *, cell_mm: float) -> None:
        self.bounds = bounds
        self.cell = cell_mm
        self._squares: dict[tuple[int, int], list[_Thing]] = defaultdict(list)

    def take(self, strokes: Iterable[Stroke], *, soft: frozenset[str] = frozenset()) -> None:
        """Count every stroke as taken; those on the layers named only as lines to be crossed."""
        for stroke in strokes:
            yielding = stroke.layer.value in soft
            if isinstance(stroke, Circle):
                self._add_disc(stroke, soft=yielding)
            elif isinstance(stroke, Line):
                self._add_line(stroke.x1_mm, stroke.y1_mm, stroke.x2_mm, stroke.y2_mm, yielding)
            elif isinstance(stroke, Text):
                left, top, right, bottom = box_of(stroke)
                gap = 0.18 * stroke.size_mm
                box = (left - gap, top - gap, right + gap, bottom + gap)
                self._add(_Thing(box, "box", (), False))
            else:
                self._add_path(stroke, yielding)

    def clashes(self, box: Box, *, pad_mm: float) -> tuple[int, int]:
        """Count what a box would stand on: (marks and words, lines that may be crossed)."""
        left, top, right, bottom = (
            box[0] - pad_mm,
            box[1] - pad_mm,
            box[2] + pad_mm,
            box[3] + pad_mm,
        )
        b = self.bounds
        hard = soft = 0
        if box[0] < b[0] or box[1] < b[1] or box[2] > b[2] or box[3] > b[3]:
            hard += 100
        seen: set[int] = set()
        for key in self._keys((left, top, right, bottom)):
            for thing in self._squares.get(key, ()):
                if id(thing) in seen:
                    continue
                seen.add(id(thing))
                if _meets(thing, (left, top, right, bottom)):
                    if thing.soft:
                        soft += 1
                    else:
                        hard += 1
        return hard, soft

    def free(self, box: Box, *, pad_mm: float) -> bool:
        """Whether a box stands inside the bounds and on nothing; stops at the first thing."""
        b = self.bounds
        if box[0] < b[0] or box[1] < b[1] or box[2] > b[2] or box[3] > b[3]:
            return False
        wide = (box[0] - pad_mm, box[1] - pad_mm, box[2] + pad_mm, box[3] + pad_mm)
        squares = self._squares
        return not any(
            _meets(thing, wide) for key in self._keys(wide) for thing in squares.get(key, ())
        )

    def crossed(self, ends: Ends, *, half_mm: float) -> int:
        """Count marks and words that a line would run over, its own end at the mark left out."""
        x1, y1, x2, y2 = ends
        steps = max(3, math.ceil(math.hypot(x2 - x1, y2 - y1) / self.cell * 4))
        found = 0
        for i in range(steps):
            share = (i + 1) / (steps + 1)
            x, y = x1 + (x2 - x1) * share, y1 + (y2 - y1) * share
            near = (x - half_mm, y - half_mm, x + half_mm, y + half_mm)
            found += any(
                not thing.soft and thing.kind != "line" and _meets(thing, near)
                for key in self._keys(near)
                for thing in self._squares.get(key, ())
            )
        return found

    def _add(self, thing: _Thing) -> None:
        left, top, right, bottom = (math.floor(v / self.cell) for v in thing.box)
        if left == right and top == bottom:
            self._squares[left, top].append(thing)
            return
        for key in self._keys(thing.box):
            self._squares[key].append(thing)

    def _add_disc(self, c: Circle, *, soft: bool) -> None:
        r = c.diameter_mm / 2
        box = (c.x_mm - r, c.y_mm - r, c.x_mm + r, c.y_mm + r)
        self._add(_Thing(box, "disc", (c.x_mm, c.y_mm, r), soft))

    def _add_line(self, x1: float, y1: float, x2: float, y2: float, soft: bool) -> None:
        long = max(abs(x2 - x1), abs(y2 - y1))
        if long <= 4 * self.cell:
            box = (min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))
            self._add(_Thing(box, "line", (x1, y1, x2, y2), soft))
            return
        pieces = math.ceil(long / (4 * self.cell))
        for i in range(pieces):
            a, b = i / pieces, (i + 1) / pieces
            ends = (
                x1 + (x2 - x1) * a,
                y1 + (y2 - y1) * a,
                x1 + (x2 - x1) * b,
                y1 + (y2 - y1) * b,
            )
            box = (
                min(ends[0], ends[2]),
                min(ends[1], ends[3]),
                max(ends[0], ends[2]),
                max(ends[1], ends[3]),
            )
            self._add(_Thing(box, "line", ends, soft))

    def _add_path(self, path: Path, soft: bool) -> None:
        if path.bulges:  # a slot: its whole extent
            self._add(_Thing(extent_box(path), "box", (), soft))
            return
        points = path.points
        last = len(points) if path.closed else len(points) - 1
        for i in range(last):
            (x1, y1), (x2, y2) = points[i], points[(i + 1) % len(points)]
            self._add_line(x1, y1, x2, y2, soft)

    def _keys(self, box: Box) -> Iterable[tuple[int, int]]:
        c = self.cell
        for i in range(math.floor(box[0] / c), math.floor(box[2] / c) + 1):
            for j in range(math.floor(box[1] / c), math.floor(box[3] / c) + 1):
                yield i, j


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
    pad = 0.45 * paper_mm
    far = 3.0 * paper_mm
    best: tuple[tuple[float, ...], Box, Ends | None] | None = None
    for rank, gap_paper in enumerate(GAPS):
        gap = gap_paper * paper_mm
        for order, (sx, sy) in enumerate((*EIGHT, *BETWEEN)):
            reach = 1.0 / math.hypot(sx, sy)
            cx = x_mm + sx * ((half_mm[0] + gap) * reach + wide / 2)
            cy = y_mm + sy * ((half_mm[1] + gap) * reach + high / 2)
            box = (cx - wide / 2, cy - high / 2, cx + wide / 2, cy + high / 2)
            hard, soft = room.clashes(box, pad_mm=pad)
            leader = _leader(box, x_mm, y_mm, half_mm, gap, far)
            crossed = room.crossed(leader, half_mm=0.3 * paper_mm) if leader and not hard else 0
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


def _meets(thing: _Thing, box: Box) -> bool:
    if (
        thing.box[0] > box[2]
        or thing.box[2] < box[0]
        or thing.box[1] > box[3]
        or thing.box[3] < box[1]
    ):
        return False
    if thing.kind == "box":
        return True
    if thing.kind == "disc":
        x, y, r = thing.numbers
        dx = max(box[0] - x, 0.0, x - box[2])
        dy = max(box[1] - y, 0.0, y - box[3])
        return dx * dx + dy * dy < r * r
    return _line_meets(thing.numbers, box)


def _line_meets(ends: tuple[float, ...], box: Box) -> bool:
    """Whether a stretch of line enters a box (Liang and Barsky 1984, clipping by parameters)."""
    x1, y1, x2, y2 = ends
    dx, dy = x2 - x1, y2 - y1
    start, end = 0.0, 1.0
    for step, room in (
        (-dx, x1 - box[0]),
        (dx, box[2] - x1),
        (-dy, y1 - box[1]),
        (dy, box[3] - y1),
    ):
        if step == 0.0:
            if room < 0.0:
                return False
        elif step < 0.0:
            start = max(start, room / step)
        else:
            end = min(end, room / step)
        if start > end:
            return False
    return True
