"""A small map of how the sheets of a template lie together."""

from __future__ import annotations

from collections.abc import Sequence

from counterhoop.papers.drawing.lettering import CAP_SHARE
from counterhoop.papers.drawing.records import Drawing, Layer, Path, Pen, Stroke, Text


def draw_sheet_map(
    sheets: Sequence[tuple[int, float, float, float, float]], *, wide_mm: float
) -> Drawing:
    """Draw numbered boxes, one a sheet (number, left, top, right, bottom), ``wide_mm`` wide."""
    left, top = min(s[1] for s in sheets), min(s[2] for s in sheets)
    right, bottom = max(s[3] for s in sheets), max(s[4] for s in sheets)
    scale = wide_mm / (right - left)
    size = min(4.6, 0.6 * scale * min(s[4] - s[2] for s in sheets)) / scale
    strokes: list[Stroke] = []
    for number, x1, y1, x2, y2 in sheets:
        strokes.append(
            Path(
                layer=Layer.REGISTER, points=((x1, y1), (x2, y1), (x2, y2), (x1, y2)),
                pen=Pen(weight="dimension"),
            )
        )  # fmt: skip
        strokes.append(
            Text(
                layer=Layer.NUMBER, x_mm=(x1 + x2) / 2, y_mm=(y1 + y2) / 2 + CAP_SHARE * size / 2,
                text=str(number), size_mm=size, anchor="middle", bold=True,
            )
        )  # fmt: skip
    pad = 0.5 / scale
    return Drawing(
        left_mm=left - pad, top_mm=top - pad, width_mm=right - left + 2 * pad,
        height_mm=bottom - top + 2 * pad, strokes=tuple(strokes), title="How the sheets lie",
        says=f"{len(sheets)} sheets from left to right, batter edge up", scale=scale,
    )  # fmt: skip
