"""A drum that is half entered: faint places for what is not known yet, and their names."""

from __future__ import annotations

from typing import Literal, TypeAlias, get_args

from counterhoop.development.flat import Development, End
from counterhoop.development.surface import Skin, Surface
from counterhoop.papers.drawing.manner import Manner
from counterhoop.papers.drawing.records import Drawing, Layer, Line, Path, Pen, Stroke, Text
from counterhoop.papers.drawing.view import View
from counterhoop.quantities.print_length import print_inch, print_mm
from counterhoop.shell.drum import Drum

FAINT = Pen(weight="fine", dash="dotted", ink="shadow")
LUG_MM = (16.0, 40.0)
"""A box where a lug stands whose base is not known: about a short lug (common practice)."""
INSET_MM = 8.0
GUESSED_ROUND_MM, GUESSED_DEPTH_SHARE = 1040.0, 0.22
"""A drum of 13 inches by 9, before anything was read."""
NOT_READ = "not read yet"
Anchor: TypeAlias = Literal["start", "middle", "end"]
START: Anchor = "start"
MIDDLE: Anchor = "middle"
END: Anchor = "end"


def draw_unread(
    view: View, *, around_mm: float | None, depth_mm: float | None, manner: Manner
) -> Drawing:
    """Draw a bare shell of which not even the eight numbers are all known.

    What was not read has no figure: its edges are faint, and its name says so.
    """
    around, depth = view.around_mm, view.flat.depth_mm
    read = {"once round": around_mm, "depth": depth_mm}
    words = [f"{name}: {_said(value, manner)}" for name, value in read.items()]
    edge = Pen(weight="outline") if around_mm and depth_mm else FAINT
    size = manner.mm(manner.note_mm)
    strokes: list[Stroke] = [
        Line(layer=Layer.OUTLINE, x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen=edge)
        for x1, y1, x2, y2 in (
            *((0.0, 0.0, around, 0.0), (0.0, depth, around, depth)),
            *((0.0, 0.0, 0.0, depth), (around, 0.0, around, depth)),
        )
    ]
    low = depth + size * 1.4
    for x, y, text, anchor in (
        (0.0, -size * 0.7, "BATTER EDGE", START),
        (0.0, low, "RESONANT EDGE", START),
        (around, low, words[0], END),
        (around / 2, (depth + size) / 2, words[1], MIDDLE),
    ):
        strokes.append(
            Text(
                layer=Layer.NOTE, x_mm=x, y_mm=y, text=text, size_mm=size, anchor=anchor,
                bold=text.isupper(),
            )
        )  # fmt: skip
    return Drawing(
        left_mm=-size, top_mm=-2 * size, width_mm=around + 2 * size, height_mm=depth + 4.5 * size,
        strokes=tuple(strokes), title="The shell laid flat, not all measured yet",
        says=f"A bare shell in likely proportions. {words[0].capitalize()}; {words[1]}.",
        depth_mm=depth, scale=manner.scale,
    )  # fmt: skip


def _said(value_mm: float | None, manner: Manner) -> str:
    if value_mm is None:
        return NOT_READ
    return (print_inch if manner.units == "in" else print_mm)(value_mm)


def guessed_view(*, around_mm: float | None, depth_mm: float | None) -> View:
    """A bare shell in which what was not read is in a likely proportion to what was."""
    if around_mm is None:
        around_mm = GUESSED_ROUND_MM if depth_mm is None else depth_mm / GUESSED_DEPTH_SHARE
    if depth_mm is None:
        depth_mm = around_mm * GUESSED_DEPTH_SHARE
    surface = Surface(skin=Skin.OLD, circumference_mm=around_mm)
    return View(flat=Development(surface=surface, depth_mm=depth_mm, wall_mm=0.0))


def faint_strokes(drum: Drum, view: View) -> tuple[Stroke, ...]:
    """Draw where lugs would be: those whose base no book gives, and those of a head without a row.

    A head without a row is shown in line with the other head's lugs, which is only a likely place.
    """
    known = {plan.label for plan in view.fittings}
    strokes: list[Stroke] = [
        _box(view.x_mm(lug.place.along_deg), lug.place.down_mm, view=view, title=lug.label)
        for row in drum.rows
        for lug in row.lugs
        if lug.label not in known
    ]
    for head in _rows_missing(drum, view):
        for row in drum.rows:
            for lug in row.lugs:
                x = view.x_mm(lug.place.along_deg)
                inset = min(LUG_MM[1] / 2 + INSET_MM, view.flat.depth_mm / 2)
                down = inset if head == "batter" else view.depth_at_mm(x) - inset
                strokes.append(_box(x, down, view=view, title=f"{head} lug: not entered yet"))
    return tuple(strokes)


def missing_words(drum: Drum, view: View) -> tuple[str, ...]:
    """Name what a survey of this drum would have and this one has not yet."""
    if not drum.rows:
        words = ["the lugs"]
    else:
        words = [f"the {head} row of lugs" for head in _rows_missing(drum, view)]
    if not any("vent" in hole.purpose.casefold() for hole in drum.holes):
        words.append("a vent, if it has one")
    if drum.finish.kind == "wrap" and drum.seam is None:
        words.append("the seam of the wrap")
    return tuple(words)


def _rows_missing(drum: Drum, view: View) -> tuple[End, ...]:
    """Return the heads of a drum that should have lugs and have none; long lugs serve both."""
    if drum.heads == 1 or any(plan.row == "both" for plan in view.fittings):
        return ()
    there = {row.head for row in drum.rows}
    return tuple(head for head in get_args(End) if head not in there)


def _box(x: float, down: float, *, view: View, title: str) -> Stroke:
    """A faint box about a lug's place."""
    wide, tall = (size / 2 for size in LUG_MM)
    tall = min(tall, view.flat.depth_mm / 3)
    points = (
        *((x - wide, down - tall), (x + wide, down - tall)),
        *((x + wide, down + tall), (x - wide, down + tall)),
    )
    return Path(layer=Layer.NOTE, points=points, pen=FAINT, title=title)
