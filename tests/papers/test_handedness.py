"""No output mirrors the drum: every writer's marks, wrapped on a cylinder, meet the survey.

A sheet of paper lies on the shell with its printed side out and the batter edge up. The wrap is
done here with the viewer's own right hand (right = looking x up), not with the formula under
test; `counterhoop.development.cylinder` is then asked the same question.
"""

from __future__ import annotations

import io
import math
import xml.etree.ElementTree as ET
from dataclasses import replace

import ezdxf
import numpy as np
import pytest
from example_shells import scheme_of, small_tom
from pdf_template import read_template

from counterhoop.development.cylinder import handedness, on_cylinder
from counterhoop.papers.drawing.records import Circle, Drawing
from counterhoop.papers.drawing.shell_flat import draw_flat
from counterhoop.papers.dxf import to_dxf
from counterhoop.papers.job_facts import JobFacts
from counterhoop.papers.svg import to_svg
from counterhoop.papers.template import template_drawings, template_pdf
from counterhoop.scheme.layout import Layout

LAYOUT = small_tom()
MARK = (21, 25, 12)  # three holes that no mirror maps on themselves
NEAR_MM = 0.02


def wrapped(points: dict[int, tuple[float, float]], layout: Layout) -> dict[int, np.ndarray]:
    """Roll paper (right, down from the batter edge) on to the shell, small steps to the right.

    One stands outside, looks at the axis, with up along it: right is looking x up.
    """
    radius, depth = layout.flat.surface.radius_mm, layout.flat.depth_mm
    up = np.array([0.0, 0.0, 1.0])
    found = {}
    for name, (right, down) in points.items():
        out = np.array([1.0, 0.0, 0.0])  # at the datum
        steps = 2000
        for _ in range(steps):
            hand = np.cross(-out, up)
            out = out + hand * (right / radius / steps)
            out /= np.linalg.norm(out)
        found[name] = radius * out + up * (depth - down)
    return found


def surveyed(layout: Layout) -> dict[int, np.ndarray]:
    """Where the survey has the holes in space."""
    return {
        plan.number: np.array(
            on_cylinder(plan.place, surface=layout.flat.surface, depth_mm=layout.flat.depth_mm)
        )
        for plan in layout.holes
        if plan.number in MARK
    }


def worst_mm(points: dict[int, tuple[float, float]], layout: Layout = LAYOUT) -> float:
    """Largest distance in space between what was drawn and what was surveyed."""
    there = surveyed(layout)
    rolled = wrapped({number: points[number] for number in MARK}, layout)
    return max(float(np.linalg.norm(rolled[number] - there[number])) for number in MARK)


def from_svg(svg: str) -> dict[int, tuple[float, float]]:
    """Centres of holes by the ids that the writer gave them."""
    root = ET.fromstring(svg)
    return {
        int(item.get("id", "").split("-")[1]): (float(item.get("cx")), float(item.get("cy")))
        for item in root.iter("{http://www.w3.org/2000/svg}circle")
        if item.get("id", "").startswith("hole-") and item.get("id", "").count("-") == 1
    }


def from_dxf(dxf: bytes, layout: Layout) -> dict[int, tuple[float, float]]:
    """Centres of circles nearest to each hole; y is up in DXF, so down = depth - y."""
    document = ezdxf.read(io.StringIO(dxf.decode()))
    depth = layout.flat.depth_mm
    circles = [
        (c.dxf.center.x, depth - c.dxf.center.y)
        for c in document.modelspace().query("CIRCLE")
        if 0 <= c.dxf.center.y <= depth
    ]
    # which circle is which is told by the text of its number, the nearest one to it
    found = {}
    for text in document.modelspace().query('TEXT[layer=="NUMBER"]'):
        x, y = text.dxf.insert.x, depth - text.dxf.insert.y
        near = min(circles, key=lambda c: math.hypot(c[0] - x, c[1] - y))
        found.setdefault(int(text.dxf.text), near)
    return found


def from_pdf(pdf: bytes, layout: Layout, drawings: object) -> dict[int, tuple[float, float]]:
    """Centres of holes on the sheets, told apart by their size and nearest height."""
    sheets = read_template(pdf, drawings)
    found = {}
    for plan in layout.holes:
        if plan.number in MARK:
            size = plan.new.size_mm[0]
            marks = [
                (x, y)
                for sheet in sheets
                for x, y, w, _ in sheet.marks
                if abs(w - size) < 0.02 and abs(y - plan.place.down_mm) < 1.0
            ]
            expected = layout.flat.surface.along_mm(plan.place.along_deg)
            found[plan.number] = min(marks, key=lambda m: abs(m[0] - expected))
    return found


def mirrored(drawing: Drawing) -> Drawing:
    """The drawing as a careless writer would give it: x runs the other way."""
    span = 2 * drawing.left_mm + drawing.width_mm
    return replace(
        drawing,
        strokes=tuple(
            replace(s, x_mm=span - s.x_mm) if isinstance(s, Circle) else s for s in drawing.strokes
        ),
    )


def upside_down(drawing: Drawing) -> Drawing:
    """The drawing with y running the other way between the edges."""
    return replace(
        drawing,
        strokes=tuple(
            replace(s, y_mm=drawing.depth_mm - s.y_mm) if isinstance(s, Circle) else s
            for s in drawing.strokes
        ),
    )


def test_svg_rolls_up_to_the_survey() -> None:
    assert worst_mm(from_svg(to_svg(draw_flat(LAYOUT)))) < NEAR_MM


def test_dxf_rolls_up_to_the_survey() -> None:
    assert worst_mm(from_dxf(to_dxf(draw_flat(LAYOUT)), LAYOUT)) < NEAR_MM


def test_pdf_rolls_up_to_the_survey() -> None:
    scheme = scheme_of(LAYOUT)
    pdf = template_pdf(scheme, JobFacts(job="17"))
    assert worst_mm(from_pdf(pdf, LAYOUT, template_drawings(scheme))) < NEAR_MM


@pytest.mark.parametrize("wrong", [mirrored, upside_down])
def test_a_mirrored_writer_is_caught(wrong: object) -> None:
    points = from_svg(to_svg(wrong(draw_flat(LAYOUT))))
    assert worst_mm(points) > 5.0


@pytest.mark.parametrize("wrong", [mirrored, upside_down])
def test_the_sense_of_a_mark_tells_a_mirror_wherever_it_lies(wrong: object) -> None:
    def sense(drawing: Drawing) -> float:
        points = wrapped({n: p for n, p in from_svg(to_svg(drawing)).items() if n in MARK}, LAYOUT)
        return handedness([tuple(points[n]) for n in MARK])

    asked = handedness([tuple(surveyed(LAYOUT)[n]) for n in MARK])
    assert math.copysign(1, sense(draw_flat(LAYOUT))) == math.copysign(1, asked)
    assert math.copysign(1, sense(wrong(draw_flat(LAYOUT)))) != math.copysign(1, asked)


def test_texts_are_not_mirrored_in_dxf() -> None:
    document = ezdxf.read(io.StringIO(to_dxf(draw_flat(LAYOUT)).decode()))
    for text in document.modelspace().query("TEXT"):
        assert text.dxf.get("text_generation_flag", 0) == 0
        assert text.dxf.extrusion.z == 1.0
    batter = next(t for t in document.modelspace().query("TEXT") if t.dxf.text == "BATTER EDGE")
    resonant = next(t for t in document.modelspace().query("TEXT") if t.dxf.text == "RESONANT EDGE")
    assert batter.dxf.insert.y > LAYOUT.flat.depth_mm > 0 > resonant.dxf.insert.y
