"""One sheet of a template: its part of the shell, joint lines, register marks and words."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, product

from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.labels import Room, Spot
from counterhoop.papers.drawing.lettering import CAP_SHARE, DROP_SHARE, Box, box_of
from counterhoop.papers.drawing.manner import Manner
from counterhoop.papers.drawing.notes import note_strokes
from counterhoop.papers.drawing.numbers import SOFT, number_strokes
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
from counterhoop.papers.drawing.view import View

JOINT = Pen(weight="fine")
CUT = Pen(weight="dimension")
REGISTER_MM = 5.0
REGISTER_ARM_MM = 4.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """What one sheet shows and where its neighbours' edges lie.

    ``distances`` are the figures at the left, right, top and bottom edges, as they are printed;
    an empty one is not printed. ``datum``: the 0 line lies within this sheet and is named.
    """

    seen: Box
    joint_right_mm: float
    joint_bottom_mm: float
    cut_left: bool
    cut_top: bool
    joint_right: bool
    joint_bottom: bool
    distances: tuple[str, str, str, str]
    words: tuple[str, ...]
    title: str
    datum: bool = False


def draw_sheet(
    view: View, strokes: Sequence[tuple[Box, Stroke]], *, window: Window, manner: Manner,
    registers: Iterable[Stroke] = (),
) -> Drawing:  # fmt: skip
    """Draw what falls on one sheet.

    Parameters
    ----------
    strokes : sequence of (box, stroke)
        The whole shell's strokes with their extents, made once for all sheets.
    registers : iterable of Stroke
        Register marks of all joints.

    Returns
    -------
    Drawing
        Numbers stand on this sheet for every hole whose centre is on it, left of and above the
        joint lines: each hole is numbered on one sheet only, where no other sheet covers it.
    """
    left, top, right, bottom = window.seen
    here = [
        s if _within(box, window.seen) else clipped(s, window.seen)
        for box, s in strokes
        if (_within if isinstance(s, Text) else _touches)(box, window.seen)
    ]
    marks = [s for s in registers if _touches(extent_box(s), window.seen)]
    joints = joint_strokes(window)
    depth, _ = view.depths_mm(from_mm=left, to_mm=right)
    inner = (
        left + 1.0,
        max(top, 0.0) + 0.6,
        min(right, window.joint_right_mm) - 1.0,
        min(bottom, window.joint_bottom_mm, depth) - 0.6,
    )
    drawn: list[Stroke] = [*here, *joints, *marks]
    cell = (left, top, window.joint_right_mm, window.joint_bottom_mm)
    room = Room(inner)
    room.take(drawn, soft=SOFT)
    numbers = number_strokes(drawn, manner=manner, room=room, cell=cell)
    words = [*datum_words(window, inner, room=room, manner=manner)]
    words += [*edge_words(window, inner, room=room, manner=manner)]
    words += sheet_words(window, inner, room=room, manner=manner)
    notes = note_strokes(view, manner=manner, room=room)
    found = [n for n in (s.ident for s in here) if n.startswith("hole-")]
    count = len(found)
    return Drawing(
        left_mm=left, top_mm=top, width_mm=right - left, height_mm=bottom - top,
        strokes=(*here, *joints, *marks, *numbers, *words, *notes), title=window.title,
        says=f"{window.title}: {count} holes at full size. {', '.join(window.words)}",
        depth_mm=view.flat.depth_mm,
    )  # fmt: skip


def joint_strokes(window: Window) -> tuple[Stroke, ...]:
    """Lines to cut along (left and top) and to lay the next sheet on (right and bottom)."""
    left, top, right, bottom = window.seen
    ends: list[tuple[float, float, float, float, Pen]] = []
    if window.cut_left:
        ends.append((left, top, left, bottom, CUT))
    if window.cut_top:
        ends.append((left, top, right, top, CUT))
    if window.joint_right:
        ends.append((window.joint_right_mm, top, window.joint_right_mm, bottom, JOINT))
    if window.joint_bottom:
        ends.append((left, window.joint_bottom_mm, right, window.joint_bottom_mm, JOINT))
    return tuple(
        Line(layer=Layer.REGISTER, x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen=pen)
        for x1, y1, x2, y2, pen in ends
    )


def register_mark(x: float, y: float) -> tuple[Stroke, ...]:
    """A circle with a cross: its halves on two sheets make a whole one."""
    pen = Pen(weight="dimension")
    a = REGISTER_ARM_MM
    return (
        Circle(layer=Layer.REGISTER, x_mm=x, y_mm=y, diameter_mm=REGISTER_MM, pen=pen),
        Line(layer=Layer.REGISTER, x1_mm=x - a, y1_mm=y, x2_mm=x + a, y2_mm=y, pen=pen),
        Line(layer=Layer.REGISTER, x1_mm=x, y1_mm=y - a, x2_mm=x, y2_mm=y + a, pen=pen),
    )


def free_spot(
    targets: Sequence[tuple[float, float]], *, room: Room, half_mm: float
) -> tuple[float, float]:
    """The first place, nearest to where it is wanted, on which nothing stands."""
    about = (-half_mm, -half_mm, half_mm, half_mm)
    return room.first_free(about, targets, pad_mm=1.0) or targets[0]


def edge_words(window: Window, inner: Box, *, room: Room, manner: Manner) -> tuple[Stroke, ...]:
    """Distance from the datum at the left and right edge, and down at the top and bottom edge.

    Beside the edge itself where there is room, turned along it; else anywhere, naming the edge.
    """
    size = manner.note_mm
    names = ("left edge", "right joint line", "upper edge", "lower joint line")
    found: list[Stroke] = []
    for index, text in enumerate(window.distances):
        if not text:
            continue
        deep = inner[2] - inner[0] if index < 2 else inner[3] - inner[1]
        near, far = (0.6, 2.0), [4.0 * row for row in range(1, int(deep / 4.0))]
        short = text.replace("from the datum", "along").replace("from the batter edge", "down")
        tries = ((text, near), (f"{names[index]}: {text}", far), (f"{names[index]}: {short}", far))
        for words, offs in (*tries, (short, near), (short, far)):
            spots = _beside(index, inner, size=size, offs=offs)
            turned_deg = -90.0 if index < 2 else 0.0
            placed = _first_free(words, spots, room=room, size=size, turned_deg=turned_deg)
            found += placed
            if placed:
                break
    return tuple(found)


def _beside(index: int, inner: Box, *, size: float, offs: Sequence[float]) -> Iterator[Spot]:
    """Spots along one of the edges from its middle on, one row behind the other."""
    left, top, right, bottom = inner
    cap, drop = CAP_SHARE * size, DROP_SHARE * size
    edge, sign = ((left + cap, 1), (right - drop, -1), (top + cap, 1), (bottom - drop, -1))[index]
    start, end = (top, bottom) if index < 2 else (left, right)
    for off, at in product(offs, _from_middle(start, end, step=3.0)):
        base = edge + sign * off
        yield (base, at) if index < 2 else (at, base)


def _from_middle(start: float, end: float, *, step: float) -> list[float]:
    middle, count = (start + end) / 2, int((end - start) / 2 / step)
    return [middle + sign * step * i for i in range(count + 1) for sign in (1, -1)]


def datum_words(window: Window, inner: Box, *, room: Room, manner: Manner) -> tuple[Stroke, ...]:
    """Name the 0 line where the strip begins before it."""
    if not window.datum:
        return ()
    size = manner.note_mm
    steps = _from_middle(inner[1], inner[3], step=3.0)
    spots = [
        (x, at)
        for off in (1.0, 3.0, 6.0, 12.0, 20.0)
        for at in steps
        for x in (off + CAP_SHARE * size, -off - DROP_SHARE * size)
    ]
    for words in ("0 line, on the datum", "0 line"):
        placed = _first_free(words, spots, room=room, size=size, turned_deg=-90.0)
        if placed:
            return tuple(placed)
    return ()


def sheet_words(window: Window, inner: Box, *, room: Room, manner: Manner) -> tuple[Stroke, ...]:
    """Words that every sheet carries, from its upper left corner on, wherever there is room."""
    size = manner.note_mm
    left, top, right, bottom = inner
    found: list[Stroke] = []
    across = [left + 1.5 + 4.0 * step for step in range(math.ceil((right - left - 1.5) / 4.0))]
    rows = [top + size * (1.0 + 1.5 * row) for row in range(math.ceil((bottom - top) / size / 1.5))]
    for text in window.words:
        spots = ((x, y) for y in rows for x in across)
        found += _first_free(text, spots, room=room, size=size, start=True)
    return tuple(found)


def _first_free(
    text: str, spots: Iterable[Spot], *, room: Room, size: float, turned_deg: float = 0.0,
    start: bool = False,
) -> list[Stroke]:  # fmt: skip
    line = Text(
        layer=Layer.NOTE, x_mm=0.0, y_mm=0.0, text=text, size_mm=size, turned_deg=turned_deg,
        anchor="start" if start else "middle",
    )  # fmt: skip
    spot = room.first_free(box_of(line), spots, pad_mm=1.0)
    if spot is None:
        return []
    placed = replace(line, x_mm=spot[0], y_mm=spot[1])
    room.take([placed])
    return [placed]


def clipped(stroke: Stroke, box: Box) -> Stroke:
    """Shorten an upright, level or waving line to the window; the rest is left to the viewer."""
    if isinstance(stroke, Path) and not stroke.closed and not stroke.bulges:
        return _shortened(stroke, from_mm=box[0], to_mm=box[2])
    if not isinstance(stroke, Line):
        return stroke
    if stroke.x1_mm != stroke.x2_mm and stroke.y1_mm != stroke.y2_mm:
        return stroke
    return replace(
        stroke,
        x1_mm=min(max(stroke.x1_mm, box[0]), box[2]),
        x2_mm=min(max(stroke.x2_mm, box[0]), box[2]),
        y1_mm=min(max(stroke.y1_mm, box[1]), box[3]),
        y2_mm=min(max(stroke.y2_mm, box[1]), box[3]),
    )


def _shortened(path: Path, *, from_mm: float, to_mm: float) -> Path:
    """The chords of a line that runs to the right which a stretch touches; others stay whole."""
    steps = list(pairwise(path.points))
    if any(x1 >= x2 for (x1, _), (x2, _) in steps):
        return path
    here = [(a, b) for a, b in steps if b[0] >= from_mm and a[0] <= to_mm]
    return replace(path, points=(*(a for a, _ in here), here[-1][1])) if here else path


def _within(a: Box, b: Box) -> bool:
    return a[0] >= b[0] and a[2] <= b[2] and a[1] >= b[1] and a[3] <= b[3]


def _touches(a: Box, b: Box) -> bool:
    return a[0] <= b[2] and a[2] >= b[0] and a[1] <= b[3] and a[3] >= b[1]
