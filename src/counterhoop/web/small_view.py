"""A drum as found, small and without letters: a kit is told apart at a glance, all at one scale."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.bench.folders.folder import KeptDrum, KeptJob, drawer
from counterhoop.bench.workshop import Workshop
from counterhoop.fittings.book import Book
from counterhoop.papers.drawing.around import Around
from counterhoop.papers.drawing.bases import base_strokes
from counterhoop.papers.drawing.manner import AS_FOUND
from counterhoop.papers.drawing.marks import mark_strokes
from counterhoop.papers.drawing.records import Drawing, Stroke, Text
from counterhoop.papers.drawing.scale import edge_strokes
from counterhoop.papers.drawing.shell_flat import seen_hole
from counterhoop.papers.drawing.view import view_as_found
from counterhoop.papers.screen.play import to_screen
from counterhoop.shell.drum import Drum
from counterhoop.web.shell_drawn import looked_over

SCALE = 0.045
"""A bass drum of 22 inches is 300 px wide."""
BEYOND_MM = 45.0
"""What lies across the datum is seen whole at both ends."""
RIM_MM = 12.0


def small_svg(drum: Drum, *, book: Book, ident: str) -> str:
    """Return a small drawing of a drum, without numbers or names."""
    view = view_as_found(drum, book=book)
    manner = replace(AS_FOUND, scale=SCALE, numbers=False, what="client")
    around = Around(
        around_mm=view.around_mm, left_mm=-BEYOND_MM, right_mm=view.around_mm + BEYOND_MM
    )
    strokes: list[Stroke] = [*mark_strokes(view, manner=manner, around=around)]
    strokes += base_strokes(view, manner=manner, around=around)
    strokes += edge_strokes(view, around=around)
    for plan in view.holes:
        strokes += seen_hole(view, plan, manner=manner, around=around)
    _, deep = view.depths_mm()
    drawn = tuple(stroke for stroke in strokes if not isinstance(stroke, Text))
    drawing = Drawing(
        left_mm=-BEYOND_MM, top_mm=-RIM_MM, width_mm=view.around_mm + 2 * BEYOND_MM,
        height_mm=deep + 2 * RIM_MM, strokes=drawn,
        title=f"The {drum.key} as found", says="The shell laid flat, batter edge at the top.",
        depth_mm=view.flat.depth_mm, scale=SCALE,
    )  # fmt: skip
    return to_screen(drawing, ident=ident)


def small_picture(shop: Workshop, job: KeptJob, drum: KeptDrum) -> str:
    """Return the small drawing of a kept drum; nothing while too little is known of it."""
    looked = looked_over(job, drum, shop=dict(drawer(shop)))
    if looked.surveyed is None or looked.so_far.opened is None:
        return ""
    return small_svg(
        looked.surveyed.drum, book=looked.so_far.opened.shop.book, ident=f"small-{drum.id}"
    )
