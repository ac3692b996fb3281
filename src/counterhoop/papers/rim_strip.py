"""What taps round the rim say, on the along axis of the shell laid flat."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from counterhoop.listen.advice import EVEN_ENOUGH_CENTS, RodShare
from counterhoop.listen.advice_words import FULL
from counterhoop.listen.rim_axis import HAND_RAD
from counterhoop.listen.round_rim import RimReading, TapReading
from counterhoop.papers.drawing.lettering import CAP_SHARE, box_of, width_mm
from counterhoop.papers.drawing.records import Circle, Drawing, Layer, Line, Path, Pen, Stroke, Text
from counterhoop.papers.rim_strip_words import heading_more, key_words, says_rim

WIDE_MM = 184.0
"""Width on paper, axis and all."""
LEAST_REACH_CENTS = 10.0
"""No strip shows less, or evenness would look like a mountain range."""
REACHES = (10.0, 20.0, 30.0, 40.0, 60.0, 80.0, 100.0, 150.0, 200.0, 300.0, 500.0)
HIGH_MM = 34.0
AXIS_MM, RIGHT_MM = 15.0, 6.0
LEAD_DEG = 8.0
"""Shown beyond the datum at both ends, so that a rod there is whole."""
NOTE_MM, NUMBER_MM = 3.5, 4.6
ROW_MM = 5.4
THIN, FIT = Pen(weight="dimension"), Pen(weight="hole")
ROD = Pen(weight="fine", dash="chain")
AXIS, OR_HERE = Pen(weight="hole", dash="chain"), Pen(weight="dimension", dash="dashed")
DOT = Pen(weight="outline")
TURN = Pen(weight="dimension", ink="proposed")


def reach_of(readings: Iterable[RimReading]) -> float:
    """Return how many cents above and below the middle a strip shows that holds all readings.

    Examples
    --------
    >>> reach_of([RimReading(split_cents=34.0, axis_deg=97.0), RimReading()])
    20.0
    """
    most = LEAST_REACH_CENTS
    for reading in readings:
        most = max(most, (reading.split_cents or 0.0) / 2.0, *(
            abs(tap.cents) + tap_doubt_cents(reading, tap) for tap in _heard(reading)
            if tap.cents is not None
        ))  # fmt: skip
    return next((reach for reach in REACHES if reach >= most * 1.02), REACHES[-1])


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


def draw_rim(
    reading: RimReading,
    *,
    rods: Sequence[tuple[int, float]],
    pattern: Sequence[RodShare] = (),
    heading: str = "Round the rim",
    even_cents: float = EVEN_ENOUGH_CENTS,
    reach_cents: float | None = None,
    wide_mm: float = WIDE_MM,
    key: bool = True,
    name: str = "rim",
) -> Drawing:
    """Draw a reading round the rim as a flat strip, from the datum once round to it again.

    Parameters
    ----------
    reading : RimReading
        What was read; without a pitch the strip shows the rods alone.
    rods : sequence of (int, float)
        Each rod's number, and where it is along the shell.
    pattern : sequence of RodShare
        What is to be turned; empty for nothing.
    heading : str
        What stands over it ("before", "batter, 2 May").
    even_cents : float
        The split that is even enough: a grey band.
    reach_cents : float, optional
        Cents above and below the middle that are shown; the same for strips that are compared
        (``reach_of``). As many as it takes if left out.
    wide_mm : float
        Of the drawing on paper; narrow ones leave out words for which there is no room.
    key : bool
        Whether a line beneath says what the marks are.
    name : str
        Begins every ident.

    Returns
    -------
    Drawing
        In paper millimetres; ``says`` holds all of it in words.
    """
    strip = _Strip(
        reading=reading, rods=tuple(rods), pattern=tuple(pattern), even_cents=even_cents,
        reach_cents=reach_cents or reach_of([reading]), wide_mm=wide_mm, name=name,
        top_mm=0.0,
    )  # fmt: skip
    head, below_head = _heading(strip, heading)
    strip = strip.lowered(below_head + ROW_MM + 0.8)
    rows, bottom = _under(strip)
    strokes = (*head, *_ground(strip), *_axes(strip), *_fit(strip), *_taps(strip), *rows)
    if key:
        lines, bottom = _lines(key_words(reading, pattern), y_mm=bottom, wide_mm=wide_mm)
        strokes = (*strokes, *lines)
    return Drawing(
        left_mm=0.0, top_mm=0.0, width_mm=wide_mm, height_mm=bottom + 1.0, strokes=strokes,
        title=f"{heading}: pitch round the rim",
        says=says_rim(reading, rods=rods, pattern=pattern),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class _Strip:
    """Where a place along and a pitch lie on the drawing."""

    reading: RimReading
    rods: tuple[tuple[int, float], ...]
    pattern: tuple[RodShare, ...]
    even_cents: float
    reach_cents: float
    wide_mm: float
    name: str
    top_mm: float

    def lowered(self, top_mm: float) -> _Strip:
        return _Strip(
            reading=self.reading, rods=self.rods, pattern=self.pattern,
            even_cents=self.even_cents, reach_cents=self.reach_cents, wide_mm=self.wide_mm,
            name=self.name, top_mm=top_mm,
        )  # fmt: skip

    @property
    def left_mm(self) -> float:
        return AXIS_MM

    @property
    def right_mm(self) -> float:
        return self.wide_mm - RIGHT_MM

    @property
    def bottom_mm(self) -> float:
        return self.top_mm + HIGH_MM

    @property
    def zero_mm(self) -> float:
        return self.top_mm + HIGH_MM / 2.0

    @property
    def per_deg(self) -> float:
        return (self.right_mm - self.left_mm) / (360.0 + 2.0 * LEAD_DEG)

    def x_mm(self, along_deg: float) -> float:
        return self.left_mm + (along_deg + LEAD_DEG) * self.per_deg

    def y_mm(self, cents: float) -> float:
        shown = max(-self.reach_cents, min(self.reach_cents, cents))
        return self.zero_mm - shown / self.reach_cents * HIGH_MM / 2.0

    def copies(self, along_deg: float) -> list[tuple[float, str]]:
        """Return where a place is seen: near the datum at both ends."""
        at = along_deg % 360.0
        seen = [(at, ""), (at - 360.0, "-before"), (at + 360.0, "-after")]
        return [(self.x_mm(a), mark) for a, mark in seen if -LEAD_DEG <= a <= 360.0 + LEAD_DEG]


def _heard(reading: RimReading) -> tuple[TapReading, ...]:
    """Return the taps whose pitch means something: two heads that ring say nothing of rods."""
    if reading.coupled_pair or reading.split_cents is None or reading.axis_deg is None:
        return ()
    return tuple(tap for tap in reading.taps if tap.cents is not None and not tap.says)


def _text(
    x: float, y: float, text: str, *, size: float = NOTE_MM, anchor: str = "start",
    bold: bool = False, layer: Layer = Layer.NOTE, ident: str = "", proposed: bool = False,
) -> Text:  # fmt: skip
    return Text(
        layer=layer, x_mm=x, y_mm=y, text=text, size_mm=size, bold=bold, ident=ident,
        anchor="middle" if anchor == "middle" else "end" if anchor == "end" else "start",
        ink="proposed" if proposed else "ink",
    )  # fmt: skip


def _heading(strip: _Strip, heading: str) -> tuple[list[Stroke], float]:
    y = CAP_SHARE * NOTE_MM + 1.0
    strokes: list[Stroke] = []
    x = 0.0
    if heading:
        bold = _text(0.0, y, heading, bold=True)
        strokes, x = [bold], box_of(bold)[2] + NOTE_MM
    for said in heading_more(strip.reading):
        if x and x + width_mm(said, size_mm=NOTE_MM) > strip.wide_mm:
            x, y = 0.0, y + NOTE_MM * 1.35
        text = _text(x, y, said)
        strokes.append(text)
        x = box_of(text)[2] + NOTE_MM
    return strokes, y + 1.2


def _ground(strip: _Strip) -> list[Stroke]:
    left, right = strip.left_mm, strip.right_mm
    strokes: list[Stroke] = []
    half = min(strip.even_cents / 2.0, strip.reach_cents)
    top, low = strip.y_mm(half), strip.y_mm(-half)
    strokes.append(
        Path(
            layer=Layer.SCALE, points=((left, top), (right, top), (right, low), (left, low)),
            pen=Pen(weight="fine", ink="none"), fill="shadow", fill_share=0.12,
            ident=f"{strip.name}-even", title="even enough",
        )
    )  # fmt: skip
    strokes += [
        Line(layer=Layer.ROW_LINE, x1_mm=x, y1_mm=strip.top_mm, x2_mm=x, y2_mm=strip.bottom_mm,
             pen=ROD)
        for _, along in strip.rods
        for x, _mark in strip.copies(along)
    ]  # fmt: skip
    strokes += [
        Line(layer=Layer.SCALE, x1_mm=left, y1_mm=y, x2_mm=right, y2_mm=y, pen=THIN)
        for y in (strip.zero_mm, strip.bottom_mm)
    ]
    strokes.append(
        Line(layer=Layer.SCALE, x1_mm=left, y1_mm=strip.top_mm, x2_mm=left,
             y2_mm=strip.bottom_mm, pen=THIN)
    )  # fmt: skip
    drop = CAP_SHARE * NOTE_MM / 2.0
    for cents in (-strip.reach_cents, -strip.reach_cents / 2, 0.0, strip.reach_cents / 2,
                  strip.reach_cents):  # fmt: skip
        y = strip.y_mm(cents)
        strokes += [
            Line(layer=Layer.SCALE, x1_mm=left - 1.4, y1_mm=y, x2_mm=left, y2_mm=y, pen=THIN),
            _text(left - 2.0, y + drop, f"{cents:+g}".replace("-", "−") if cents else "mean",
                  anchor="end", layer=Layer.SCALE),
        ]  # fmt: skip
    strokes.append(_text(0.0, strip.top_mm - 2.2, "cents", layer=Layer.SCALE))
    return strokes


def _axes(strip: _Strip) -> list[Stroke]:
    """The tight axis at both its ends, each with its doubt; where it may lie as well, dashed."""
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
                    strokes.append(_text(x, y - 2.2, word, anchor="middle", bold=True))
    return strokes


def _doubt_along(strip: _Strip, x: float) -> list[Stroke]:
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


def _fit(strip: _Strip) -> list[Stroke]:
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


def _taps(strip: _Strip) -> list[Stroke]:
    strokes: list[Stroke] = []
    heard = _heard(strip.reading)
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
    strip: _Strip, tap: TapReading, *, x: float, doubt_cents: float, ident: str
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


def _under(strip: _Strip) -> tuple[list[Stroke], float]:
    """Rod numbers, what is turned, and degrees along from the datum."""
    y = strip.bottom_mm + 1.6 + CAP_SHARE * NUMBER_MM
    strokes: list[Stroke] = [_text(0.0, y, "rod")]
    turned = {one.rod: one.share for one in strip.pattern if one.share}
    apart = min(
        (abs(b - a) * strip.per_deg for (_, a), (_, b) in _neighbours(strip.rods)),
        default=strip.wide_mm,
    )
    worded = width_mm("slacken", size_mm=NOTE_MM, bold=True) + 1.0 < apart
    for number, along in strip.rods:
        for x, mark in strip.copies(along):
            strokes.append(
                _text(x, y, f"{number}", size=NUMBER_MM, anchor="middle", bold=number in turned,
                      layer=Layer.NUMBER, ident=f"{strip.name}-rod-{number}{mark}")
            )  # fmt: skip
            if number in turned:
                strokes += _turn(strip, x, y + 1.4, turned[number], number, mark, worded=worded)
    low = y + 1.0
    if turned:
        strokes.append(_text(0.0, y + 1.4 + 2.8, "turn"))
        lines = 2 if any(abs(share) < FULL for share in turned.values()) else 1
        low += 3.8 + (lines * NOTE_MM * 1.15 if worded else 1.0)
    return _along(strip, strokes, low)


def _neighbours(
    rods: Sequence[tuple[int, float]],
) -> list[tuple[tuple[int, float], tuple[int, float]]]:
    ordered = sorted(((n, along % 360.0) for n, along in rods), key=lambda rod: rod[1])
    return list(pairwise(ordered))


def _turn(
    strip: _Strip, x: float, y: float, share: float, number: int, mark: str, *, worded: bool
) -> list[Stroke]:
    """An arrow head: up tightens, down slackens, a small one half as much; and in words."""
    half = abs(share) < FULL
    high = 1.7 if half else 3.0
    middle, wide = y + 1.5, high * 0.62
    tip, foot = (middle - high / 2, middle + high / 2)[:: 1 if share > 0 else -1]
    strokes: list[Stroke] = [
        Path(layer=Layer.NOTE, points=((x, tip), (x + wide, foot), (x - wide, foot)), pen=TURN,
             fill="proposed", fill_share=1.0, ident=f"{strip.name}-turn-{number}{mark}",
             title="tighten" if share > 0 else "slacken")
    ]  # fmt: skip
    # A copy at the other end of the strip may stand at its rim: its word is there already.
    if worded and not mark:
        low = y + 3.4 + CAP_SHARE * NOTE_MM
        word = "tighten" if share > 0 else "slacken"
        strokes.append(_text(x, low, word, anchor="middle", bold=True, proposed=True))
        if half:
            strokes.append(_text(x, low + NOTE_MM * 1.1, "half", anchor="middle", proposed=True))
    return strokes


def _along(strip: _Strip, strokes: list[Stroke], y: float) -> tuple[list[Stroke], float]:
    y += 1.2
    strokes.append(
        Line(layer=Layer.SCALE, x1_mm=strip.x_mm(0.0), y1_mm=y, x2_mm=strip.x_mm(360.0), y2_mm=y,
             pen=THIN)
    )  # fmt: skip
    low = y + 2.4 + CAP_SHARE * NOTE_MM
    for deg in range(0, 361, 15):
        x, high = strip.x_mm(deg), 1.8 if deg % 90 == 0 else 1.2 if deg % 45 == 0 else 0.7
        strokes.append(Line(layer=Layer.SCALE, x1_mm=x, y1_mm=y, x2_mm=x, y2_mm=y + high, pen=THIN))
        if deg % 90 == 0:
            said = "datum" if deg in (0, 360) else f"{deg}°"
            strokes.append(_text(x, low, said, anchor="middle", layer=Layer.SCALE))
    return strokes, low + 1.2


def _lines(words: Sequence[str], *, y_mm: float, wide_mm: float) -> tuple[list[Stroke], float]:
    """Set words one after another, as many to a line as fit."""
    y = y_mm + 2.0 + CAP_SHARE * NOTE_MM
    strokes: list[Stroke] = []
    line = ""
    for word in words:
        longer = f"{line} · {word}" if line else word
        if line and width_mm(longer, size_mm=NOTE_MM) > wide_mm:
            strokes.append(_text(0.0, y, line))
            line, y = word, y + NOTE_MM * 1.35
        else:
            line = longer
    if line:
        strokes.append(_text(0.0, y, line))
    return strokes, y + 1.0
