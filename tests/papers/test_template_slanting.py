"""A shell whose edges end out of parallel: hole list, PDF, SVG and DXF, measured from the planes.

Case A (invented): 203.0 deep, six lugs with holes 41.0 and 83.0 from their edge. What is read back
is rolled up again and measured from the plane of the trued edge in space.
"""

from __future__ import annotations

import io
import math
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import ezdxf
import numpy as np
import pypdfium2 as pdfium
import pytest
from pdf_paths import page_paths
from pdf_template import read_template, worst_hole_mm

from counterhoop.bench.open_job import open_job
from counterhoop.development.cylinder import on_cylinder
from counterhoop.development.place import Place
from counterhoop.development.truing import Removal, Truing
from counterhoop.papers.drawing.around import between_edges
from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.records import Line
from counterhoop.papers.drawing.records import Path as Drawn
from counterhoop.papers.drawing.shell_flat import draw_as_found, draw_flat
from counterhoop.papers.dxf import to_dxf
from counterhoop.papers.job_facts import JobFacts
from counterhoop.papers.svg import to_svg
from counterhoop.papers.template import template_drawings, template_pdf
from counterhoop.scheme.schemes import schemes_for
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.wish import FinishPlan, Pattern, SecondHead

CASE = Path(__file__).parents[1] / "cases" / "a_corvane.toml"
FACTS = JobFacts(job="17", client="A. Client", drum="Corvane tom")
TRUINGS = {
    "resonant": (Truing(resonant=Removal(1.0, 1.0)), (41.0, 83.0)),
    "batter": (Truing(batter=Removal(1.0, 1.0)), (40.0, 82.0)),
    "both, parallel": (
        Truing(batter=Removal(1.0, 1.0), resonant=Removal(2.0, -1.0)),
        (40.0, 82.0),
    ),
    "both, not parallel": (
        Truing(batter=Removal(1.0, 1.0), resonant=Removal(2.0, 0.3, 1.0)),
        (40.0, 82.0),
    ),
}


def planned(truing: Truing):
    opened = open_job(CASE)
    (wanted,) = opened.job.drums
    wanted = replace(
        wanted,
        wishes=(SecondHead(patterns=(Pattern.IN_LINE,)),),
        finish=FinishPlan(truing=truing),
    )
    return schemes_for(wanted, shop=opened.shop).every[0]


@pytest.fixture(scope="module", params=TRUINGS)
def case(request):
    truing, heights = TRUINGS[request.param]
    return planned(truing), heights


def above_resonant_plane_mm(layout, along_mm: float, down_mm: float) -> float:
    """Distance of what is printed at a place from the plane of the trued resonant edge."""
    surface, off = layout.flat.surface, layout.truing.resonant
    place = Place(surface.along_deg(along_mm), down_mm)
    as_found = Place(place.along_deg, down_mm + layout.truing.batter.at_mm(place.along_deg))
    point = np.array(on_cylinder(as_found, surface=surface, depth_mm=layout.drum.depth_mm))
    normal = np.array([-off.cos_mm / surface.radius_mm, -off.sin_mm / surface.radius_mm, 1.0])
    return float((point @ normal - off.mean_mm) / np.linalg.norm(normal))


def new_holes(layout):
    surface = layout.flat.surface
    return [
        (surface.along_mm(p.place.along_deg), p.place.down_mm, p.new.size_mm[0])
        for p in layout.holes
        if p.verdict is Verdict.DRILL
    ]


def heights_told(layout, places, heights):
    """Every new hole's mark, by its distance from the plane; the nearer height of the two."""
    lower, upper = heights
    found = [above_resonant_plane_mm(layout, x, y) for x, y in places]
    assert len(found) == 12
    assert sum(abs(h - lower) < 20.0 for h in found) == 6
    return max(min(abs(h - lower), abs(h - upper)) for h in found)


def test_the_hole_list_lies_where_the_plane_has_it(case):
    scheme, heights = case
    places = [(x, y) for x, y, _ in new_holes(scheme.layout)]
    assert heights_told(scheme.layout, places, heights) < 0.01


@pytest.mark.parametrize("paper", ["A4", "roll"])
def test_the_template_puts_it_there_too(case, paper):
    scheme, heights = case
    layout = scheme.layout
    sheets = read_template(
        template_pdf(scheme, FACTS, paper=paper), template_drawings(scheme, paper=paper)
    )
    assert worst_hole_mm(sheets, layout) < 0.02
    places = []
    for along, down, size in new_holes(layout):
        marks = [
            (x, y)
            for sheet in sheets
            for x, y, w, h in sheet.marks
            if abs(w - size) < 0.02 and abs(h - size) < 0.02
        ]
        places.append(min(marks, key=lambda at: math.hypot(at[0] - along, at[1] - down)))
    assert heights_told(layout, places, heights) < 0.03


def test_a_template_with_heights_from_before_truing_is_seen():
    """The comparator can fail: one hole drawn where the depth as found would have it."""
    truing, heights = TRUINGS["resonant"]
    layout = planned(truing).layout
    places = [(x, y) for x, y, _ in new_holes(layout)]
    x, y = places[0]
    assert heights_told(layout, [(x, y + 2.0), *places[1:]], heights) == pytest.approx(
        2.0, abs=0.01
    )


def edge_by_law(layout, x: float) -> float:
    """Depth as found less what comes off both ends, in plain cosines."""
    a = 2.0 * math.pi * x / layout.flat.surface.circumference_mm
    ends = (layout.truing.batter, layout.truing.resonant)
    off = sum(e.mean_mm + e.cos_mm * math.cos(a) + e.sin_mm * math.sin(a) for e in ends)
    return layout.drum.depth_mm - off


def worst_edge_mm(layout, points) -> float:
    """The middle of each chord too: there it is farthest from the wave."""
    middles = [((a + c) / 2, (b + d) / 2) for (a, b), (c, d) in pairwise(points)]
    return max(abs(y - edge_by_law(layout, x)) for x, y in (*points, *middles))


def test_the_resonant_edge_is_drawn_where_it_will_be(case):
    scheme, _ = case
    layout = scheme.layout
    strokes = draw_flat(layout).strokes
    (batter,) = (s for s in strokes if getattr(s, "ident", "") == "batter-edge")
    assert isinstance(batter, Line)
    assert batter.y1_mm == batter.y2_mm == 0.0
    (edge,) = (s for s in strokes if getattr(s, "ident", "") == "resonant-edge")
    if layout.flat.swings_mm()[1] < 0.05:
        assert isinstance(edge, Line)
        assert (edge.y1_mm, edge.y2_mm) == pytest.approx((200.0, 200.0))
        return
    assert isinstance(edge, Drawn)
    assert worst_edge_mm(layout, edge.points) < 0.002


def test_svg_and_dxf_and_pdf_hold_the_same_edge():
    layout = planned(TRUINGS["both, not parallel"][0]).layout
    drawing = draw_flat(layout)
    root = ET.fromstring(to_svg(drawing))
    path = next(e for e in root.iter() if e.get("id") == "resonant-edge")
    corners = path.get("d").replace("M", "").split("L")
    assert worst_edge_mm(layout, [tuple(map(float, c.split())) for c in corners]) < 0.002

    document = ezdxf.read(io.StringIO(to_dxf(drawing).decode()))
    lines = document.modelspace().query('LWPOLYLINE[layer=="OUTLINE"]')
    line = max(lines, key=len)
    points = [(x, layout.flat.depth_mm - y) for x, y, *_ in line.get_points()]
    assert worst_edge_mm(layout, points) < 0.002

    scheme = planned(TRUINGS["both, not parallel"][0])
    pdf = pdfium.PdfDocument(io.BytesIO(template_pdf(scheme, FACTS, paper="roll")))
    made = template_drawings(scheme, paper="roll")
    tile = made.tiling.tiles[0]
    left, top = made.tiling.on_sheet(tile, 0.0, 0.0)
    waves = [p for p in page_paths(pdf[1]) if not p.curves and len(p.points) > 60]
    wave = max(waves, key=lambda p: p.middle[1])
    assert worst_edge_mm(layout, [(x - left, y - top) for x, y in wave.points]) < 0.02


def test_every_sheet_holds_its_part_of_the_edge():
    """The deepest place, 1.6 mm below the mean, lies on the last row of sheets too."""
    scheme = planned(TRUINGS["both, not parallel"][0])
    made = template_drawings(scheme, paper="A4")
    deepest = scheme.layout.flat.depths_mm()[1]
    bottom = max(tile.bottom_mm for tile in made.tiling.tiles)
    assert bottom > deepest
    covered = 0.0
    for tile, drawing in zip(made.tiling.tiles, made.drawings, strict=True):
        if not tile.last_row:
            continue
        (edge,) = (s for s in drawing.strokes if getattr(s, "ident", "") == "resonant-edge")
        box = extent_box(edge)
        assert box[0] <= tile.left_mm
        assert box[2] >= min(
            tile.right_mm, made.tiling.start_mm + scheme.layout.flat.surface.circumference_mm
        )
        assert box[3] < tile.bottom_mm
        covered += tile.joint_right_mm - tile.left_mm
    assert covered == pytest.approx(scheme.layout.flat.surface.circumference_mm)


def test_the_drum_as_found_shows_its_own_slant():
    opened = open_job(CASE)
    drum = replace(opened.job.drums[0].drum, depth_cos_mm=1.5)
    strokes = draw_as_found(drum, book=opened.shop.book).strokes
    (edge,) = (s for s in strokes if getattr(s, "ident", "") == "resonant-edge")
    assert max(y for _, y in edge.points) == pytest.approx(204.5, abs=0.01)
    assert min(y for _, y in edge.points) == pytest.approx(201.5, abs=0.01)


def test_an_outline_is_cut_where_the_slanting_edge_is():
    # The edge falls from 100 at x = 0 to 98 at x = 4: the corner at 110 goes.
    cut = between_edges(
        ((0.0, 90.0), (4.0, 90.0), (4.0, 110.0), (0.0, 110.0)),
        depth_at_mm=lambda x: 100.0 - x / 2.0,
    )
    assert cut == ((0.0, 90.0), (4.0, 90.0), (4.0, 98.0), (0.0, 100.0))
