"""What the marks mean: one sample of each that is in use, with its word."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TypeAlias

from counterhoop.development.place import Place
from counterhoop.development.shape import Round, Slot
from counterhoop.papers.drawing.bases import STYLE
from counterhoop.papers.drawing.holes import hole_strokes
from counterhoop.papers.drawing.lettering import CAP_SHARE, width_mm
from counterhoop.papers.drawing.manner import Manner
from counterhoop.papers.drawing.marks import DOTTED
from counterhoop.papers.drawing.records import Layer, Line, Path, Pen, Stroke, Text
from counterhoop.papers.drawing.view import View
from counterhoop.scheme.verdict import HolePlan, Verdict

Sample: TypeAlias = Verdict | tuple[Layer, Pen]
SAMPLE_MM = 5.0  # on paper
ORDER = (
    Verdict.KEEP,
    Verdict.ENLARGE,
    Verdict.SLOT,
    Verdict.PLUG,
    Verdict.DRILL,
    Verdict.PLUG_AND_DRILL,
    Verdict.LEAVE_OPEN,
    Verdict.PLUGGED_ALREADY,
)


def legend_strokes(
    view: View, verdicts: Iterable[Verdict], *, x_mm: float, y_mm: float, width_mm: float,
    manner: Manner,
) -> tuple[Stroke, ...]:  # fmt: skip
    """Lay samples out in lines from the left, as many as are needed."""
    used = set(verdicts)
    samples: list[tuple[str, Sample]] = []
    if manner.what == "as found":
        samples = [("hole", Verdict.LEAVE_OPEN)] if Verdict.LEAVE_OPEN in used else []
        samples += (
            [("plugged before", Verdict.PLUGGED_ALREADY)] if Verdict.PLUGGED_ALREADY in used else []
        )
    else:
        samples = [(verdict.value, verdict) for verdict in ORDER if verdict in used]
    statuses = {plan.status for plan in view.fittings if plan.outline is not None}
    words = ("new base", "base that stays", "comes off")
    if manner.what == "as found":
        words = ("", "fitting", "fitting that is missing")
    for status, word in zip(("new", "stays", "goes"), words, strict=True):
        if status in statuses and (status != "goes" or manner.gone):
            samples.append((word, STYLE[status]))
    if view.marks:
        samples.append((" / ".join(sorted({m.kind for m in view.marks})), (Layer.SHADOW, DOTTED)))
    if view.seam is not None:
        samples.append(("wrap seam", (Layer.SEAM, Pen(weight="dimension"))))
    if view.flat.rings:
        hidden = Pen(weight="fine", dash="dashed", ink="shadow")
        samples.append(("end of a ring, inside", (Layer.OUTLINE, hidden)))
    if any(plan.row for plan in view.fittings):
        samples.append(("row line", (Layer.ROW_LINE, Pen(weight="fine", dash="chain"))))
    return lay_out(samples, x_mm=x_mm, y_mm=y_mm, wide_mm=width_mm, manner=manner)


def lay_out(
    samples: list[tuple[str, Sample]], *, x_mm: float, y_mm: float, wide_mm: float, manner: Manner
) -> tuple[Stroke, ...]:
    """Set samples with their words in lines no wider than asked."""
    size, box = manner.mm(manner.note_mm), manner.mm(SAMPLE_MM)
    high = box * 1.9
    x, y = x_mm, y_mm + high * 0.6
    strokes: list[Stroke] = []
    for word, sample in samples:
        long = box * (1.9 if isinstance(sample, Verdict) else 2.8)
        need = long + width_mm(word, size_mm=size) + size * 1.6
        if x > x_mm and x + need > x_mm + wide_mm:
            x, y = x_mm, y + high
        strokes += _sample(sample, x + long / 2, y, box, manner)
        strokes.append(
            Text(
                layer=Layer.NOTE, x_mm=x + long + size * 0.3, y_mm=y + CAP_SHARE * size / 2,
                text=word, size_mm=size,
            )
        )  # fmt: skip
        x += need
    return tuple(strokes)


def _sample(sample: Sample, x: float, y: float, box: float, manner: Manner) -> tuple[Stroke, ...]:
    if isinstance(sample, Verdict):
        new = Slot(box * 0.9, box * 1.5) if sample is Verdict.SLOT else Round(box)
        old = Round(box * 0.9 if sample is Verdict.SLOT else box * 0.62)
        if sample in (Verdict.PLUG, Verdict.PLUGGED_ALREADY):
            old = Round(box)
        shifted = x - box * 0.3 if sample is Verdict.SLOT else x
        plan = HolePlan(number=0, verdict=sample, place=Place(0.0, y), old=old, new=new)
        drawn = hole_strokes(plan, x_mm=shifted, new_x_mm=x, manner=manner)
        return tuple(_nameless(stroke) for stroke in drawn)
    layer, pen = sample
    if layer in (Layer.ROW_LINE, Layer.OUTLINE):
        w = box * 1.2
        return (Line(layer=layer, x1_mm=x - w, y1_mm=y, x2_mm=x + w, y2_mm=y, pen=pen),)
    w, h = box * 1.1, box * 0.6
    points = ((x - w, y - h), (x + w, y - h), (x + w, y + h), (x - w, y + h))
    share = 0.12 if layer is Layer.SEAM else 0.0
    return (Path(layer=layer, points=points, pen=pen, fill="shadow", fill_share=share),)


def _nameless(stroke: Stroke) -> Stroke:
    if isinstance(stroke, Text | Line):
        return replace(stroke, ident="")
    return replace(stroke, ident="", title="")
