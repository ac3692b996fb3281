"""The shell laid flat: the one picture, drawn from a scheme or from the drum as found."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from counterhoop.development.shape import HoleShape
from counterhoop.fittings.book import Book
from counterhoop.papers.drawing.around import Around, whole_lead_mm
from counterhoop.papers.drawing.bases import base_strokes
from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.holes import hole_strokes, verdict_words
from counterhoop.papers.drawing.labels import Room
from counterhoop.papers.drawing.legend import legend_strokes
from counterhoop.papers.drawing.lettering import Box, box_of
from counterhoop.papers.drawing.manner import Manner, What, manner_of
from counterhoop.papers.drawing.marks import bed_half_mm, mark_strokes
from counterhoop.papers.drawing.notes import note_strokes
from counterhoop.papers.drawing.numbers import SOFT, number_strokes
from counterhoop.papers.drawing.records import Drawing, Layer, Stroke, Text
from counterhoop.papers.drawing.scale import (
    down_scale_strokes,
    edge_strokes,
    row_line_strokes,
    scale_room_mm,
    scale_strokes,
)
from counterhoop.papers.drawing.title_block import title_block_strokes
from counterhoop.papers.drawing.view import View, between_said, view_as_found, view_of_layout
from counterhoop.quantities.print_length import print_inch, print_mm
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import HolePlan
from counterhoop.shell.drum import Drum

Facts = tuple[tuple[str, str], ...]
Reach = tuple[float, float, float, float]
RIGHT_MM = 4.0
"""Free on paper, right of the shell."""


def draw_flat(
    layout: Layout, *, what: What = "working", scale: float = 1.0, legend: bool = True,
    facts: Facts = (),
) -> Drawing:  # fmt: skip
    """Draw a scheme's shell laid flat: x is mm along the layout's surface, y mm down.

    Parameters
    ----------
    layout : Layout
        The drum under a scheme; an as found drum is drawn by `draw_as_found`.
    what : What
        "working" (numbers, names, scales), "client" (no numbers) or "template".
    scale : float
        Paper millimetres for one of the shell: lettering and pens keep their size on paper.
    legend : bool
        Whether the verdict marks in use are explained below.
    facts : tuple of (str, str)
        Cells of a title block below; none for no block.
    """
    view = view_of_layout(layout)
    title = f"{layout.drum.key}: the shell laid flat"
    return draw_view(
        view, manner=manner_of(what, scale=scale), title=title, legend=legend, facts=facts
    )


def draw_as_found(
    drum: Drum, *, book: Book | None = None, scale: float = 1.0, legend: bool = True,
    facts: Facts = (),
) -> Drawing:  # fmt: skip
    """Draw the drum as the survey found it; bases come from the book, where it knows them."""
    view = view_as_found(drum, book=book)
    title = f"{drum.key} as found: the shell laid flat"
    manner = manner_of("as found", scale=scale)
    return draw_view(view, manner=manner, title=title, legend=legend, facts=facts)


def draw_view(
    view: View, *, manner: Manner, title: str, legend: bool = True, facts: Facts = (),
    faint: tuple[Stroke, ...] = (),
) -> Drawing:  # fmt: skip
    """Draw a view with its scales, numbers, legend and title block; ``faint`` lies beneath."""
    lead = lead_mm(view, manner=manner)
    around = Around(around_mm=view.around_mm, left_mm=-lead, right_mm=view.around_mm + lead)
    strokes = [*faint, *flat_strokes(view, manner=manner, around=around)]
    head = scale_room_mm(manner) + manner.mm(1.0)
    least, depth = view.depths_mm()
    bounds = (-lead, 0.0, view.around_mm + lead, least)
    strokes += words_on(view, strokes, manner=manner, bounds=bounds)
    strokes += down_scale_strokes(view, manner=manner, x_mm=-lead - manner.mm(2.0))
    size = manner.mm(manner.note_mm)
    words = Text(
        layer=Layer.NOTE, x_mm=0.0, y_mm=-head - manner.mm(1.5), text="BATTER EDGE", size_mm=size,
        bold=True,
    )  # fmt: skip
    skin = view.flat.surface.skin.value
    after = "after truing" if view.flat.after_truing else "before truing"
    below = depth + head + manner.mm(1.5) + size
    edge = Text(
        layer=Layer.NOTE, x_mm=0.0, y_mm=below, text="RESONANT EDGE", size_mm=size, bold=True
    )
    strokes += [
        words,
        Text(
            layer=Layer.NOTE, x_mm=box_of(words)[2] + size, y_mm=words.y_mm, size_mm=size,
            text="the outside, batter edge up, once along to the right →",
        ),
        edge,
        Text(
            layer=Layer.NOTE, x_mm=box_of(edge)[2] + size, y_mm=below, size_mm=size,
            text=f"{manner.units} along, {skin}, {_round(view, manner)} round · {after}",
        ),
    ]  # fmt: skip
    bottom = below + size * 0.6
    if legend:
        verdicts = {plan.verdict for plan in view.holes}
        strokes += legend_strokes(
            view, verdicts, x_mm=0.0, y_mm=bottom, width_mm=view.around_mm, manner=manner
        )
    bottom = max([bottom, *(extent_box(s)[3] for s in strokes)]) + manner.mm(2.0)
    if facts:
        block = title_block_strokes(
            facts, x_mm=0.0, y_mm=bottom, width_mm=view.around_mm, manner=manner
        )
        strokes += block
        bottom = max(extent_box(s)[3] for s in block) + manner.mm(2.0)
    left = -lead - manner.mm(left_mm(manner))
    top = words.y_mm - size
    return Drawing(
        left_mm=left, top_mm=top, width_mm=view.around_mm + lead + manner.mm(RIGHT_MM) - left,
        height_mm=bottom - top, strokes=tuple(strokes), title=title,
        says=says(view, manner=manner),
        depth_mm=view.flat.depth_mm, scale=manner.scale,
    )  # fmt: skip


def flat_strokes(view: View, *, manner: Manner, around: Around) -> tuple[Stroke, ...]:
    """Everything on the skin that has a place, without a word."""
    strokes: list[Stroke] = [*mark_strokes(view, manner=manner, around=around)]
    strokes += base_strokes(view, manner=manner, around=around)
    strokes += row_line_strokes(view, around=around)
    bare = View(flat=view.flat)
    strokes += edge_strokes(bare, around=around)
    strokes += scale_strokes(bare, manner=manner, around=around)
    for plan in view.holes:
        strokes += seen_hole(view, plan, manner=manner, around=around)
    return tuple(strokes)


def seen_hole(view: View, plan: HolePlan, *, manner: Manner, around: Around) -> tuple[Stroke, ...]:
    """One hole at every turn at which it shows."""
    x = view.x_mm(plan.place.along_deg)
    moved = plan.new_place or plan.place
    new_x = x + view.flat.surface.apart_mm(plan.place.along_deg, moved.along_deg)
    plug = plan.plug_place or plan.place
    plug_off = view.flat.surface.apart_mm(plan.place.along_deg, plug.along_deg)
    reach = half_extent(plan)[0] + manner.mm(manner.arms_mm) * plan.verdict.drills
    found: list[Stroke] = []
    for at, copy in around.seen(new_x, from_mm=-reach, to_mm=reach):
        old_at = at + x - new_x
        found += hole_strokes(
            plan, x_mm=old_at, new_x_mm=at, manner=manner, copy=copy, plug_x_mm=old_at + plug_off
        )
    return tuple(found)


def words_on(
    view: View, strokes: Sequence[Stroke], *, manner: Manner, bounds: Box
) -> tuple[Stroke, ...]:
    """Numbers of holes and names of fittings, placed on nothing that is drawn."""
    if not (manner.numbers or manner.notes):
        return ()
    room = Room(bounds)
    room.take(strokes, soft=SOFT)
    words: list[Stroke] = []
    if manner.numbers:
        words += number_strokes(strokes, manner=manner, room=room)
    if manner.notes:
        words += note_strokes(view, manner=manner, room=room)
    return tuple(words)


def half_extent(plan: HolePlan) -> tuple[float, float]:
    """Half of what a hole's mark takes along and down, without the arms of a centre mark."""
    shapes: list[HoleShape] = [s for s in (plan.old, plan.new) if s is not None]
    if not shapes:
        return (0.0, 0.0)
    return (max(s.size_mm[0] for s in shapes) / 2, max(s.size_mm[1] for s in shapes) / 2)


def lead_mm(view: View, *, manner: Manner) -> float:
    """How far beyond the datum the picture goes, so that what lies across it is whole."""
    return _lead_mm(_reaches(view, manner=manner), manner=manner, around_mm=view.around_mm)


def _reaches(view: View, *, manner: Manner) -> list[Reach]:
    """How far everything reaches to the left and to the right, and its arms on paper."""
    found = [
        (view.x_mm(plan.place.along_deg), *plan.outline.bounds_mm[::2], 0.0)
        for plan in view.fittings
        if plan.outline is not None and (manner.gone or plan.status != "goes")
    ]
    found += [(view.x_mm(m.place.along_deg), *m.outline.bounds_mm[::2], 0.0) for m in view.marks]
    for plan in view.holes:
        half = half_extent(plan)[0]
        found.append((view.x_mm(plan.place.along_deg), -half, half, manner.arms_mm))
    for bed in view.beds:
        half = bed_half_mm(bed)
        found.append((view.x_mm(bed.along_deg), -half, half, 0.0))
    return found


def _lead_mm(reaches: Sequence[Reach], *, manner: Manner, around_mm: float) -> float:
    reach, c = manner.mm(3.0), around_mm
    spans = [
        (x, left - manner.mm(arms), right + manner.mm(arms)) for x, left, right, arms in reaches
    ]
    for x, left, right in spans:
        if x + left < 0.0:
            reach = max(reach, -(x + left), x + right)
        if x + right > c:
            reach = max(reach, x + right - c, c - (x + left))
    lead = whole_lead_mm(min(reach + manner.mm(2.0), c / 4), spans, around_mm=c)
    if manner.lead_step_mm:
        stepped = math.ceil(lead / manner.lead_step_mm) * manner.lead_step_mm
        lead = whole_lead_mm(min(stepped, c / 4), spans, around_mm=c)
    return lead


def _round(view: View, manner: Manner) -> str:
    return (print_inch if manner.units == "in" else print_mm)(view.around_mm)


def fitting_scale(view: View, *, manner: Manner, wide_mm: float) -> float:
    """The scale, at most 1, at which the picture of a shell fills a width (to 0.01 mm)."""
    room_mm = wide_mm - 0.01 - left_mm(manner) - RIGHT_MM
    reaches = _reaches(view, manner=manner)
    scale = 0.25
    for _ in range(5):
        lead = _lead_mm(reaches, manner=replace(manner, scale=scale), around_mm=view.around_mm)
        scale = min(room_mm / (view.around_mm + 2 * lead), 1.0)
    return scale


def left_mm(manner: Manner) -> float:
    """What the figures of the down scale take on paper, left of the shell."""
    return 2.0 + 4.5 + 4 * manner.scale_mm * 0.66


def says(view: View, *, manner: Manner) -> str:
    """The picture in words: how many holes of each verdict, what is new, what goes."""
    counts = Counter(verdict_words(plan, manner=manner) or "open" for plan in view.holes)
    holes = ", ".join(f"{number} {verdict}" for verdict, number in counts.items()) or "no holes"
    parts = [
        f"Shell laid flat, {print_mm(view.around_mm)} round {view.flat.surface.skin.value}, "
        f"{between_said(*view.flat.depths_mm(), say=print_mm)} deep. Holes: {holes}."
    ]
    for status, word in (("new", "New"), ("stays", "Staying"), ("goes", "Taken off")):
        names = [plan.label for plan in view.fittings if plan.status == status]
        if names:
            parts.append(f"{word}: {', '.join(names)}.")
    return " ".join(parts)
