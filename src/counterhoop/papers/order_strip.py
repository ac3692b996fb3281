"""In which order the rods are turned, on the along axis of the shell laid flat."""

from __future__ import annotations

from collections.abc import Sequence

from counterhoop.papers.drawing.lettering import CAP_SHARE, width_mm
from counterhoop.papers.drawing.records import Drawing, Layer, Line, Pen, Stroke, Text

LEFT_MM, RIGHT_MM = 20.0, 9.0
NUMBER_MM, NOTE_MM = 4.2, 3.5
LINE_Y_MM = 6.0
"""Where the line of the rim lies: rod numbers stand over it, the order beneath."""
TICK_MM, DATUM_MM = 1.2, 1.8


def draw_order(
    rods: Sequence[tuple[int, float]],
    order: Sequence[int],
    *,
    said: str = "rod",
    wide_mm: float = 184.0,
    name: str = "order",
) -> Drawing:
    """Draw the rods of a head along the rim, and when each is turned.

    Parameters
    ----------
    rods : sequence of (int, float)
        Each rod's number, and where it is along the shell.
    order : sequence of int
        Their numbers, the first to be turned first.
    said : str
        What stands beside the rods' numbers.
    wide_mm : float
        On paper.
    name : str
        Begins every ident.
    """
    turn = {rod: place for place, rod in enumerate(order, 1)}
    per_deg = (wide_mm - LEFT_MM - RIGHT_MM) / 360.0
    ends = LEFT_MM, LEFT_MM + 360.0 * per_deg
    below = LINE_Y_MM + TICK_MM + 1.0 + CAP_SHARE * NOTE_MM
    strokes: list[Stroke] = [
        Line(
            layer=Layer.SCALE, x1_mm=ends[0], y1_mm=LINE_Y_MM, x2_mm=ends[1], y2_mm=LINE_Y_MM,
            pen=Pen(weight="dimension"),
        ),
        *(
            Line(
                layer=Layer.SCALE, x1_mm=x, y1_mm=LINE_Y_MM - DATUM_MM, x2_mm=x,
                y2_mm=LINE_Y_MM + DATUM_MM,
                pen=Pen(weight="outline"), ident=f"{name}-datum-{end}",
            )
            for end, x in enumerate(ends)
        ),
        _text(0.0, LINE_Y_MM - 1.0, said, anchor="start"),
        _text(0.0, below, "order", anchor="start"),
        *_datum(rods, ends, per_deg=per_deg, y_mm=below),
    ]  # fmt: skip
    for number, along in rods:
        x = LEFT_MM + along % 360.0 * per_deg
        strokes += [
            Line(
                layer=Layer.ROW_LINE, x1_mm=x, y1_mm=LINE_Y_MM - TICK_MM, x2_mm=x,
                y2_mm=LINE_Y_MM + TICK_MM, pen=Pen(weight="hole"),
            ),
            Text(
                layer=Layer.NUMBER, x_mm=x, y_mm=LINE_Y_MM - DATUM_MM - 0.6, text=f"{number}",
                size_mm=NUMBER_MM, anchor="middle", bold=True, ident=f"{name}-rod-{number}",
            ),
        ]  # fmt: skip
        if number in turn:
            strokes.append(_text(x, below, ordinal(turn[number]), anchor="middle"))
    listed = ", ".join(str(rod) for rod in order)
    return Drawing(
        left_mm=0.0, top_mm=0.0, width_mm=wide_mm, height_mm=below + 1.2, strokes=tuple(strokes),
        title="Order of the rods", says=f"Rods are turned in the order {listed}, and round again.",
    )  # fmt: skip


def _datum(
    rods: Sequence[tuple[int, float]], ends: tuple[float, float], *, per_deg: float, y_mm: float
) -> list[Stroke]:
    """The datum by its name, at the end where no rod stands near."""
    half = width_mm("datum", size_mm=NOTE_MM) / 2.0
    near = (half + width_mm("12th", size_mm=NOTE_MM)) / per_deg
    places = [along % 360.0 for _, along in rods]
    free = [
        x
        for x, at in ((ends[1], 360.0), (ends[0], 0.0))
        if all(abs(place - at) > near for place in places)
    ]
    return [_text(x, y_mm, "datum", anchor="middle") for x in free[:1]]


def _text(x: float, y: float, text: str, *, anchor: str) -> Text:
    return Text(
        layer=Layer.NOTE, x_mm=x, y_mm=y, text=text, size_mm=NOTE_MM,
        anchor="middle" if anchor == "middle" else "start",
    )  # fmt: skip


def ordinal(number: int) -> str:
    """Print a place in an order.

    Examples
    --------
    >>> [ordinal(n) for n in (1, 2, 3, 4, 11, 21)]
    ['1st', '2nd', '3rd', '4th', '11th', '21st']
    """
    last = 0 if 10 < number % 100 < 14 else number % 10
    return f"{number}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(last, 'th') }"
