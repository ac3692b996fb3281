"""The survey in one picture: the shell as found between strips of what was read round its ends."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.fittings.book import Book
from counterhoop.papers.drawing.around import Around
from counterhoop.papers.drawing.edge_strip import edge_strip
from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.legend import legend_strokes
from counterhoop.papers.drawing.manner import AS_FOUND, Manner
from counterhoop.papers.drawing.radius_strip import radius_strip
from counterhoop.papers.drawing.records import Drawing, Layer, Line
from counterhoop.papers.drawing.scale import EDGE, scale_room_mm, scale_strokes
from counterhoop.papers.drawing.shell_flat import draw_view, fitting_scale, lead_mm
from counterhoop.papers.drawing.strip import Strip, readings_high_mm, strip_high_mm
from counterhoop.papers.drawing.strip_marks import strip_strokes
from counterhoop.papers.drawing.view import View, view_as_found
from counterhoop.quantities.print_length import print_mm
from counterhoop.shell.drum import Drum
from counterhoop.survey.drum_survey import DrumSurvey

LEAST_MM, MOST_MM = 11.0, 26.0
"""What the readings of one strip may take on paper."""
ROUND_MM = 24.0
APART_MM = 1.5
LEAST_SCALE = 0.02

Strips = tuple[Strip, ...]


def survey_pictures(
    drum: Drum, survey: DrumSurvey, *, book: Book | None = None, wide_mm: float, high_mm: float
) -> tuple[Drawing, ...]:
    """Draw a drum as found with its readings, filling the width of a space on paper.

    Parameters
    ----------
    wide_mm, high_mm : float
        The space.

    Returns
    -------
    tuple of Drawing
        One that holds everything where it fits; else the shell with its edges, and how round it
        is as a second one on the same along axis. A shell too deep for the space is drawn smaller.
    """
    view = view_as_found(drum, book=book)
    edges = tuple(edge_strip(survey.at(end)) for end in ("batter", "resonant"))
    rounds = tuple(radius_strip(survey.at(end)) for end in ("batter", "resonant"))
    scale = fitting_scale(view, manner=AS_FOUND, wide_mm=wide_mm)
    above, below = _stack(rounds[0], edges[0]), _stack(edges[1], rounds[1])
    whole = _with_strips(view, _bare(view, scale), above, below, strip_mm=LEAST_MM)
    if whole.height_mm * scale <= high_mm or not (any(edges) and any(rounds)):
        return (_fitted(view, above, below, scale=scale, high_mm=high_mm),)
    first = _fitted(view, _stack(edges[0]), _stack(edges[1]), scale=scale, high_mm=high_mm)
    ruler = _ruler(view, replace(AS_FOUND, scale=first.scale))
    second = _with_strips(
        view, ruler, _stack(rounds[0]), _stack(rounds[1]), strip_mm=ROUND_MM, legend=False
    )
    return first, second


def say_strip(strip: Strip) -> str:
    """Return a strip in words: every reading with its place."""
    said = ", ".join(
        f"{along % 360.0:.0f} degrees {print_mm(value, resolution_mm=strip.resolution_mm)}"
        for along, value in zip(strip.along_deg, strip.value_mm, strict=True)
    )
    return f"{strip.heading}, from {strip.zero_says}: {said}."


def _stack(*strips: Strip | None) -> Strips:
    """Those that there are; stations that two neighbours share are numbered once, between them."""
    there = [strip for strip in strips if strip is not None]
    if len(there) == 2 and there[0].along_deg == there[1].along_deg:
        there[1] = replace(there[1], numbered=False)
    return tuple(there)


def _fitted(view: View, above: Strips, below: Strips, *, scale: float, high_mm: float) -> Drawing:
    """The shell at a scale, smaller where it is too deep; strips take the height that is left."""
    for _ in range(5):
        bare = _with_strips(view, _bare(view, scale), above, below, strip_mm=LEAST_MM)
        spare = high_mm - bare.height_mm * scale
        if spare >= 0.0:
            break
        scale = max(scale + (spare - 0.1) / view.flat.depth_mm, LEAST_SCALE)
    strips = above + below
    taken = sum(readings_high_mm(strip, high_mm=LEAST_MM) for strip in strips)
    strip_mm = min((taken + spare) / max(len(strips), 1), MOST_MM)
    shell = _shell(view, replace(AS_FOUND, scale=bare.scale))
    return _with_strips(view, shell, above, below, strip_mm=max(strip_mm, LEAST_MM))


def _with_strips(
    view: View, middle: Drawing, above: Strips, below: Strips, *, strip_mm: float,
    legend: bool = True,
) -> Drawing:  # fmt: skip
    """A picture with strips over and under it, and the marks explained at the foot."""
    manner = replace(AS_FOUND, scale=middle.scale)
    lead = lead_mm(view, manner=manner)
    around = Around(around_mm=view.around_mm, left_mm=-lead, right_mm=view.around_mm + lead)
    lugs = sorted({round(view.x_mm(f.place.along_deg), 6) for f in view.fittings if f.row})
    high = {s.name: manner.mm(strip_high_mm(s, high_mm=strip_mm) + APART_MM) for s in above + below}
    top = middle.top_mm - sum(high[s.name] for s in above)
    strokes = list(middle.strokes)
    at = top
    for strip in (*above, *below):
        if below and strip is below[0]:
            at = middle.top_mm + middle.height_mm
        strokes += strip_strokes(
            strip, around=around, top_mm=at, high_mm=strip_mm, manner=manner, lugs_mm=lugs
        )
        at += high[strip.name]
    bottom = max(at, middle.top_mm + middle.height_mm)
    if legend:
        strokes += legend_strokes(
            view, {plan.verdict for plan in view.holes}, x_mm=0.0, y_mm=bottom,
            width_mm=view.around_mm, manner=manner,
        )  # fmt: skip
        bottom = max([bottom, *(extent_box(s)[3] + manner.mm(1.0) for s in strokes)])
    says = " ".join((middle.says, *map(say_strip, (*above, *below))))
    return replace(
        middle, strokes=tuple(strokes), top_mm=top, height_mm=bottom - top, says=says.strip()
    )


def _bare(view: View, scale: float) -> Drawing:
    """The shell without its holes and names, which take no room of their own: quick to measure."""
    return _shell(replace(view, holes=()), replace(AS_FOUND, scale=scale, notes=False))


def _shell(view: View, manner: Manner) -> Drawing:
    title = f"{view.key} as found: the shell laid flat"
    return draw_view(view, manner=manner, title=title, legend=False)


def _ruler(view: View, manner: Manner) -> Drawing:
    """The along axis alone, degrees over millimetres, where the shell's picture has it."""
    lead = lead_mm(view, manner=manner)
    around = Around(around_mm=view.around_mm, left_mm=-lead, right_mm=view.around_mm + lead)
    rim = replace(view, flat=replace(view.flat, depth_mm=0.0))
    empty = replace(rim, holes=(), fittings=(), marks=(), lines=(), beds=(), seam=None, inside=())
    window = _shell(empty, manner)
    room = scale_room_mm(manner) + manner.mm(APART_MM)
    more = lead - lead_mm(empty, manner=manner)
    line = Line(
        layer=Layer.SCALE, x1_mm=-lead, y1_mm=0.0, x2_mm=around.right_mm, y2_mm=0.0, pen=EDGE
    )
    return replace(
        window, strokes=(line, *scale_strokes(rim, manner=manner, around=around)), top_mm=-room,
        height_mm=2 * room, left_mm=window.left_mm - more, width_mm=window.width_mm + 2 * more,
        title=f"{view.key} as found: how round it is",
        says=f"Along as on the shell laid flat, {print_mm(view.around_mm)} round.",
    )  # fmt: skip
