"""A stroke as it was heard: what rings in it, and how it dies, each beside what was made of it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from counterhoop.heads.mode import Mode
from counterhoop.papers.drawing.lettering import CAP_SHARE, Box, box_of, width_mm
from counterhoop.papers.drawing.records import Drawing, Layer, Line, Path, Pen, Stroke, Text
from counterhoop.papers.plot_frame import FIGURE_MM, PlotFrame, Scale, round_step
from counterhoop.quantities.print_pitch import print_hz

LEAST_DB = -60.0
LEFT_MM, RIGHT_MM = 13.0, 7.0
NOTE_MM = 3.5
ROW_MM = 4.6
NEAR_MM = 9.0
"""Stems nearer than this share their words."""
ROWS = 4
"""Rows of names beneath the spectrum; a mode for which there is no room keeps its tick."""
AS_TAPPED = {(0, 1): "in the middle", (1, 1): "near the rods"}
"""What the bench calls the two modes by which it tunes; no word is known for the others."""
CURVE, HEARD = Pen(weight="dimension"), Pen(weight="hole")
MODEL = Pen(weight="hole", ink="proposed")
FIT = Pen(weight="outline", dash="dashed")


def draw_spectrum(
    db: Sequence[float],
    *,
    from_hz: float,
    step_hz: float,
    partials: Sequence[tuple[float, float]] = (),
    modes: Sequence[Mode] = (),
    heading: str = "What rings",
    wide_mm: float = 184.0,
    high_mm: float = 40.0,
    name: str = "spectrum",
) -> Drawing:
    """Draw the spectrum of a stroke, its partials marked, the model's modes as ticks beneath.

    Parameters
    ----------
    db : sequence of float
        Levels over the strongest, the first at ``from_hz``.
    from_hz, step_hz : float
        Where it begins, and how far each is from the one before.
    partials : sequence of (float, float)
        Hz and level in dB of each tone that was found.
    modes : sequence of Mode
        What the drum should do, by the model.
    heading : str
        What stands over it.
    wide_mm, high_mm : float
        Of the whole on paper; of the spectrum alone.
    name : str
        Begins every ident.
    """
    to_hz = from_hz + step_hz * max(len(db) - 1, 1)
    more = "numbers: Hz of what was heard"
    if modes:
        more += "; beneath: what the model has, (2,1): two lines and a ring at rest"
    head = _heading(heading, more)
    frame = PlotFrame(
        left_mm=LEFT_MM, top_mm=8.0 + NOTE_MM, wide_mm=wide_mm - LEFT_MM - RIGHT_MM,
        high_mm=high_mm, across=Scale(low=from_hz, high=to_hz, step=round_step(to_hz - from_hz),
                                      unit="Hz"),
        up=Scale(low=LEAST_DB, high=0.0, step=20.0, unit="dB"), ruled=False,
    )  # fmt: skip
    curve = Path(
        layer=Layer.READING, closed=False, pen=CURVE, ident=f"{name}-curve",
        points=tuple((frame.x_mm(from_hz + at * step_hz), frame.y_mm(level))
                     for at, level in enumerate(db)),
    )  # fmt: skip
    shown = [(hz, level) for hz, level in partials if from_hz <= hz <= to_hz and level > LEAST_DB]
    marks = _partials(frame, shown, name=name)
    beneath = [mode for mode in modes if from_hz <= mode.hz <= to_hz]
    ticks, bottom = _modes(frame, beneath, name=name)
    return Drawing(
        left_mm=0.0, top_mm=0.0, width_mm=wide_mm, height_mm=bottom + 1.0,
        strokes=(*head, *frame.strokes(), curve, *marks, *ticks),
        title=heading, says=_says_spectrum(shown, beneath),
    )  # fmt: skip


def draw_fade(
    db: Sequence[float],
    *,
    step_s: float,
    hz: float,
    decay_per_s: float,
    heading: str = "How it dies",
    wide_mm: float = 90.0,
    high_mm: float = 34.0,
    name: str = "fade",
) -> Drawing:
    """Draw how loud one tone is after the stroke, and the straight line that was fitted to it.

    Parameters
    ----------
    db : sequence of float
        Levels of its band over the loudest, the first at the stroke.
    step_s : float
        From each to the next.
    hz, decay_per_s : float
        The tone, and how fast it dies: the level falls as ``exp(-decay_per_s t)``.
    heading : str
        What stands over it.
    wide_mm, high_mm, name
        As for ``draw_spectrum``.
    """
    last_s = step_s * max(len(db) - 1, 1)
    t60_s = math.log(1000.0) / decay_per_s
    head = _heading(heading, f"{print_hz(hz)}; dashed: the decay as read")
    frame = PlotFrame(
        left_mm=LEFT_MM, top_mm=6.0 + NOTE_MM, wide_mm=wide_mm - LEFT_MM - RIGHT_MM,
        high_mm=high_mm,
        across=Scale(low=0.0, high=last_s, step=round_step(last_s, most=5.0), unit="s"),
        up=Scale(low=LEAST_DB, high=0.0, step=20.0, unit="dB"),
    )  # fmt: skip
    points = tuple((frame.x_mm(at * step_s), frame.y_mm(level)) for at, level in enumerate(db))
    slope_db = 20.0 * decay_per_s / math.log(10.0)
    start = _level_of(db, step_s=step_s, slope_db=slope_db)
    ends = (max(start, 0.0) / slope_db, min(last_s, (start - LEAST_DB) / slope_db))
    strokes: tuple[Stroke, ...] = (
        *head,
        *frame.strokes(),
        Path(layer=Layer.READING, points=points, closed=False, pen=CURVE, ident=f"{name}-curve"),
        Line(
            layer=Layer.READING, x1_mm=frame.x_mm(ends[0]), x2_mm=frame.x_mm(ends[1]),
            y1_mm=frame.y_mm(start - slope_db * ends[0]),
            y2_mm=frame.y_mm(start - slope_db * ends[1]), pen=FIT, ident=f"{name}-fit",
        ),
    )  # fmt: skip
    return Drawing(
        left_mm=0.0, top_mm=0.0, width_mm=wide_mm,
        height_mm=frame.bottom_mm + 3.0 + FIGURE_MM, strokes=strokes, title=heading,
        says=f"The tone of {print_hz(hz)} falls by 60 dB in {t60_s:.1f} s.",
    )  # fmt: skip


def _level_of(db: Sequence[float], *, step_s: float, slope_db: float) -> float:
    """Return where a line of that slope starts that runs through the middle of what is loud.

    The median: the stick at first and the noise in the end are no part of it.
    """
    loud = [level + slope_db * at * step_s for at, level in enumerate(db) if level > -30.0]
    return sorted(loud)[len(loud) // 2] if loud else 0.0


def _heading(bold: str, more: str) -> tuple[Stroke, ...]:
    y = CAP_SHARE * NOTE_MM + 1.0
    head = Text(layer=Layer.NOTE, x_mm=0.0, y_mm=y, text=bold, size_mm=NOTE_MM, bold=True)
    rest = Text(
        layer=Layer.NOTE, x_mm=box_of(head)[2] + NOTE_MM, y_mm=y, text=more, size_mm=NOTE_MM
    )
    return (head, rest)


def _partials(
    frame: PlotFrame, partials: Sequence[tuple[float, float]], *, name: str
) -> list[Stroke]:
    """A stem for each tone that was found; their Hz over them, of neighbours side by side."""
    strokes: list[Stroke] = []
    groups: list[list[tuple[float, float]]] = []
    for number, (hz, level) in enumerate(sorted(partials), 1):
        x, y = frame.x_mm(hz), frame.y_mm(level)
        strokes.append(
            Line(
                layer=Layer.READING, x1_mm=x, y1_mm=frame.bottom_mm, x2_mm=x, y2_mm=y - 1.0,
                pen=HEARD, ident=f"{name}-tone-{number}",
            )
        )  # fmt: skip
        if groups and x - frame.x_mm(groups[-1][-1][0]) < NEAR_MM:
            groups[-1].append((hz, level))
        else:
            groups.append([(hz, level)])
    taken: list[Box] = []
    for group in sorted(groups, key=lambda one: -max(level for _, level in one)):
        said = ", ".join(dict.fromkeys(print_hz(hz).removesuffix(" Hz") for hz, _ in group))
        middle = (frame.x_mm(group[0][0]) + frame.x_mm(group[-1][0])) / 2.0
        # Left of the frame stand the levels.
        least = frame.left_mm + width_mm(said, size_mm=NOTE_MM, bold=True) / 2.0
        text = Text(
            layer=Layer.NOTE, x_mm=max(middle, least), text=said, size_mm=NOTE_MM, bold=True,
            y_mm=frame.y_mm(max(level for _, level in group)) - 1.8, anchor="middle",
        )  # fmt: skip
        box = box_of(text)
        if all(_apart(box, other) for other in taken):
            taken.append(box)
            strokes.append(text)
    return strokes


def _apart(one: Box, other: Box) -> bool:
    return (
        one[2] + 0.8 < other[0] or other[2] + 0.8 < one[0] or one[3] < other[1] or other[3] < one[1]
    )


def _modes(frame: PlotFrame, modes: Sequence[Mode], *, name: str) -> tuple[list[Stroke], float]:
    """Ticks under the scale, each with its name in the first row that has room for it."""
    top = frame.bottom_mm + 3.4 + FIGURE_MM
    if not modes:
        return [], top
    strokes: list[Stroke] = []
    ends = [0.0] * ROWS
    lowest = 0
    ordered = sorted(modes, key=lambda one: one.hz)
    for number, (mode, said) in enumerate(zip(ordered, mode_words(ordered), strict=True), 1):
        x = frame.x_mm(mode.hz)
        half = width_mm(said, size_mm=FIGURE_MM) / 2.0
        middle = min(max(x, half), frame.right_mm + RIGHT_MM - half)
        row = next((at for at, end in enumerate(ends) if end + 1.2 < middle - half), None)
        strokes.append(
            Line(
                layer=Layer.READING, x1_mm=x, y1_mm=top, x2_mm=x, y2_mm=top + 2.6, pen=MODEL,
                ident=f"{name}-mode-{number}",
            )
        )  # fmt: skip
        if row is None:
            continue
        ends[row], lowest = middle + half, max(lowest, row)
        y = top + 3.6 + CAP_SHARE * FIGURE_MM + row * ROW_MM
        strokes.append(
            Text(
                layer=Layer.NOTE, x_mm=middle, y_mm=y, text=said, size_mm=FIGURE_MM,
                anchor="middle", ink="proposed",
            )
        )  # fmt: skip
    return strokes, top + 3.6 + (lowest + 1) * ROW_MM


def mode_words(modes: Sequence[Mode]) -> list[str]:
    """Return short names of modes: how the heads go only where that tells two apart.

    Examples
    --------
    >>> from counterhoop.heads.mode import Standing
    >>> one, other, third = (
    ...     Mode(around=around, circles=1, family=family, hz=200.0, batter_share=0.5,
    ...          batter_shape=(1.0,), resonant_shape=(1.0,), standing=Standing.CHECKED)
    ...     for around, family in ((1, "together"), (1, "against"), (2, "together")))
    >>> mode_words([one, other, third])
    ['near the rods together', 'near the rods against', '(2,1)']
    """
    ways: dict[str, set[str]] = {}
    plain = [
        AS_TAPPED.get((mode.around, mode.circles), f"({mode.around},{mode.circles})")
        for mode in modes
    ]
    for word, mode in zip(plain, modes, strict=True):
        ways.setdefault(word, set()).add(mode.family)
    return [
        f"{word} {mode.family}" if len(ways[word]) > 1 else word
        for word, mode in zip(plain, modes, strict=True)
    ]


def _says_spectrum(partials: Sequence[tuple[float, float]], modes: Sequence[Mode]) -> str:
    heard = ", ".join(print_hz(hz) for hz, _ in sorted(partials))
    said = [f"Heard: {heard}." if heard else "No tone was found."]
    if modes:
        ordered = sorted(modes, key=lambda one: one.hz)
        pairs = zip(mode_words(ordered), ordered, strict=True)
        named = ", ".join(f"{word} {print_hz(mode.hz)}" for word, mode in pairs)
        said.append(f"By the model: {named}.")
    return " ".join(said)
