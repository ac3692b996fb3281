"""What was read, on a strip round the rim: taps with their doubts, the fit, the tight axis."""

from __future__ import annotations

import math

from counterhoop.listen.rim_axis import HAND_RAD
from counterhoop.listen.round_rim import RimReading, TapReading
from counterhoop.papers.drawing.lettering import width_mm
from counterhoop.papers.drawing.records import Circle, Layer, Line, Path, Pen, Stroke
from counterhoop.papers.rim_place import LEAD_DEG, NOTE_MM, RimPlace, rim_text

THIN, FIT = Pen(weight="dimension"), Pen(weight="hole")
AXIS, OR_HERE = Pen(weight="hole", dash="chain"), Pen(weight="dimension", dash="dashed")
DOT = Pen(weight="outline")


def tap_doubt_cents(reading: RimReading, tap: TapReading) -> float:
    """Return the standard doubt of the pitch at a tap against the middle one.

    By the two-lobed law: from the doubts of the split and of its axis, and from the hand, which
    taps a little beside the rod.

    Examples
    --------
    >>> read = RimReading(split_cents=20.0, split_doubt_cents=2.0, axis_deg=30.0)
    >>> tap_doubt_cents(read, TapReading(rod=1, along_deg=30.0))
    1.0
    """
    if reading.split_cents is None or reading.axis_deg is None:
        return 0.0
    turn = 2.0 * math.radians(tap.along_deg - reading.axis_deg)
    place = math.hypot(math.radians(reading.axis_doubt_deg or 0.0), HAND_RAD)
    high = (reading.split_doubt_cents or 0.0) / 2.0 * math.cos(turn)
    return math.hypot(high, reading.split_cents * math.sin(turn) * place)


def taps_heard(reading: RimReading) -> tuple[TapReading, ...]:
    """Return the taps whose pitch means something: two heads that ring say nothing of rods."""
    if reading.coupled_pair or reading.split_cents is None or reading.axis_deg is None:
        return ()
    return tuple(tap for tap in reading.taps if tap.cents is not None and not tap.says)


def axis_strokes(strip: RimPlace) -> list[Stroke]:
    """Draw the tight axis at both its ends with its doubt; dashed where it may lie as well."""
    reading = strip.reading
    if reading.axis_deg is None or reading.coupled_pair:
        return []
    strokes: list[Stroke] = []
    taken: list[tuple[float, float]] = []
    said = [("tight", reading.axis_deg, AXIS)]
    if reading.mirror_deg is not None:
        said.append(("or here", reading.mirror_deg, OR_HERE))
    y = strip.top_mm
    for word, axis, pen in said:
        for end in (0, 1):
            for x, mark in strip.copies(axis + 180.0 * end):
                strokes.append(
                    Line(layer=Layer.READING, x1_mm=x, y1_mm=y - 1.2, x2_mm=x,
                         y2_mm=strip.bottom_mm, pen=pen,
                         ident=f"{strip.name}-{word.replace(' ', '-')}-{end + 1}{mark}")
                )  # fmt: skip
                strokes += _doubt_along(strip, x)
                half = width_mm(word, size_mm=NOTE_MM, bold=True) / 2.0
                span = (x - half - 1.0, x + half + 1.0)
                if all(span[1] < a or span[0] > b for a, b in taken):
                    taken.append(span)
                    strokes.append(rim_text(x, y - 3.0, word, anchor="middle", bold=True))
    return strokes


def _doubt_along(strip: RimPlace, x: float) -> list[Stroke]:
    reach = (strip.reading.axis_doubt_deg or 0.0) * strip.per_deg
    ends = max(x - reach, strip.left_mm), min(x + reach, strip.right_mm)
    y = strip.top_mm - 1.2
    return [
        Line(layer=Layer.READING, x1_mm=ends[0], y1_mm=y, x2_mm=ends[1], y2_mm=y, pen=FIT),
        *(
            Line(layer=Layer.READING, x1_mm=at, y1_mm=y - 0.8, x2_mm=at, y2_mm=y + 0.8, pen=FIT)
            for at in ends
        ),
    ]


def fit_strokes(strip: RimPlace) -> list[Stroke]:
    """Draw the two-lobed fit."""
    reading = strip.reading
    if reading.split_cents is None or reading.axis_deg is None or reading.coupled_pair:
        return []
    points = []
    for step in range(189):
        along = -LEAD_DEG + (360.0 + 2.0 * LEAD_DEG) * step / 188.0
        points.append((strip.x_mm(along), strip.y_mm(reading.cents_at(along) or 0.0)))
    return [
        Path(layer=Layer.READING, points=tuple(points), closed=False, pen=FIT,
             ident=f"{strip.name}-fit", title="the two-lobed fit")
    ]  # fmt: skip


def tap_strokes(strip: RimPlace) -> list[Stroke]:
    """Draw every tap: a dot with its doubt, a square for the second place, a cross if left out."""
    strokes: list[Stroke] = []
    heard = taps_heard(strip.reading)
    for number, tap in enumerate(strip.reading.taps, 1):
        for x, mark in strip.copies(tap.along_deg):
            ident = f"{strip.name}-tap-{number}{mark}"
            if tap in heard and tap.cents is not None:
                doubt = tap_doubt_cents(strip.reading, tap)
                strokes += _tap(strip, tap, x=x, doubt_cents=doubt, ident=ident)
            elif tap.says:
                strokes += _cross(x, strip.bottom_mm - 1.8, ident=ident)
    return strokes


def _tap(
    strip: RimPlace, tap: TapReading, *, x: float, doubt_cents: float, ident: str
) -> list[Stroke]:
    cents = tap.cents or 0.0
    y = strip.y_mm(cents)
    top, low = strip.y_mm(cents + doubt_cents), strip.y_mm(cents - doubt_cents)
    bar: list[Stroke] = [
        Line(layer=Layer.READING, x1_mm=x, y1_mm=top, x2_mm=x, y2_mm=low, pen=THIN),
        *(
            Line(layer=Layer.READING, x1_mm=x - 0.9, y1_mm=at, x2_mm=x + 0.9, y2_mm=at, pen=THIN)
            for at in (top, low)
        ),
    ]
    if tap.place:
        r = 1.0
        mark: Stroke = Path(
            layer=Layer.READING, points=((x - r, y - r), (x + r, y - r), (x + r, y + r),
                                         (x - r, y + r)),
            pen=FIT, ident=ident,
        )  # fmt: skip
        return [*bar, mark]
    return [
        *bar,
        Circle(layer=Layer.READING, x_mm=x, y_mm=y, diameter_mm=1.1, pen=DOT, ident=ident),
        Circle(layer=Layer.READING, x_mm=x, y_mm=y, diameter_mm=0.4, pen=DOT),
    ]


def _cross(x: float, y: float, *, ident: str) -> list[Stroke]:
    r = 1.2
    return [
        Line(layer=Layer.READING, x1_mm=x - r, y1_mm=y - r, x2_mm=x + r, y2_mm=y + r, pen=FIT,
             ident=ident),
        Line(layer=Layer.READING, x1_mm=x - r, y1_mm=y + r, x2_mm=x + r, y2_mm=y - r, pen=FIT),
    ]  # fmt: skip
