"""Bases of fittings: new ones dashed, those that stay thin, those that go dotted."""

from __future__ import annotations

from counterhoop.papers.drawing.around import Around
from counterhoop.papers.drawing.manner import Manner
from counterhoop.papers.drawing.records import Layer, Path, Pen, Stroke
from counterhoop.papers.drawing.view import View, laid, laid_on_shell

STYLE: dict[str, tuple[Layer, Pen]] = {
    "new": (Layer.BASE_NEW, Pen(weight="dimension", dash="dashed", ink="proposed")),
    "stays": (Layer.BASE_STAYS, Pen(weight="dimension", dash="solid", ink="ink")),
    "goes": (Layer.BASE_GOES, Pen(weight="dimension", dash="dotted", ink="shadow")),
}
SAYS = {"new": "new", "stays": "stays", "goes": "goes"}


def base_strokes(view: View, *, manner: Manner, around: Around) -> tuple[Stroke, ...]:
    """Draw the outline of every fitting that has one."""
    strokes: list[Stroke] = []
    for plan in view.fittings:
        outline = plan.outline
        if outline is None or (plan.status == "goes" and not manner.gone):
            continue
        layer, pen = STYLE[plan.status]
        left, _, right, _ = outline.bounds_mm
        down = plan.place.down_mm
        x = view.x_mm(plan.place.along_deg)
        ident = "base-" + "-".join(plan.label.split())
        for at, copy in around.seen(x, from_mm=left, to_mm=right):
            if plan.status == "goes":
                points = laid_on_shell(outline, at, down, flat=view.flat)
            else:
                points = laid(outline, at, down)
            if not points:
                continue
            strokes.append(
                Path(
                    layer=layer,
                    points=points,
                    pen=pen,
                    fill="proposed" if plan.status == "new" else "none",
                    fill_share=0.06 if plan.status == "new" and manner.what != "template" else 0.0,
                    ident=f"{ident}{copy}",
                    title=f"{plan.label} ({plan.fitting.name}), {SAYS[plan.status]}",
                )
            )
    return tuple(strokes)
