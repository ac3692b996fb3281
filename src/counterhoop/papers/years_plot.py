"""The odds of each year drawn as steps, with the spans that hold the year beneath."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from counterhoop.papers.drawing.lettering import CAP_SHARE
from counterhoop.papers.drawing.records import Drawing, Layer, Line, Path, Pen, Stroke, Text
from counterhoop.papers.plot_frame import FIGURE_MM, PlotFrame, Scale, round_step

LEFT_MM, RIGHT_MM, TOP_MM = 13.0, 4.0, 4.0
ROW_MM = 5.0
AROUND_YEARS = 3
"""Years shown on either side of the widest span."""
STEPS = Pen(weight="hole")
SPAN = Pen(weight="outline")


def draw_years(
    years: Sequence[float],
    p: Sequence[float],
    *,
    spans: Mapping[float, tuple[int, int]],
    wide_mm: float = 150.0,
    high_mm: float = 34.0,
    name: str = "years",
) -> Drawing:
    """Draw the odds of years.

    Parameters
    ----------
    years, p : sequence of float
        Whole years without a gap, and the odds of each, which sum to one.
    spans : mapping of float to (int, int)
        First and last year, both counted, by the odds that the span holds the year.
    wide_mm, high_mm : float
        Of the whole, and of the steps alone.
    name : str
        Begins every ident.
    """
    first = max(min(one for one, _ in spans.values()) - AROUND_YEARS, round(years[0]))
    last = min(max(one for _, one in spans.values()) + AROUND_YEARS, round(years[-1]))
    shown = [
        (year, 100.0 * odds) for year, odds in zip(years, p, strict=True) if first <= year <= last
    ]
    highest = max(odds for _, odds in shown)
    frame = PlotFrame(
        left_mm=LEFT_MM, top_mm=TOP_MM, wide_mm=wide_mm - LEFT_MM - RIGHT_MM, high_mm=high_mm,
        across=Scale(
            low=first - 0.5, high=last + 0.5,
            step=round_step(last - first + 1, most=wide_mm / 14.0), unit="",
        ),
        up=Scale(low=0.0, high=1.05 * highest, step=round_step(1.05 * highest, most=4.0), unit="%"),
    )  # fmt: skip
    points = [(frame.x_mm(first - 0.5), frame.bottom_mm)]
    for year, odds in shown:
        y = frame.y_mm(odds)
        points += [(frame.x_mm(year - 0.5), y), (frame.x_mm(year + 0.5), y)]
    points.append((frame.x_mm(last + 0.5), frame.bottom_mm))
    strokes: list[Stroke] = [
        *frame.strokes(),
        Path(
            layer=Layer.READING, points=tuple(points), closed=False, pen=STEPS,
            ident=f"{name}-steps",
        ),
    ]  # fmt: skip
    row = frame.bottom_mm + FIGURE_MM + 4.0
    for odds, (begins, ends) in sorted(spans.items()):
        row += ROW_MM
        left, right = frame.x_mm(begins - 0.5), frame.x_mm(ends + 0.5)
        strokes += [
            Line(
                layer=Layer.READING, x1_mm=left, x2_mm=right, y1_mm=row, y2_mm=row, pen=SPAN,
                ident=f"{name}-{round(100 * odds)}",
            ),
            Text(
                layer=Layer.NOTE, x_mm=LEFT_MM - 2.0, y_mm=row + CAP_SHARE * FIGURE_MM / 2.0,
                text=f"{round(100 * odds)} %", size_mm=FIGURE_MM, anchor="end",
            ),
        ]  # fmt: skip
    return Drawing(
        left_mm=0.0, top_mm=0.0, width_mm=wide_mm, height_mm=row + ROW_MM / 2.0,
        strokes=tuple(strokes), title="The odds of each year",
        says=" ".join(
            f"With odds of {round(100 * odds)} % made from {begins} to {ends}."
            for odds, (begins, ends) in sorted(spans.items())
        ),
    )  # fmt: skip
