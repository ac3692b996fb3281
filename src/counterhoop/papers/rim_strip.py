"""What taps round the rim say, on the along axis of the shell laid flat."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from counterhoop.listen.advice import EVEN_ENOUGH_CENTS, RodShare
from counterhoop.listen.advice_words import FULL
from counterhoop.listen.round_rim import RimReading
from counterhoop.papers.drawing.lettering import CAP_SHARE, box_of, width_mm
from counterhoop.papers.drawing.records import Drawing, Layer, Line, Path, Pen, Stroke
from counterhoop.papers.rim_marks import (
    THIN,
    axis_strokes,
    fit_strokes,
    tap_doubt_cents,
    tap_strokes,
    taps_heard,
)
from counterhoop.papers.rim_place import NOTE_MM, NUMBER_MM, RimPlace, rim_text
from counterhoop.papers.rim_strip_words import heading_more, key_words, says_rim

WIDE_MM = 184.0
"""Width on paper, axis and all."""
LEAST_REACH_CENTS = 10.0
"""No strip shows less, or evenness would look like a mountain range."""
REACHES = (10.0, 20.0, 30.0, 40.0, 60.0, 80.0, 100.0, 150.0, 200.0, 300.0, 500.0)
ROW_MM = 6.8
"""For the word over each end of the tight axis."""
ROD = Pen(weight="fine", dash="chain")
EVEN = Pen(weight="dimension", dash="dotted")
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
            abs(tap.cents) + tap_doubt_cents(reading, tap) for tap in taps_heard(reading)
            if tap.cents is not None
        ))  # fmt: skip
    return next((reach for reach in REACHES if reach >= most), REACHES[-1])


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
        The split that is even enough: a dotted band.
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
    strip = RimPlace(
        reading=reading, rods=tuple(rods), pattern=tuple(pattern), even_cents=even_cents,
        reach_cents=reach_cents or reach_of([reading]), wide_mm=wide_mm, name=name,
        top_mm=0.0,
    )  # fmt: skip
    head, below_head = _heading(strip, heading)
    strip = strip.lowered(below_head + ROW_MM)
    rows, bottom = _under(strip)
    strokes = (
        *head,
        *_ground(strip),
        *axis_strokes(strip),
        *fit_strokes(strip),
        *tap_strokes(strip),
        *rows,
    )
    if key:
        lines, bottom = _lines(key_words(reading, pattern), y_mm=bottom, wide_mm=wide_mm)
        strokes = (*strokes, *lines)
    return Drawing(
        left_mm=0.0, top_mm=0.0, width_mm=wide_mm, height_mm=bottom + 1.0, strokes=strokes,
        title=f"{heading}: pitch round the rim",
        says=says_rim(reading, rods=rods, pattern=pattern),
    )  # fmt: skip


def _heading(strip: RimPlace, heading: str) -> tuple[list[Stroke], float]:
    y = CAP_SHARE * NOTE_MM + 1.0
    strokes: list[Stroke] = []
    x = 0.0
    if heading:
        bold = rim_text(0.0, y, heading, bold=True)
        strokes, x = [bold], box_of(bold)[2] + NOTE_MM
    for said in heading_more(strip.reading):
        if x and x + width_mm(said, size_mm=NOTE_MM) > strip.wide_mm:
            x, y = 0.0, y + NOTE_MM * 1.35
        text = rim_text(x, y, said)
        strokes.append(text)
        x = box_of(text)[2] + NOTE_MM
    return strokes, y + 1.2


def _ground(strip: RimPlace) -> list[Stroke]:
    left, right = strip.left_mm, strip.right_mm
    strokes: list[Stroke] = []
    half = min(strip.even_cents / 2.0, strip.reach_cents)
    top, low = strip.y_mm(half), strip.y_mm(-half)
    strokes.append(
        Path(
            layer=Layer.SCALE, points=((left, top), (right, top), (right, low), (left, low)),
            pen=EVEN, ident=f"{strip.name}-even", title="even enough",
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
            rim_text(left - 2.0, y + drop, f"{cents:+g}".replace("-", "−") if cents else "mean",
                  anchor="end", layer=Layer.SCALE),
        ]  # fmt: skip
    strokes.append(rim_text(0.0, strip.top_mm - 2.2, "cents", layer=Layer.SCALE))
    return strokes


def _under(strip: RimPlace) -> tuple[list[Stroke], float]:
    """Rod numbers, what is turned, and degrees along from the datum."""
    y = strip.bottom_mm + 1.6 + CAP_SHARE * NUMBER_MM
    strokes: list[Stroke] = [rim_text(0.0, y, "rod")]
    turned = {one.rod: one.share for one in strip.pattern if one.share}
    apart = min(
        (abs(b - a) * strip.per_deg for (_, a), (_, b) in _neighbours(strip.rods)),
        default=strip.wide_mm,
    )
    worded = width_mm("slacken", size_mm=NOTE_MM, bold=True) + 1.0 < apart
    for number, along in strip.rods:
        for x, mark in strip.copies(along):
            strokes.append(
                rim_text(x, y, f"{number}", size=NUMBER_MM, anchor="middle", bold=number in turned,
                      layer=Layer.NUMBER, ident=f"{strip.name}-rod-{number}{mark}")
            )  # fmt: skip
            if number in turned:
                strokes += _turn(strip, x, y + 1.4, turned[number], number, mark, worded=worded)
    low = y + 1.0
    if turned:
        strokes.append(rim_text(0.0, y + 1.4 + 2.8, "turn"))
        lines = 2 if any(abs(share) < FULL for share in turned.values()) else 1
        low += 3.8 + (lines * NOTE_MM * 1.15 if worded else 1.0)
    return _along(strip, strokes, low)


def _neighbours(
    rods: Sequence[tuple[int, float]],
) -> list[tuple[tuple[int, float], tuple[int, float]]]:
    ordered = sorted(((n, along % 360.0) for n, along in rods), key=lambda rod: rod[1])
    return list(pairwise(ordered))


def _turn(
    strip: RimPlace, x: float, y: float, share: float, number: int, mark: str, *, worded: bool
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
        strokes.append(rim_text(x, low, word, anchor="middle", bold=True, proposed=True))
        if half:
            strokes.append(rim_text(x, low + NOTE_MM * 1.1, "half", anchor="middle", proposed=True))
    return strokes


def _along(strip: RimPlace, strokes: list[Stroke], y: float) -> tuple[list[Stroke], float]:
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
            strokes.append(rim_text(x, low, said, anchor="middle", layer=Layer.SCALE))
    return strokes, low + 1.2


def _lines(words: Sequence[str], *, y_mm: float, wide_mm: float) -> tuple[list[Stroke], float]:
    """Set words one after another, as many to a line as fit."""
    y = y_mm + 2.0 + CAP_SHARE * NOTE_MM
    strokes: list[Stroke] = []
    line = ""
    for word in words:
        longer = f"{line} · {word}" if line else word
        if line and width_mm(longer, size_mm=NOTE_MM) > wide_mm:
            strokes.append(rim_text(0.0, y, line))
            line, y = word, y + NOTE_MM * 1.35
        else:
            line = longer
    if line:
        strokes.append(rim_text(0.0, y, line))
    return strokes, y + 1.0
