"""A number at every hole."""

from __future__ import annotations

from collections.abc import Iterable

from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.labels import Room, place_number
from counterhoop.papers.drawing.lettering import Box
from counterhoop.papers.drawing.manner import Manner
from counterhoop.papers.drawing.records import Circle, Layer, Line, Path, Pen, Stroke, Text

LEADER = Pen(weight="fine")
SOFT = frozenset(
    {Layer.SHADOW, Layer.BASE_GOES, Layer.BASE_STAYS, Layer.BASE_NEW, Layer.ROW_LINE, Layer.SEAM}
)


def number_strokes(
    drawn: Iterable[Stroke], *, manner: Manner, room: Room, cell: Box | None = None
) -> tuple[Stroke, ...]:
    """Number every hole whose centre lies within the cell (by default anywhere that is drawn).

    The room knows what is drawn; numbers are taken in it as they are placed.

    Holes are found by the ident of their outline, so a copy beyond the datum gets its number too,
    where one is free: it is read at the hole itself. The most crowded ones choose first, copies
    after all others.
    """
    size = manner.mm(manner.number_mm)
    spots = []
    for stroke in drawn:
        if not isinstance(stroke, Circle | Path) or not stroke.ident.startswith("hole-"):
            continue
        spot = extent(stroke)
        if cell is None or (cell[0] <= spot[0] < cell[2] and cell[1] <= spot[1] < cell[3]):
            spots.append((stroke.ident, *spot))
    near = size * 4
    crowd = {
        ident: -sum(abs(x - ox) < near and abs(y - oy) < near for _, ox, oy, _, _ in spots)
        for ident, x, y, _, _ in spots
    }

    def is_copy(ident: str) -> bool:
        return ident.count("-") > 1 and ident.rpartition("-")[0] in crowd

    found: list[Stroke] = []
    for ident, x, y, half_x, half_y in sorted(
        spots, key=lambda s: (is_copy(s[0]), crowd[s[0]], s[1], s[2])
    ):
        number = ident.split("-")[1]
        box, leader = place_number(
            number, x_mm=x, y_mm=y, half_mm=(half_x, half_y), size_mm=size, room=room,
            paper_mm=manner.mm(1.0),
        )  # fmt: skip
        if is_copy(ident) and not room.is_free(box):
            continue
        new: list[Stroke] = [
            Text(
                layer=Layer.NUMBER, x_mm=box[0], y_mm=box[3], text=number, size_mm=size, bold=True,
                ident=f"number-{ident.removeprefix('hole-')}",
            )
        ]  # fmt: skip
        if leader is not None:
            x1, y1, x2, y2 = leader
            new.append(Line(layer=Layer.NUMBER, x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen=LEADER))
        room.take(new)
        found += new
    return tuple(found)


def extent(stroke: Circle | Path) -> tuple[float, float, float, float]:
    """Centre and half extent along and down of a hole's outline."""
    left, top, right, bottom = extent_box(stroke)
    return ((left + right) / 2, (top + bottom) / 2, (right - left) / 2, (bottom - top) / 2)
