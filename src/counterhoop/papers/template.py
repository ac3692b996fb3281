"""The full-size template: how to use it, and the shell on sheets that go round it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from counterhoop.papers.cautions import cautions_for
from counterhoop.papers.drawing.around import Around
from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.labels import Room
from counterhoop.papers.drawing.legend import legend_strokes
from counterhoop.papers.drawing.lettering import Box
from counterhoop.papers.drawing.manner import TEMPLATE
from counterhoop.papers.drawing.pens import PRINT
from counterhoop.papers.drawing.records import Drawing, Stroke
from counterhoop.papers.drawing.scale import scale_room_mm
from counterhoop.papers.drawing.sheet_map import draw_sheet_map
from counterhoop.papers.drawing.shell_flat import flat_strokes, half_extent
from counterhoop.papers.drawing.tile_sheet import (
    REGISTER_ARM_MM,
    Window,
    draw_sheet,
    free_spot,
    register_mark,
)
from counterhoop.papers.drawing.view import View, view_of_layout
from counterhoop.papers.how_to_use import in_place, joining_steps, shell_steps
from counterhoop.papers.job_facts import JobFacts, title_facts
from counterhoop.papers.order_of_work import needs_of
from counterhoop.papers.printer import PrinterCorrection
from counterhoop.papers.sheets import MARGIN_MM, ROLL, SIZES
from counterhoop.papers.svg import to_svg
from counterhoop.papers.tiles import (
    OVERLAP_MM,
    STRIP_BOTTOM_MM,
    STRIP_LEFT_MM,
    STRIP_TOP_MM,
    Tile,
    Tiling,
    tile_shell,
)
from counterhoop.papers.typst.set import set_pdf
from counterhoop.scheme.plan import Scheme

CHECK_BAR_MM = 100.0
CLEAR_MM = 4.0  # between a joint and a hole: the arms of its centre mark stay whole
TITLE = "Full-size template"


@dataclass(frozen=True, slots=True, kw_only=True)
class Template:
    """A template before it is set: its tiling and one drawing a sheet."""

    tiling: Tiling
    drawings: tuple[Drawing, ...]


def template_pdf(
    scheme: Scheme, facts: JobFacts, *, paper: str = "A4",
    correction: PrinterCorrection | None = None, draft: bool = True,
) -> bytes:  # fmt: skip
    """Set the template of a scheme.

    Parameters
    ----------
    scheme : Scheme
        Its layout's surface is the one that the template goes round.
    facts : JobFacts
        For the title block.
    paper : str
        "A4", "A3", "Letter" or "roll".
    correction : PrinterCorrection
        Of this printer and paper; none for a true printer.
    draft : bool
        Whether DRAFT stands across every sheet: anything but a recorded approval.

    Raises
    ------
    BadInput
        For a paper that is not known.
    """
    made = template_drawings(scheme, paper=paper, correction=correction)
    view = view_of_layout(scheme.layout)
    images = {f"sheet-{i}": to_svg(d, palette=PRINT) for i, d in enumerate(made.drawings, 1)}
    images["legend"] = to_svg(_legend(view, wide_mm=legend_mm(made.tiling)), palette=PRINT)
    boxes = [(t.number, t.left_mm, t.top_mm, t.right_mm, t.bottom_mm) for t in made.tiling.tiles]
    images["map"] = to_svg(draw_sheet_map(boxes, wide_mm=66.0), palette=PRINT)
    data = template_data(
        scheme, facts, made=made, draft=draft, printer=correction.says if correction else ""
    )
    title = f"{TITLE}: {facts.drum or scheme.drum}, scheme {scheme.number}"
    return set_pdf("template", data, images=images, title=title)


def template_drawings(
    scheme: Scheme, *, paper: str = "A4", correction: PrinterCorrection | None = None
) -> Template:
    """Cut the shell into sheets and draw each."""
    view = view_of_layout(scheme.layout)
    manner = TEMPLATE
    spans_x, spans_y = _spans(view)
    tiling = tile_shell(
        around_mm=view.around_mm, depth_mm=view.depths_mm()[1], beyond_mm=scale_room_mm(manner),
        paper=paper, correction=correction, spare_along=spans_x, spare_down=spans_y,
    )  # fmt: skip
    around = Around(
        around_mm=view.around_mm, left_mm=tiling.start_mm,
        right_mm=tiling.start_mm + view.around_mm + OVERLAP_MM,
    )  # fmt: skip
    strokes = [(extent_box(s), s) for s in flat_strokes(view, manner=manner, around=around)]
    marks = tuple(_registers(tiling, strokes))
    drawings = tuple(
        draw_sheet(
            view, strokes, window=_window(tile, tiling, view), manner=manner, registers=marks
        )
        for tile in tiling.tiles
    )
    return Template(tiling=tiling, drawings=drawings)


def template_data(
    scheme: Scheme, facts: JobFacts, *, made: Template, draft: bool, printer: str = ""
) -> Mapping[str, Any]:
    """What the Typst template is given; lengths in mm on paper."""
    tiling = made.tiling
    layout = scheme.layout
    _, registration = in_place(layout)
    first = SIZES["A4"] if tiling.paper == ROLL else None
    cells = title_facts(
        facts,
        flat=layout.flat,
        what=f"template, scheme {scheme.number}",
        scale="1:1",
        code=scheme.code,
    )
    if printer:
        cells = (*cells, ("printer", printer))
    return {
        "draft": draft,
        "facts": cells,
        "heading": f"{TITLE}: {facts.drum or scheme.drum}",
        "wish": f"Scheme {scheme.number}: {scheme.title}",
        "closing": f"{tiling.closing_mm:.1f}",
        "paper": tiling.paper,
        "paper-long": max(tiling.page_wide_mm, tiling.page_high_mm),
        "wide": tiling.page_wide_mm,
        "high": tiling.page_high_mm,
        "first-wide": first.short_mm if first else tiling.page_wide_mm,
        "first-high": first.long_mm if first else tiling.page_high_mm,
        "margin": MARGIN_MM,
        "strip-left": STRIP_LEFT_MM * tiling.across_factor,
        "strip-top": STRIP_TOP_MM * tiling.down_factor,
        "strip-bottom": STRIP_BOTTOM_MM * tiling.down_factor,
        "bar-across": CHECK_BAR_MM * tiling.across_factor,
        "bar-down": CHECK_BAR_MM * tiling.down_factor,
        "registration": registration,
        "joining": joining_steps(tiling),
        "steps": shell_steps(layout, registration=registration),
        "cautions": [c.says for c in cautions_for("template", needs=needs_of(scheme))],
        "not-checked": facts.not_checked,
        "count": len(tiling.tiles),
        "sheets": [
            {
                "name": f"sheet-{i}",
                "alt": f"{drawing.says}. Every hole is in the hole list.",
                "number": tile.number,
                "x": tiling.on_sheet(tile, tile.left_mm, tile.top_mm)[0],
                "y": tiling.on_sheet(tile, tile.left_mm, tile.top_mm)[1],
                "w": drawing.width_mm * tiling.along_scale,
                "h": drawing.height_mm * tiling.down_scale,
            }
            for i, (tile, drawing) in enumerate(
                zip(tiling.tiles, made.drawings, strict=True), 1
            )
        ],
    }  # fmt: skip


def _window(tile: Tile, tiling: Tiling, view: View) -> Window:
    on_paper = tiling.along_scale / tiling.across_factor
    left, right = tile.left_mm * on_paper, tile.joint_right_mm * on_paper
    count = len(tiling.tiles)
    one = count == 1
    words = ["batter edge up", "printed side out", "along →"]
    if not tile.first_row:
        words[0] = "↑ batter edge up"
    if not one:
        words.append(f"sheet {tile.number} of {count}")
    return Window(
        seen=(tile.left_mm, tile.top_mm, tile.right_mm, tile.bottom_mm),
        joint_right_mm=tile.joint_right_mm,
        joint_bottom_mm=tile.joint_bottom_mm,
        cut_left=tiling.start_mm < 0.0 or not tile.first_column,
        cut_top=not tile.first_row,
        joint_right=True,
        datum=tiling.start_mm < 0.0 and tile.left_mm <= 0.0 < tile.joint_right_mm,
        joint_bottom=not tile.last_row,
        distances=(
            _edge(left, first=tile.first_column),
            _closing(right, start=tiling.start_mm)
            if tile.last_column
            else f"{_mm(right)} mm from the datum",
            "" if tile.first_row else f"{_mm(tile.top_mm)} mm from the batter edge",
            "" if tile.last_row else f"{_mm(tile.joint_bottom_mm)} mm from the batter edge",
        ),
        words=tuple(words),
        title=f"Sheet {tile.number} of {count}",
    )


def _edge(left: float, *, first: bool) -> str:
    if not first:
        return f"{_mm(left)} mm from the datum"
    return f"{_mm(-left)} mm before the datum" if left < 0 else "0 line, on the datum"


def _closing(right: float, *, start: float) -> str:
    if start < 0:
        return f"closing line, {_mm(right)} mm from the datum"
    return f"closing line, {_mm(right)} mm"


def _mm(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def _spans(view: View) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
    """Stretches along and down that marks of holes take; no joint should run through one."""
    xs, ys = [], []
    for plan in view.holes:
        place = plan.new_place or plan.place
        half_x, half_y = half_extent(plan)
        x = view.x_mm(place.along_deg)
        xs.append((x - half_x - CLEAR_MM, x + half_x + CLEAR_MM))
        ys.append((place.down_mm - half_y - CLEAR_MM, place.down_mm + half_y + CLEAR_MM))
    return xs, ys


def _registers(tiling: Tiling, strokes: list[tuple[Box, Stroke]]) -> Iterator[Stroke]:
    """Two register marks on every joint between two sheets, clear of what is drawn there."""
    every = [t for t in tiling.tiles if not (t.last_column and t.last_row)]
    if not every:
        return
    edges = [stroke for _, stroke in strokes]
    whole = (
        min(t.left_mm for t in tiling.tiles),
        min(t.top_mm for t in tiling.tiles),
        max(t.right_mm for t in tiling.tiles),
        max(t.bottom_mm for t in tiling.tiles),
    )
    room = Room(whole)
    room.take(edges)
    half = REGISTER_ARM_MM
    for tile in every:
        inner_top = max(tile.top_mm, 0.0)
        for share in (0.2, 0.8):
            if not tile.last_column:
                y0 = inner_top + share * (tile.joint_bottom_mm - inner_top)
                at = [(tile.joint_right_mm, y0 + d) for d in _outward(40)]
                yield from register_mark(*free_spot(at, room=room, half_mm=half))
            if not tile.last_row:
                x0 = tile.left_mm + share * (tile.joint_right_mm - tile.left_mm)
                at = [(x0 + d, tile.joint_bottom_mm) for d in _outward(40)]
                yield from register_mark(*free_spot(at, room=room, half_mm=half))


def _outward(most: int) -> list[float]:
    return [float(step * sign) for step in range(most) for sign in (1, -1)]


def legend_mm(tiling: Tiling) -> float:
    """Width of a column of text on the first sheet."""
    if tiling.paper == ROLL:
        return SIZES["A4"].short_mm - 2 * MARGIN_MM
    wide = tiling.page_wide_mm - 2 * MARGIN_MM
    return (wide - 8.0) / 2 if tiling.page_wide_mm > tiling.page_high_mm else wide


def _legend(view: View, *, wide_mm: float) -> Drawing:
    verdicts = {plan.verdict for plan in view.holes}
    wide, small = wide_mm, replace(TEMPLATE, note_mm=3.8, arms_mm=2.0)
    strokes = legend_strokes(view, verdicts, x_mm=0.0, y_mm=0.0, width_mm=wide, manner=small)
    bottom = max((extent_box(s)[3] for s in strokes), default=0.0)
    return Drawing(
        left_mm=0.0, top_mm=0.0, width_mm=wide, height_mm=bottom + 2.0, strokes=strokes,
        title="What the marks mean",
        says="Keep: circle. Enlarge: circle in circle. Slot: stadium. Plug: circle hatched at 45 "
        "degrees. Drill: circle with centre mark. Plug and drill: hatched circle with centre mark. "
        "Plugged already: thin circle crossed out.",
    )  # fmt: skip
