"""The mark of one hole: its verdict by shape and line."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache

from counterhoop.development.shape import HoleShape, Oval, Rectangle, Round, Slot
from counterhoop.papers.drawing.manner import Manner
from counterhoop.papers.drawing.records import Circle, Dash, Ink, Layer, Line, Path, Pen, Stroke
from counterhoop.quantities.print_length import print_mm
from counterhoop.scheme.verdict import HolePlan, Verdict

LAYERS = {
    Verdict.KEEP: Layer.KEEP,
    Verdict.ENLARGE: Layer.ENLARGE,
    Verdict.SLOT: Layer.SLOT,
    Verdict.PLUG: Layer.PLUG,
    Verdict.DRILL: Layer.DRILL,
    Verdict.PLUG_AND_DRILL: Layer.PLUG_AND_DRILL,
    Verdict.LEAVE_OPEN: Layer.LEAVE_OPEN,
    Verdict.PLUGGED_ALREADY: Layer.PLUGGED_ALREADY,
}
INKS: dict[Verdict, Ink] = {
    Verdict.KEEP: "kept",
    Verdict.ENLARGE: "cut",
    Verdict.SLOT: "cut",
    Verdict.PLUG: "cut",
    Verdict.DRILL: "proposed",
    Verdict.PLUG_AND_DRILL: "proposed",
    Verdict.LEAVE_OPEN: "ink",
    Verdict.PLUGGED_ALREADY: "ink",
}
OVAL_STEPS = 48
RINGS_APART_MM = 0.9  # two rings nearer than this print as one thick one
PLUG_SHOWS_MM = 1.0  # how much wider than its hole a plug is drawn apart from it


# Most holes stay as they are while a row is dragged.
@lru_cache(maxsize=1024)
def hole_strokes(
    plan: HolePlan,
    *,
    x_mm: float,
    new_x_mm: float,
    manner: Manner,
    copy: str = "",
    plug_x_mm: float | None = None,
) -> tuple[Stroke, ...]:
    """Draw one hole.

    Parameters
    ----------
    plan : HolePlan
        The hole and its verdict.
    x_mm, new_x_mm, plug_x_mm : float
        Along of the old hole's centre, of the opening's, and of the plug's where it is another.
    manner : Manner
        What is shown.
    copy : str
        Put after the ident of a copy beyond the datum.
    """
    layer, ink = LAYERS[plan.verdict], INKS[plan.verdict]
    quiet = plan.verdict in (Verdict.LEAVE_OPEN, Verdict.PLUGGED_ALREADY)
    dash: Dash = "dotted" if plan.verdict is Verdict.LEAVE_OPEN else "solid"
    pen = Pen(ink=ink, weight="fine" if quiet and dash == "solid" else "hole", dash=dash)
    if manner.what == "as found":
        pen = Pen(ink="ink")
    ident = f"hole-{plan.number}{copy}"
    says = title_of(plan, x_mm=x_mm, manner=manner)
    y, new_y = plan.place.down_mm, (plan.new_place or plan.place).down_mm
    old, new = plan.old, plan.new
    both = plan.verdict in (Verdict.ENLARGE, Verdict.SLOT)
    there = old or new
    if plan.verdict is Verdict.PLUGGED_ALREADY and there is not None:
        return crossed_out(there, x_mm, y, layer=layer, pen=pen, ident=ident, title=says)
    if plan.verdict is Verdict.PLUG and old is not None:
        mark = shape_stroke(old, x_mm, y, layer=layer, pen=pen, ident=ident, title=says, hatch=1)
        return (mark, *plug_strokes(plan, x_mm=plug_x_mm or x_mm, manner=manner, copy=copy))
    if both and new is not None:
        inner = [] if old is None else [within(old, new, x_mm, y, pen=pen, manner=manner)]
        outer = shape_stroke(new, new_x_mm, new_y, layer=layer, pen=pen, ident=ident, title=says)
        return (outer, *inner)
    if plan.verdict.drills and new is not None:
        hatch = int(plan.verdict is Verdict.PLUG_AND_DRILL)
        ring = shape_stroke(
            new, new_x_mm, new_y, layer=layer, pen=pen, ident=ident, title=says, hatch=hatch,
            clear_mm=min(0.3 * min(new.size_mm), manner.mm(2.0)),
        )  # fmt: skip
        return (ring, *centre_mark(new, new_x_mm, new_y, layer=layer, ink=ink, manner=manner))
    shape = new or old
    if shape is None:
        return ()
    return (shape_stroke(shape, x_mm, y, layer=layer, pen=pen, ident=ident, title=says),)


def within(
    old: HoleShape, new: HoleShape, x: float, y: float, *, pen: Pen, manner: Manner
) -> Stroke:
    """The old hole inside the new one, drawn smaller where the two lines would run together."""
    layer = Layer.SLOT if isinstance(new, Slot) else Layer.ENLARGE
    clear = manner.mm(RINGS_APART_MM)
    if isinstance(old, Round) and isinstance(new, Round):
        most = max(new.diameter_mm - 2 * clear, manner.mm(0.8))
        old = Round(min(old.diameter_mm, most))
    return shape_stroke(old, x, y, layer=layer, pen=replace(pen, weight="dimension"))


def crossed_out(
    shape: HoleShape, x: float, y: float, *, layer: Layer, pen: Pen, ident: str, title: str
) -> tuple[Stroke, ...]:
    """A hole that was plugged before: its thin outline with a cross from corner to corner."""
    wide, high = shape.size_mm
    share = math.sqrt(0.125) if not isinstance(shape, Rectangle) else 0.5
    w, h = wide * share, high * share
    outline = shape_stroke(shape, x, y, layer=layer, pen=pen, ident=ident, title=title)
    return (
        outline,
        Line(layer=layer, x1_mm=x - w, y1_mm=y - h, x2_mm=x + w, y2_mm=y + h, pen=pen),
        Line(layer=layer, x1_mm=x - w, y1_mm=y + h, x2_mm=x + w, y2_mm=y - h, pen=pen),
    )


def plug_strokes(
    plan: HolePlan, *, x_mm: float, manner: Manner, copy: str = ""
) -> tuple[Stroke, ...]:
    """The rim of a plug that is wider than its hole, and its centre where that lies elsewhere."""
    if plan.plug_mm is None or plan.old is None or manner.what == "client":
        return ()
    if plan.plug_mm < max(plan.old.size_mm) + PLUG_SHOWS_MM and plan.plug_place is None:
        return ()
    y = (plan.plug_place or plan.place).down_mm
    pen = Pen(weight="fine", dash="dashed", ink="cut")
    rim = Circle(
        layer=Layer.PLUG, x_mm=x_mm, y_mm=y, diameter_mm=plan.plug_mm, pen=pen,
        ident=f"plug-{plan.number}{copy}", title=f"plug of hole {plan.number}",
    )  # fmt: skip
    if plan.plug_place is None:
        return (rim,)
    arm, thin = manner.mm(1.5), Pen(weight="fine", ink="cut")
    return (
        rim,
        Line(layer=Layer.PLUG, x1_mm=x_mm - arm, y1_mm=y, x2_mm=x_mm + arm, y2_mm=y, pen=thin),
        Line(layer=Layer.PLUG, x1_mm=x_mm, y1_mm=y - arm, x2_mm=x_mm, y2_mm=y + arm, pen=thin),
    )


def centre_mark(
    shape: HoleShape, x: float, y: float, *, layer: Layer, ink: Ink, manner: Manner
) -> tuple[Line, Line]:
    """Two thin lines that cross on the centre and reach beyond the hole."""
    wide, high = shape.size_mm
    arm = manner.mm(manner.arms_mm)
    pen = Pen(weight="fine", ink=ink)
    w, h = wide / 2 + arm, high / 2 + arm
    return (
        Line(layer=layer, x1_mm=x - w, y1_mm=y, x2_mm=x + w, y2_mm=y, pen=pen),
        Line(layer=layer, x1_mm=x, y1_mm=y - h, x2_mm=x, y2_mm=y + h, pen=pen),
    )


def shape_stroke(
    shape: HoleShape, x: float, y: float, *, layer: Layer, pen: Pen, ident: str = "",
    title: str = "", hatch: int = 0, clear_mm: float = 0.0,
) -> Circle | Path:  # fmt: skip
    """The outline of a hole: a true circle, a true stadium, an ellipse in 48 steps, a box."""
    if isinstance(shape, Round):
        return Circle(
            layer=layer, x_mm=x, y_mm=y, diameter_mm=shape.diameter_mm, pen=pen,
            hatched=bool(hatch), clear_mm=clear_mm, ident=ident, title=title,
        )  # fmt: skip
    points, bulges = _points(shape)
    return Path(
        layer=layer, points=tuple((x + px, y + py) for px, py in points), bulges=bulges, pen=pen,
        hatched=bool(hatch), ident=ident, title=title,
    )  # fmt: skip


def _points(
    shape: Slot | Oval | Rectangle,
) -> tuple[tuple[tuple[float, float], ...], tuple[float, ...]]:
    w, h = (size / 2 for size in shape.size_mm)
    if isinstance(shape, Rectangle):
        return ((-w, -h), (w, -h), (w, h), (-w, h)), ()
    if isinstance(shape, Oval):
        turns = [2 * math.pi * step / OVAL_STEPS for step in range(OVAL_STEPS)]
        return tuple((w * math.cos(a), h * math.sin(a)) for a in turns), ()
    if shape.lies == "along":
        s = w - h
        return ((-s, -h), (s, -h), (s, h), (-s, h)), (0.0, 1.0, 0.0, 1.0)
    s = h - w
    return ((w, -s), (w, s), (-w, s), (-w, -s)), (0.0, 1.0, 0.0, 1.0)


def verdict_words(plan: HolePlan, *, manner: Manner) -> str:
    """Return the verdict; on the drum as found, only that a hole was plugged before."""
    if manner.what == "as found" and plan.verdict in (Verdict.LEAVE_OPEN, Verdict.PLUGGED_ALREADY):
        return "plugged before" if plan.verdict is Verdict.PLUGGED_ALREADY else ""
    return plan.verdict.value


def title_of(plan: HolePlan, *, x_mm: float, manner: Manner) -> str:
    """What a hole is, in words: for those who point at it or have it read to them."""
    shape = plan.new if plan.verdict is not Verdict.PLUG else plan.old
    verdict = verdict_words(plan, manner=manner)
    parts = [f"hole {plan.number}: {verdict}" if verdict else f"hole {plan.number}"]
    if shape is not None:
        wide, high = shape.size_mm
        across = print_mm(wide, resolution_mm=0.1)
        parts.append(across if wide == high else f"{across} x {print_mm(high, resolution_mm=0.1)}")
    place = plan.new_place or plan.place
    parts.append(f"{print_mm(x_mm)} along, {print_mm(place.down_mm)} down")
    if plan.serves:
        parts.append(plan.serves)
    return ", ".join(parts)
