"""The shell before and after for the client: no numbers, no scales, words of the client."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace

from counterhoop.fittings.entry import Kind
from counterhoop.papers.drawing.around import Around, whole_lead_mm
from counterhoop.papers.drawing.bases import STYLE, base_strokes
from counterhoop.papers.drawing.labels import Room
from counterhoop.papers.drawing.legend import Sample, lay_out
from counterhoop.papers.drawing.lettering import box_of
from counterhoop.papers.drawing.manner import AS_FOUND, CLIENT, Manner
from counterhoop.papers.drawing.marks import DOTTED, HARM, line_strokes, mark_strokes
from counterhoop.papers.drawing.notes import note_strokes
from counterhoop.papers.drawing.numbers import SOFT, number_strokes
from counterhoop.papers.drawing.records import Circle, Drawing, Layer, Line, Path, Stroke, Text
from counterhoop.papers.drawing.scale import edge_strokes
from counterhoop.papers.drawing.shell_flat import half_extent, says, seen_hole
from counterhoop.papers.drawing.view import View, view_of_layout
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import Verdict

LUGS = (Kind.LUG, Kind.LONG_LUG)
WORDS = {
    Verdict.KEEP: "hole that is used again",
    Verdict.ENLARGE: "hole made larger",
    Verdict.SLOT: "hole made longer",
    Verdict.PLUG: "hole that is closed",
    Verdict.DRILL: "new hole",
    Verdict.PLUG_AND_DRILL: "old hole closed, new hole",
    Verdict.LEAVE_OPEN: "hole left as it is",
}
OPEN = (Verdict.PLUG, Verdict.PLUGGED_ALREADY)
GAP_MM = 1.5
BEYOND_MM = 1.5  # on paper, so that a line on the rim of the picture is whole
EDGES = (("BATTER SIDE", "where it is struck"), ("RESONANT SIDE", ""))


def before_picture(found: Layout, *, frame: Frame) -> Drawing:
    """Draw the drum as it is now: its fittings, its holes, marks of old fittings."""
    view = view_of_layout(found)
    holes = tuple(
        replace(
            plan,
            verdict=Verdict.PLUG if plan.verdict in OPEN else Verdict.LEAVE_OPEN,
            old=plan.old or plan.new,
            new=plan.old or plan.new,
            new_place=None,
        )
        for plan in view.holes
    )
    fittings = tuple(replace(f, status="stays") for f in view.fittings if f.status != "goes")
    now = replace(view, holes=holes, fittings=fittings)
    manner = replace(AS_FOUND, scale=frame.scale, numbers=False)
    return _picture(
        now, manner=manner, lead=frame.lead_mm, title=f"The {found.drum.key} as it is now"
    )


def after_picture(
    layout: Layout, *, frame: Frame, title: str = "", numbered: Collection[int] = (),
    harm: bool = False,
) -> Drawing:  # fmt: skip
    """Draw the drum as a scheme leaves it; holes whose numbers are named have them beside them.

    Parameters
    ----------
    harm : bool
        Whether cracks and lifted plies are drawn where they are, or were.
    """
    view = view_of_layout(layout)
    holes = tuple(
        replace(plan, verdict=Verdict.PLUG) if plan.verdict is Verdict.PLUGGED_ALREADY else plan
        for plan in view.holes
    )
    manner = replace(CLIENT, scale=frame.scale)
    title = title or f"The {layout.drum.key} as it would be"
    now = replace(view, holes=holes)
    return _picture(
        now, manner=manner, lead=frame.lead_mm, title=title, numbered=numbered, harm=harm
    )


def client_legend(layouts: Iterable[Layout], *, wide_mm: float) -> Drawing:
    """Explain the marks that are in use in any of the pictures, at paper size."""
    every = tuple(layouts)
    used = {h.verdict for layout in every for h in layout.holes}
    used |= {Verdict.PLUG} if Verdict.PLUGGED_ALREADY in used else set()
    samples: list[tuple[str, Sample]] = [(word, v) for v, word in WORDS.items() if v in used]
    statuses = {f.status for layout in every for f in layout.standing if f.outline is not None}
    samples += [("new fitting", STYLE["new"])] if "new" in statuses else []
    samples += [("fitting that stays", STYLE["stays"])] if "stays" in statuses else []
    if any(layout.marks for layout in every):
        samples.append(("mark of an old fitting", (Layer.SHADOW, DOTTED)))
    strokes = lay_out(samples, x_mm=0.0, y_mm=0.0, wide_mm=wide_mm, manner=CLIENT)
    bottom = max((_reach(s)[1] for s in strokes), default=4.0)
    return Drawing(
        left_mm=0.0, top_mm=0.0, width_mm=wide_mm, height_mm=bottom + 1.5, strokes=strokes,
        title="What the marks mean", says="; ".join(word for word, _ in samples),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What pictures that are compared share.

    Attributes
    ----------
    scale : float
        Paper millimetres for one of the shell.
    lead_mm : float
        How far each picture goes beyond the datum, at both ends.
    """

    scale: float
    lead_mm: float


def common_frame(layouts: Iterable[Layout], *, wide_mm: float) -> Frame:
    """Return the frame in which the widest picture fills the page and all line up."""
    views = [view_of_layout(layout) for layout in layouts]
    around = max(view.around_mm for view in views)
    lead = min(max(_over_mm(view) for view in views), around / 4)
    lead = max(whole_lead_mm(lead, _spans(view), around_mm=view.around_mm) for view in views)
    scale = min((wide_mm - 2 * BEYOND_MM) / (around + 2 * lead), 1.0)
    return Frame(scale=scale, lead_mm=lead + BEYOND_MM / scale)


def _picture(
    view: View, *, manner: Manner, lead: float, title: str, numbered: Collection[int] = (),
    harm: bool = False,
) -> Drawing:  # fmt: skip
    left, right = -lead, view.around_mm + lead
    around = Around(around_mm=view.around_mm, left_mm=left, right_mm=right)
    strokes: list[Stroke] = [
        *mark_strokes(view, manner=replace(manner, what="client"), around=around)
    ]
    if harm:
        strokes += line_strokes(view, manner=manner, around=around, kinds=HARM)
    strokes += base_strokes(view, manner=manner, around=around)
    strokes += [s for s in edge_strokes(view, around=around) if not s.ident.startswith("ring-")]
    for plan in view.holes:
        strokes += seen_hole(view, plan, manner=manner, around=around)
    named = replace(
        view, fittings=tuple(f for f in view.fittings if f.fitting.kind not in LUGS), marks=()
    )
    least, depth = view.depths_mm()
    room = Room((left, 0.0, right, least))
    room.take(strokes, soft=SOFT if numbered else frozenset())
    told = {f"hole-{number}" for number in numbered}
    listed = [s for s in strokes if "-".join(s.ident.split("-")[:2]) in told]
    strokes += number_strokes(listed, manner=manner, room=room)
    strokes += note_strokes(named, manner=replace(manner, what="client"), room=room)
    size, gap = manner.mm(3.2), manner.mm(GAP_MM)
    for (bold, more), y in zip(EDGES, (-gap, depth + gap + size * 0.8), strict=True):
        edge = Text(layer=Layer.NOTE, x_mm=left, y_mm=y, text=bold, size_mm=size, bold=True)
        strokes.append(edge)
        if more:
            at = box_of(edge)[2] + size * 0.6
            strokes.append(Text(layer=Layer.NOTE, x_mm=at, y_mm=y, text=more, size_mm=size))
    top = -gap - size * 1.1
    return Drawing(
        left_mm=left, top_mm=top, width_mm=right - left,
        height_mm=depth + gap + size * 1.2 - top, strokes=tuple(strokes), title=title,
        says=says(view, manner=manner), depth_mm=view.flat.depth_mm, scale=manner.scale,
    )  # fmt: skip


def _over_mm(view: View) -> float:
    """How far what lies across the datum reaches beyond it."""
    over = [max(-(x + left), x + right - view.around_mm) for x, left, right in _spans(view)]
    return max([0.0, *over])


def _spans(view: View) -> list[tuple[float, float, float]]:
    """What lies on the shell: the place along, and how far it reaches to the left and right."""
    outlined = [(p.place.along_deg, p.outline) for p in view.fittings]
    outlined += [(m.place.along_deg, m.outline) for m in view.marks]
    spans = [(view.x_mm(deg), *o.bounds_mm[::2]) for deg, o in outlined if o is not None]
    for hole in view.holes:
        half = half_extent(hole)[0]
        spans.append((view.x_mm(hole.place.along_deg), -half, half))
    return spans


def _reach(stroke: Stroke) -> tuple[float, float]:
    if isinstance(stroke, Circle):
        return stroke.x_mm, stroke.y_mm + stroke.diameter_mm / 2
    if isinstance(stroke, Line):
        return max(stroke.x1_mm, stroke.x2_mm), max(stroke.y1_mm, stroke.y2_mm)
    if isinstance(stroke, Path):
        return max(x for x, _ in stroke.points), max(y for _, y in stroke.points)
    box = box_of(stroke)
    return box[2], box[3]
