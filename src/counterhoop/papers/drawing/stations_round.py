"""How stations are numbered round a drum, in one picture from above."""

from __future__ import annotations

import math

from counterhoop.papers.drawing.lettering import CAP_SHARE
from counterhoop.papers.drawing.records import Circle, Drawing, Layer, Line, Path, Pen, Stroke, Text

RADIUS_MM = 21.0
SIZE_MM = 3.5
EDGE = Pen(weight="outline")
THIN = Pen(weight="dimension")
ACROSS = Pen(weight="fine", dash="dashed")
ARROW_MM = 14.5
ARROW_FROM_DEG, ARROW_TO_DEG = 20.0, 100.0
SIDE_MM = 37.0


def draw_stations_round(count: int = 16) -> Drawing:
    """Draw the batter end as one looks down on it, the datum toward the reader.

    Stations then run anticlockwise: to the right as one looks at the outside.

    Parameters
    ----------
    count : int
        Stations round the rim; those opposite each other make a diameter.
    """
    strokes: list[Stroke] = [
        Circle(
            layer=Layer.OUTLINE, x_mm=0.0, y_mm=0.0, diameter_mm=2 * RADIUS_MM, pen=EDGE,
            ident="rim", title="the batter edge, seen from above",
        )
    ]  # fmt: skip
    first, opposite = seen_from_above(0.0, RADIUS_MM), seen_from_above(180.0, RADIUS_MM)
    strokes.append(_line(first, opposite, pen=ACROSS))
    for number in range(1, count + 1):
        along = 360.0 * (number - 1) / count
        inner, outer = (seen_from_above(along, RADIUS_MM + far) for far in (-1.4, 1.4))
        strokes.append(_line(inner, outer, pen=EDGE if number == 1 else THIN))
        x, y = seen_from_above(along, RADIUS_MM + 4.4)
        strokes.append(
            Text(
                layer=Layer.NUMBER, x_mm=x, y_mm=y + CAP_SHARE * SIZE_MM / 2, text=str(number),
                size_mm=SIZE_MM, anchor="middle", bold=number == 1, ident=f"station-{number}",
            )
        )  # fmt: skip
    strokes += _arrow()
    words = (
        (-RADIUS_MM - 10.0, "seen from above, batter edge up"),
        (RADIUS_MM + 11.5, "station 1: the datum, toward you"),
    )
    strokes += [
        Text(layer=Layer.NOTE, x_mm=0.0, y_mm=y, text=text, size_mm=SIZE_MM, anchor="middle")
        for y, text in words
    ]
    return Drawing(
        left_mm=-SIDE_MM, top_mm=-RADIUS_MM - 14.0, width_mm=2 * SIDE_MM,
        height_mm=2 * RADIUS_MM + 27.0, strokes=tuple(strokes),
        title="How stations are numbered",
        says=(
            f"The drum seen from above with its datum toward you: station 1 at the datum, then "
            f"anticlockwise to station {count}, which is to the right as you look at the outside. "
            f"A diameter goes from one station to the one opposite, 1 to {1 + count // 2}."
        ),
    )  # fmt: skip


def seen_from_above(along_deg: float, radius_mm: float) -> tuple[float, float]:
    """Place on paper of a point on the rim, the datum down, y downward.

    Examples
    --------
    A quarter along lies to the right of who stands before the datum.

    >>> [round(v, 9) for v in seen_from_above(90.0, 10.0)]
    [10.0, 0.0]
    """
    a = math.radians(along_deg)
    return radius_mm * math.sin(a), radius_mm * math.cos(a)


def _arrow() -> list[Stroke]:
    points = [
        seen_from_above(ARROW_FROM_DEG + (ARROW_TO_DEG - ARROW_FROM_DEG) * i / 24, ARROW_MM)
        for i in range(25)
    ]
    tip = points[-1]
    barbs = [seen_from_above(ARROW_TO_DEG - 9.0, ARROW_MM + far) for far in (-1.4, 1.4)]
    path = Path(layer=Layer.NOTE, points=tuple(points), closed=False, pen=EDGE, ident="along-arrow")
    x, y = seen_from_above(60.0, ARROW_MM - 7.5)
    word = Text(layer=Layer.NOTE, x_mm=x, y_mm=y, text="along", size_mm=SIZE_MM, anchor="middle")
    return [path, *(_line(tip, barb, pen=EDGE) for barb in barbs), word]


def _line(start: tuple[float, float], end: tuple[float, float], *, pen: Pen) -> Line:
    return Line(
        layer=Layer.OUTLINE, x1_mm=start[0], y1_mm=start[1], x2_mm=end[0], y2_mm=end[1], pen=pen
    )
