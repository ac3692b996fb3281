"""A snare bed along the edge, its depth enlarged, before and after truing."""

from __future__ import annotations

from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.lettering import CAP_SHARE
from counterhoop.papers.drawing.records import Drawing, Layer, Line, Path, Pen, Stroke, Text
from counterhoop.papers.drawing.strip import FACTORS, say_factor
from counterhoop.quantities.print_length import print_mm
from counterhoop.shell.drum import Bed
from counterhoop.survey.snare_bed import bed_profile

WIDE_MM = 150.0
HIGH_MM = 16.0
TEXT_MM = 3.5  # on paper
TENTH_MM = 0.1
FOUND = Pen(weight="outline")
GOES = Pen(weight="dimension", dash="dashed")
THIN = Pen(weight="fine")


def draw_bed(bed: Bed, *, off_mm: float, says: str, title: str) -> Drawing:
    """Draw a bed of known width and depth as one looks at the outside, the snare-side edge down.

    Parameters
    ----------
    bed : Bed
        As found.
    off_mm : float
        What comes off the edge there: the new edge is drawn across the bed.
    says, title : str
        The drawing in words, and its name.
    """
    scale = min(1.0, WIDE_MM / (bed.wide_mm * 1.25))
    factor = next(f for f in FACTORS if bed.deep_mm * f <= HIGH_MM or f == FACTORS[-1])
    mm, up = 1.0 / scale, factor / scale
    half, beyond = bed.wide_mm / 2.0, bed.wide_mm * 0.1
    # Down is outward from the shell: the edge is the lower line and a bed goes up into the wood.
    rim = [
        (-half - beyond, 0.0),
        *((x, -y * up) for x, y in bed_profile(bed)),
        (half + beyond, 0.0),
    ]
    strokes: list[Stroke] = [
        Path(
            layer=Layer.OUTLINE, points=tuple(rim), closed=False, pen=GOES if off_mm else FOUND,
            ident="bed-found", title="as found",
        )
    ]  # fmt: skip
    if off_mm > 0.0:
        strokes.append(_new_edge(bed, off_mm=off_mm, up=up, beyond=beyond))
    size = TEXT_MM * mm
    y = 2.0 * mm + CAP_SHARE * size
    ramp_mm = (bed.wide_mm - bed.flat_mm) / 2.0
    words = [(-half + ramp_mm / 2.0, f"ramp {_half(ramp_mm)}")]
    words += [(0.0, f"flat {_half(bed.flat_mm)}")] if bed.flat_mm * scale > 18.0 else []
    words += [(half - ramp_mm / 2.0, f"ramp {_half(ramp_mm)}")]
    strokes += [_text(x, y, text, size) for x, text in words]
    for x in (-half, -bed.flat_mm / 2.0, bed.flat_mm / 2.0, half):
        strokes.append(
            Line(layer=Layer.SCALE, x1_mm=x, y1_mm=0.0, x2_mm=x, y2_mm=1.4 * mm, pen=THIN)
        )
    top = -bed.deep_mm * up
    strokes.append(Line(layer=Layer.SCALE, x1_mm=0.0, y1_mm=top, x2_mm=0.0, y2_mm=0.0, pen=THIN))
    deep = print_mm(bed.deep_mm, resolution_mm=TENTH_MM, with_unit=False)
    strokes.append(_text(0.0, top - 1.0 * mm, f"{deep} deep · {say_factor(factor)}", size))
    boxes = [extent_box(stroke) for stroke in strokes]
    left, right = min(b[0] for b in boxes) - mm, max(b[2] for b in boxes) + mm
    high, low = min(b[1] for b in boxes) - mm, max(b[3] for b in boxes) + mm
    return Drawing(
        left_mm=left, top_mm=high, width_mm=right - left, height_mm=low - high,
        strokes=tuple(strokes), title=title, says=says, scale=scale,
    )  # fmt: skip


def _new_edge(bed: Bed, *, off_mm: float, up: float, beyond: float) -> Path:
    """The edge and the bed as truing leaves them."""
    end = bed.wide_mm / 2.0 + beyond
    level = -off_mm * up
    inner = [(x, -y * up) for x, y in bed_profile(bed) if y > off_mm]
    if inner:
        share = off_mm / bed.deep_mm
        half = bed.wide_mm / 2.0 - share * (bed.wide_mm - bed.flat_mm) / 2.0
        inner = [(-half, level), *inner, (half, level)]
    return Path(
        layer=Layer.OUTLINE, points=((-end, level), *inner, (end, level)), closed=False, pen=FOUND,
        ident="bed-left", title="after truing",
    )  # fmt: skip


def _text(x: float, y: float, text: str, size: float) -> Text:
    return Text(layer=Layer.NOTE, x_mm=x, y_mm=y, text=text, size_mm=size, anchor="middle")


def _half(value_mm: float) -> str:
    return print_mm(value_mm, with_unit=False)
