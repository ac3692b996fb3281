"""The marks of verdicts as they stand on the drawing, and the stroke of a hole that is done."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from counterhoop.papers.drawing.legend import lay_out
from counterhoop.papers.drawing.manner import WORKING
from counterhoop.papers.drawing.records import Drawing, Text
from counterhoop.papers.screen.play import short, to_screen, value
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import Verdict
from counterhoop.web.shell_view import WIDE_MM, ShellView

MARK_BOX_MM = (0.0, 1.2, 9.5, 9.0)
STROKE_MM = 2.6
"""On paper: half of what the stroke of a done hole takes across."""


def mark_id(verdict: Verdict) -> str:
    """Return the id of the picture of a verdict's mark, to be used again beside each hole."""
    return f"mark-{verdict.value.replace(' ', '-')}-shell"


def marks(verdicts: Iterable[Verdict]) -> tuple[str, ...]:
    """Return the picture of each verdict's mark, in the inks of the page."""
    left, top, wide, high = MARK_BOX_MM
    pictures = []
    for verdict in verdicts:
        strokes = lay_out([("", verdict)], x_mm=0.0, y_mm=0.0, wide_mm=60.0, manner=WORKING)
        box = Drawing(
            left_mm=left, top_mm=top, width_mm=wide, height_mm=high, title=verdict.value,
            strokes=tuple(stroke for stroke in strokes if not isinstance(stroke, Text)),
        )  # fmt: skip
        pictures.append(to_screen(box, ident=mark_id(verdict).removesuffix("-shell")))
    return tuple(pictures)


def done_strokes(view: ShellView, layout: Layout, *, done: Collection[int]) -> str:
    """Return a picture to lie over a drawing: a check stroke through each hole that is done.

    Each is drawn twice, wide in the colour of the paper beneath, so that it shows on any mark.
    """
    arm = STROKE_MM * view.box[2] / WIDE_MM
    ways = []
    for plan in layout.holes:
        if plan.number not in done:
            continue
        place = plan.new_place or plan.place
        x, y = layout.flat.surface.along_mm(place.along_deg), place.down_mm
        ways.append(
            f"M{short(x - arm)} {short(y)}l{short(0.7 * arm)} {short(0.8 * arm)}"
            f"l{short(1.3 * arm)} {short(-2.0 * arm)}"
        )
    numbers = ", ".join(str(number) for number in sorted(done))
    says = f"Done: {'hole' if len(done) == 1 else 'holes'} {numbers}" if done else "No hole is done"
    d = "".join(ways)
    return (
        f'<svg class="shell-flat shell-done" id={value(view.ident + "-done")} role="img" '
        f'aria-label={value(says)} viewBox="{" ".join(short(v) for v in view.box)}">'
        + (f'<path class="beneath" d="{d}"/><path class="stroke" d="{d}"/>' if ways else "")
        + "</svg>"
    )
