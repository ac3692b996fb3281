"""The title block: what this paper is, for which drum, on which surface, at what scale."""

from __future__ import annotations

from counterhoop.papers.drawing.lettering import CAP_SHARE, width_mm
from counterhoop.papers.drawing.manner import Manner
from counterhoop.papers.drawing.records import Layer, Line, Pen, Stroke, Text


def title_block_strokes(
    facts: tuple[tuple[str, str], ...], *, x_mm: float, y_mm: float, width_mm: float,
    manner: Manner,
) -> tuple[Stroke, ...]:  # fmt: skip
    """Set cells of (label, value) in lines, each cell as wide as its words ask."""
    big, small = manner.mm(manner.note_mm), manner.mm(2.6)
    pad, high = manner.mm(1.5), manner.mm(2.6) + manner.mm(manner.note_mm) + manner.mm(3.5)
    strokes: list[Stroke] = []
    for row, line in enumerate(_lines(facts, width_mm, big=big, small=small, pad=pad)):
        y = y_mm + row * high
        x = x_mm
        for label, value, wide in line:
            strokes.append(_line(x, y, x, y + high, weight="dimension"))
            strokes.append(
                Text(
                    layer=Layer.TITLE, x_mm=x + pad, y_mm=y + pad + CAP_SHARE * small, text=label,
                    size_mm=small,
                )
            )  # fmt: skip
            strokes.append(
                Text(
                    layer=Layer.TITLE, x_mm=x + pad, y_mm=y + high - pad, text=value, size_mm=big,
                    bold=True,
                )
            )  # fmt: skip
            x += wide
        strokes.append(_line(x_mm, y, x_mm + width_mm, y, weight="dimension"))
        end = y + high
    strokes.append(_line(x_mm, y_mm, x_mm + width_mm, y_mm, weight="outline"))
    strokes.append(_line(x_mm, end, x_mm + width_mm, end, weight="outline"))
    strokes.append(_line(x_mm, y_mm, x_mm, end, weight="outline"))
    strokes.append(_line(x_mm + width_mm, y_mm, x_mm + width_mm, end, weight="outline"))
    return tuple(strokes)


def _lines(
    facts: tuple[tuple[str, str], ...], room: float, *, big: float, small: float, pad: float
) -> list[list[tuple[str, str, float]]]:
    lines: list[list[tuple[str, str, float]]] = [[]]
    taken = 0.0
    for label, value in facts:
        words = width_mm(value, size_mm=big, bold=True)
        wide = max(words, width_mm(label, size_mm=small)) + 2.5 * pad
        if lines[-1] and taken + wide > room:
            lines.append([])
            taken = 0.0
        lines[-1].append((label, value, wide))
        taken += wide
    stretched = []
    for line in lines:
        spare = max(0.0, room - sum(wide for _, _, wide in line)) / len(line)
        stretched.append([(label, value, wide + spare) for label, value, wide in line])
    return stretched


def _line(x1: float, y1: float, x2: float, y2: float, *, weight: str) -> Line:
    pen = Pen(weight="outline") if weight == "outline" else Pen(weight="dimension")
    return Line(layer=Layer.TITLE, x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen=pen)
