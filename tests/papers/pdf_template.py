"""Reads a template back as a restorer would: from its own lines and the figures beside them."""

from __future__ import annotations

import io
import math
import re
from dataclasses import dataclass

import pypdfium2 as pdfium
from pdf_paths import PdfPath, page_paths, sheets_of

from counterhoop.papers.drawing.records import Layer, Text
from counterhoop.papers.template import Template
from counterhoop.scheme.layout import Layout


@dataclass(frozen=True)
class ReadSheet:
    """A sheet's marks in millimetres as printed, counted from the datum and the batter edge."""

    page: int
    marks: tuple[tuple[float, float, float, float], ...]  # along, down, wide, high
    left_said: float
    joint_said: float
    joint_apart: float
    cut_x: float
    cut_y: float


def read_template(pdf: bytes, made: Template) -> list[ReadSheet]:
    """Read every sheet: lines and marks from the PDF, what is said beside them from the drawing."""
    document = pdfium.PdfDocument(io.BytesIO(pdf))
    pages = sheets_of(document)
    assert len(pages) == len(made.drawings)
    sheets = []
    for index, drawing in zip(pages, made.drawings, strict=True):
        page = document[index]
        said = [s.text for s in drawing.strokes if isinstance(s, Text) and s.layer is Layer.NOTE]
        sheets.append(read_sheet(index, page_paths(page), said))
    return sheets


def read_sheet(index: int, paths: list[PdfPath], said: list[str]) -> ReadSheet:
    """Find the cut lines and what is printed beside them; everything is measured from those."""
    level = [p for p in paths if is_line(p) and p.size[1] < 0.01]
    longest = max(p.size[0] for p in level)
    across = [p for p in level if p.size[0] > longest - 0.01]
    top, left = min(p.box[1] for p in across), across[0].box[0]
    upright = [p for p in paths if is_line(p) and p.size[0] < 0.01]
    tallest = max(p.size[1] for p in upright)
    joints = [p.middle[0] for p in upright if p.size[1] > tallest - 0.01]
    plain = [t for t in said if "closing line" not in t]
    along = sorted(figure(t) for t in plain if "from the datum" in t or t.endswith("mm along"))
    before = [-figure(t) for t in said if "before the datum" in t]
    down = sorted(figure(t) for t in said if "from the batter edge" in t or t.endswith("mm down"))
    closing = [figure(t) for t in said if "closing line" in t]
    on_datum = not before and any("0 line, on the datum" in t for t in said)
    assert len(along) + len(closing) + on_datum + len(before) == 2, said
    left_said = before[0] if before else 0.0 if on_datum else along[0]
    joint_said = closing[0] if closing else along[-1]
    top_said = down[0] if "↑ batter edge up" in said else 0.0
    marks = []
    for p in paths:
        if p.curves or len(p.points) >= 4:
            x, y = p.middle
            marks.append((x - left + left_said, y - top + top_said, *p.size))
    return ReadSheet(
        index, tuple(marks), left_said, joint_said, max(joints, default=left) - left, left, top
    )


def figure(text: str) -> float:
    """The millimetres that a line of text says."""
    found = re.search(r"([\d.]+) mm", text)
    assert found is not None
    return float(found[1])


def is_line(path: PdfPath) -> bool:
    """Whether a path is a single stretch of line."""
    return path.curves == 0 and len(path.points) == 2


def worst_hole_mm(
    sheets: list[ReadSheet], layout: Layout, *, along_scale: float = 1.0, down_scale: float = 1.0
) -> float:
    """The largest distance between a hole of the model and its mark, over all sheets.

    Every hole must be found with its centre on some sheet.
    """
    surface = layout.flat.surface
    worst = 0.0
    for plan in layout.holes:
        place = plan.new_place or plan.place
        shape = plan.new or plan.old
        assert shape is not None
        along = surface.along_mm(place.along_deg)
        wide, high = (s * f for s, f in zip(shape.size_mm, (along_scale, down_scale), strict=True))
        found = [
            math.hypot(x / along_scale - along, y / down_scale - place.down_mm)
            for sheet in sheets
            for x, y, w, h in sheet.marks
            if abs(w - wide) < 0.02 and abs(h - high) < 0.02
        ]
        near = [apart for apart in found if apart < 0.5]  # every sheet's own copy of it
        worst = max(worst, max(near, default=math.inf))
    return worst
