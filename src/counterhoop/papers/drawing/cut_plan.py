"""A sheet of wrap seen from its face, with the pieces and offcuts that it is cut into."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.papers.drawing.lettering import CAP_SHARE, width_mm
from counterhoop.papers.drawing.records import Drawing, Layer, Line, Path, Pen, Stroke, Text

TALL_MM = 4.2
SMALL_MM = 2.9
LEAST_MM = 1.8
ABOVE_MM = 5.5
BELOW_MM = 7.0
"""Sizes on paper: numbers, words, the least that is read, the room over and under the sheet."""
LEADING = 1.15


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A rectangle on the sheet, from its first corner: what stands in it, the first line bold."""

    x_mm: float
    y_mm: float
    along_mm: float
    across_mm: float
    lines: tuple[str, ...]
    left: bool = False


def sheet_drawing(
    length_mm: float, width_mm_: float, cuts: Sequence[Cut], *, scale: float, title: str, says: str
) -> Drawing:
    """Draw one sheet to scale.

    Parameters
    ----------
    length_mm, width_mm_ : float
        The sheet along and across its pattern.
    cuts : sequence of Cut
        Pieces in full lines, offcuts that are kept in dashes.
    scale : float
        Paper millimetres for one of the sheet.
    """

    def mm(on_paper: float) -> float:
        return on_paper / scale

    strokes: list[Stroke] = [_box(0.0, 0.0, length_mm, width_mm_, Pen(weight="outline"))]
    for cut in cuts:
        pen = Pen(weight="fine", dash="dashed") if cut.left else Pen(weight="hole")
        strokes.append(_box(cut.x_mm, cut.y_mm, cut.along_mm, cut.across_mm, pen))
        strokes += _words(cut, scale=scale)
    strokes += _corner(scale=scale)
    strokes += _pattern(length_mm, width_mm_ + mm(4.0), scale=scale)
    edge = mm(0.6)
    return Drawing(
        left_mm=-edge,
        top_mm=-mm(ABOVE_MM),
        width_mm=length_mm + 2 * edge,
        height_mm=width_mm_ + mm(ABOVE_MM + BELOW_MM),
        strokes=tuple(strokes),
        title=title,
        says=says,
        scale=scale,
    )


def _box(x: float, y: float, w: float, h: float, pen: Pen) -> Path:
    corners = ((x, y), (x + w, y), (x + w, y + h), (x, y + h))
    return Path(layer=Layer.OUTLINE, points=corners, pen=pen)


def _words(cut: Cut, *, scale: float) -> list[Stroke]:
    """As many of the lines as there is room for: under each other, else behind each other."""
    pad = 0.5 / scale
    wide, high = cut.along_mm - 2 * pad, cut.across_mm - 2 * pad
    sizes = [(TALL_MM if i == 0 and not cut.left else SMALL_MM) / scale for i in range(3)]
    lines = list(zip(cut.lines, sizes, strict=False))
    while lines:
        stacked = sum(size * LEADING for _, size in lines)
        if stacked <= high and all(_wide(lines, i) <= wide for i in range(len(lines))):
            return _stacked(cut, lines, stacked)
        gap = 1.2 / scale
        across = sum(_wide(lines, i) for i in range(len(lines))) + gap * (len(lines) - 1)
        if lines[0][1] * CAP_SHARE <= high and across <= wide:
            return _in_a_row(cut, lines, across=across, gap=gap)
        lines.pop()
    # A strip for a hoop's inlay: its number alone, as small as can still be read.
    first = cut.lines[0]
    size = min(high / CAP_SHARE, wide / width_mm(first, size_mm=1.0, bold=True))
    if size * scale < LEAST_MM:
        return []
    alone = [(first, size)]
    return _in_a_row(cut, alone, across=_wide(alone, 0), gap=0.0)


def _wide(lines: Sequence[tuple[str, float]], index: int) -> float:
    text, size = lines[index]
    return width_mm(text, size_mm=size, bold=index == 0)


def _stacked(cut: Cut, lines: Sequence[tuple[str, float]], high: float) -> list[Stroke]:
    y = cut.y_mm + (cut.across_mm - high) / 2
    strokes: list[Stroke] = []
    for index, (text, size) in enumerate(lines):
        y += size * LEADING
        x = cut.x_mm + cut.along_mm / 2
        strokes.append(_text(text, x, y - size * 0.25, size, anchor_middle=True, bold=index == 0))
    return strokes


def _in_a_row(
    cut: Cut, lines: Sequence[tuple[str, float]], *, across: float, gap: float
) -> list[Stroke]:
    x = cut.x_mm + (cut.along_mm - across) / 2
    y = cut.y_mm + (cut.across_mm + lines[0][1] * CAP_SHARE) / 2
    strokes: list[Stroke] = []
    for index, (text, size) in enumerate(lines):
        strokes.append(_text(text, x, y, size, anchor_middle=False, bold=index == 0))
        x += _wide(lines, index) + gap
    return strokes


def _text(text: str, x: float, y: float, size: float, *, anchor_middle: bool, bold: bool) -> Text:
    return Text(
        layer=Layer.NUMBER,
        x_mm=x,
        y_mm=y,
        text=text,
        size_mm=size,
        anchor="middle" if anchor_middle else "start",
        bold=bold,
    )


def _corner(*, scale: float) -> list[Stroke]:
    """A wedge at the corner that everything is measured from, and words above it."""
    side = 3.0 / scale
    wedge = Path(
        layer=Layer.SCALE,
        points=((0.0, 0.0), (side, 0.0), (0.0, side)),
        fill="ink",
        fill_share=1.0,
        pen=Pen(weight="fine"),
    )
    words = "measure from this corner, the face up"
    return [wedge, _text(words, 0.0, -1.6 / scale, SMALL_MM / scale, anchor_middle=False,
                         bold=False)]  # fmt: skip


def _pattern(length: float, y: float, *, scale: float) -> list[Stroke]:
    """A long arrow with heads on both ends: the way that the pattern runs."""
    words, size = "the pattern runs this way", SMALL_MM / scale
    head, gap = 2.2 / scale, 2.0 / scale
    half = width_mm(words, size_mm=size) / 2 + gap
    pen, middle = Pen(weight="dimension"), length / 2
    ends = (max(0.0, middle - half - 45.0 / scale), min(length, middle + half + 45.0 / scale))
    strokes: list[Stroke] = []
    for tip, inner, way in ((ends[0], middle - half, 1.0), (ends[1], middle + half, -1.0)):
        strokes.append(Line(layer=Layer.SCALE, x1_mm=inner, y1_mm=y, x2_mm=tip, y2_mm=y, pen=pen))
        points = ((tip + way * head, y - head / 3), (tip, y), (tip + way * head, y + head / 3))
        strokes.append(Path(layer=Layer.SCALE, points=points, fill="ink", fill_share=1.0, pen=pen))
    strokes.append(_text(words, middle, y + size * CAP_SHARE / 2, size, anchor_middle=True,
                         bold=False))  # fmt: skip
    return strokes
