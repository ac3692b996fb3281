"""The truing sheet: strips and sections to scale, stations, heights that move, what it warns of."""

from __future__ import annotations

import io
import math
import re
from dataclasses import replace
from itertools import combinations, pairwise

import pypdfium2 as pdfium
import pytest
from documents import words
from example_truing import BUDGETS, ROUND, SIXTEEN, TINY, snare, tom
from pypdf import PdfReader

from counterhoop.development.truing import Removal, Truing
from counterhoop.papers.drawing.bed_strip import draw_bed
from counterhoop.papers.drawing.edge_section import SCALE, draw_section
from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.hatch import flattened
from counterhoop.papers.drawing.lettering import box_of
from counterhoop.papers.drawing.records import Circle, Line, Path, Text
from counterhoop.papers.drawing.strip import factor_for
from counterhoop.papers.drawing.truing_strip import HIGH_MM, WIDE_MM, cut_strip, draw_cut
from counterhoop.papers.facts import Lengths
from counterhoop.papers.truing_heights import moved_lines
from counterhoop.papers.truing_sheet import truing_data, truing_sheet_pdf
from counterhoop.scheme.budget import Budget
from counterhoop.shell.drum import Bed, Material, OldFinish
from counterhoop.shell.readings import CUTS, EndReadings, ProfileRead, Readings
from counterhoop.survey.edge_profile import edge_profile
from counterhoop.survey.edge_profile_contact import film_contact
from counterhoop.survey.flat_heights import EdgeHeights
from counterhoop.survey.truing_plan import plan_truing

YES = "by A. Player on 5 March 2026, signed at the bench"
CASES = {"tom": tom, "snare": snare, "tiny": lambda: tom(TINY, profile=None)}
CASES["wedge"] = lambda: tom(TINY, wedge_mm=3.0)


def pdf_of(name, **changes):
    job, scheme, plan = CASES[name]()
    return truing_sheet_pdf(replace(job, **changes), scheme, plan, budgets=BUDGETS)


def data_of(name):
    job, scheme, plan = CASES[name]()
    return truing_data(job, scheme, plan, budgets=BUDGETS)[0]


@pytest.mark.parametrize("name", CASES)
def test_the_sheet_is_tagged_titled_and_prints_at_actual_size(name):
    """ISO 14289-1 (PDF/UA-1) and ISO 32000-1, table 150."""
    pdf = pdf_of(name)
    root = PdfReader(io.BytesIO(pdf)).trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert root["/MarkInfo"]["/Marked"]
    assert b"pdfuaid" in root["/Metadata"].get_data()
    assert pdf == pdf_of(name)
    assert pdf != pdf_of(name, client="Somebody Else")
    assert len(pdfium.PdfDocument(pdf)) <= 3
    assert "Truing sheet" in words(pdf)


def test_it_says_draft_until_somebody_has_said_yes():
    job, scheme, plan = tom()
    assert "DRAFT" in words(truing_sheet_pdf(job, scheme, plan))
    agreed = truing_sheet_pdf(job, replace(scheme, approved=YES), plan)
    assert "DRAFT" not in words(agreed)


def drawn(name, end):
    _, scheme, plan = CASES[name]()
    cut = getattr(plan, end)
    return cut, scheme, draw_cut(cut, surface=scheme.layout.flat.surface, resolution_mm=0.05)


@pytest.mark.parametrize(
    ("name", "end", "sign"),
    [("tom", "batter", -1), ("snare", "resonant", 1), ("wedge", "batter", -1)],
)
def test_a_dot_lies_at_its_station_and_as_high_as_the_wood_that_goes(name, end, sign):
    """By the definition of the strip: along C / 360, off the new edge by the factor it names."""
    cut, scheme, drawing = drawn(name, end)
    around = scheme.layout.flat.surface.circumference_mm
    zero = next(s for s in drawing.strokes if isinstance(s, Line) and s.ident == f"new-cut-{end}")
    factor = float(re.search(r"1 mm is (\S+) mm here", drawing.says)[1])
    dots = {s.ident: s for s in drawing.strokes if isinstance(s, Circle)}
    for number, (along, off) in enumerate(zip(cut.along_deg, cut.removal_mm, strict=True), 1):
        dot = dots[f"strip-cut-{end}-{number}"]
        assert dot.x_mm == pytest.approx(along * around / 360.0)
        on_paper = (dot.y_mm - zero.y1_mm) * drawing.scale
        assert on_paper == pytest.approx(sign * off * factor)
    assert drawing.width_mm * drawing.scale == pytest.approx(WIDE_MM)
    assert max(cut.removal_mm) * factor <= HIGH_MM


def test_what_is_hatched_is_the_wood_that_comes_off():
    """Independent: once round, trapezium by trapezium from station to station."""
    cut, scheme, drawing = drawn("snare", "batter")
    around = scheme.layout.flat.surface.circumference_mm
    wood = next(s for s in drawing.strokes if isinstance(s, Path) and s.ident == "wood-cut-batter")
    factor = factor_for(cut_strip(cut, resolution_mm=0.05), high_mm=HIGH_MM)
    offs = cut.removal_mm
    once = sum((a + b) / 2.0 for a, b in zip(offs, (*offs[1:], offs[0]), strict=True))
    once *= around / len(offs) * factor / drawing.scale
    zero = wood.points[0][1]
    inside = [p for p in wood.points[1:-1] if -1e-6 <= p[0] <= around + 1e-6]
    area = sum((x2 - x1) * (2.0 * zero - y1 - y2) / 2.0 for (x1, y1), (x2, y2) in pairwise(inside))
    assert area == pytest.approx(once)
    assert wood.hatched


def drawings():
    made = []
    for name, end in (
        ("tom", "batter"),
        ("snare", "batter"),
        ("snare", "resonant"),
        ("wedge", "batter"),
    ):
        _, scheme, plan = CASES[name]()
        lugs = [(f"lug {n + 1}", 36.0 * n) for n in range(10)]
        made.append(
            draw_cut(
                getattr(plan, end), surface=scheme.layout.flat.surface, resolution_mm=0.05,
                lugs=lugs,
            )
        )  # fmt: skip
    for wall, ring in ((4.0, 0.0), (5.0, 4.0), (9.0, 5.0)):
        for cut in CUTS:
            profile = edge_profile(
                ProfileRead(cut=cut), wall_mm=wall, ring_mm=ring, ring_wide_mm=30.0, plies=5
            )
            contact = film_contact(profile, bare_mm=300.0, collar_mm=303.0)
            made.append(draw_section(profile, says="", title=cut, ring_mm=ring, contact=contact))
    for wide, flat, deep, off in (
        (180.0, 60.0, 3.0, 0.3),
        (60.0, 0.0, 1.0, 1.0),
        (260.0, 200.0, 5.0, 0.0),
    ):
        bed = Bed(along_deg=0.0, wide_mm=wide, flat_mm=flat, deep_mm=deep)
        made.append(draw_bed(bed, off_mm=off, says="", title=f"bed {wide:g}"))
    return made


@pytest.mark.parametrize("drawing", drawings(), ids=lambda d: d.title)
def test_no_word_stands_on_another_or_outside_the_drawing(drawing):
    texts = [(s, box_of(s)) for s in drawing.strokes if isinstance(s, Text)]
    right, bottom = drawing.left_mm + drawing.width_mm, drawing.top_mm + drawing.height_mm
    for stroke in drawing.strokes:
        box = extent_box(stroke)
        assert drawing.left_mm - 1e-6 <= box[0], stroke
        assert box[2] <= right + 1e-6, stroke
        assert drawing.top_mm - 1e-6 <= box[1], stroke
        assert box[3] <= bottom + 1e-6, stroke
    for (one, a), (other, b) in combinations(texts, 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        assert apart, (one.text, other.text)


def test_a_section_is_the_profile_itself_four_times_as_large():
    profile = edge_profile(ROUND, wall_mm=5.0, ring_mm=4.0, ring_wide_mm=32.0, plies=6)
    drawing = draw_section(profile, says="", title="", ring_mm=4.0)
    section = next(s for s in drawing.strokes if isinstance(s, Path))
    assert section.points[1:-1] == profile.points
    assert section.bulges[1:-2] == profile.bulges
    assert drawing.scale == SCALE == 4.0
    # The arc as a pen draws it: 3 mm about (3, 3), by hand.
    for x, y in flattened(section.points, section.bulges):
        if x < 2.999 and y < 2.999:
            assert math.hypot(x - 3.0, y - 3.0) == pytest.approx(3.0)
    assert len([p for p in flattened(section.points, section.bulges) if p[0] < 2.999]) > 20


def test_every_station_has_what_comes_off_and_where_its_tick_stands():
    # By hand: gaps 0, 0.3, 0, 0.3 leave 0.3 to come off at 1 and 3; the plane goes down 0.3 all
    # round, so that ticks stand 10.3 above the plate. 950.65 round: 237.66 mm from one to the next.
    job, scheme, plan = tom((0.0, 0.3, 0.0, 0.3))
    edge = truing_data(job, scheme, plan)[0]["edges"][0]
    rows = [station for line in edge["lines"] for station in line]
    assert [r["off"] for r in rows] == ["0.3", "0", "0.3", "0"]
    assert [r["tick"] for r in rows] == ["10.3"] * 4
    assert [r["along"] for r in rows] == ["0", "237.5", "475.5", "713"]
    assert edge["tick"] == "tick above plate"
    assert edge["says"] == (
        "Most comes off at stations 1 and 3: 0.3 mm; on average 0.15 mm. Nothing at stations 2"
        " and 4."
    )


def test_heights_by_gauge_have_their_ticks_below_the_edge():
    job, scheme, _ = tom()
    edge = EdgeHeights(
        along_deg=(0.0, 90.0, 180.0, 270.0), height_mm=(0.4, 0.0, 0.4, 0.0), resolution_mm=0.1
    )
    edge = truing_data(job, scheme, plan_truing(batter=edge))[0]["edges"][0]
    rows = [station for line in edge["lines"] for station in line]
    assert edge["tick"] == "tick below edge"
    assert [r["tick"] for r in rows] == ["10.4", "10.0", "10.4", "10.0"]


def test_sixteen_stations_stand_in_two_lines_and_all_are_printed():
    said = words(pdf_of("snare"))
    for edge in data_of("snare")["edges"]:
        assert [len(line) for line in edge["lines"]] == [8, 8]
        for line in edge["lines"]:
            assert " ".join(s["off"] for s in line) in said
    assert len(SIXTEEN) == 16


@pytest.mark.parametrize("name", CASES)
def test_nothing_is_printed_finer_than_its_instrument(name):
    """Common practice, no source: a feeler 0.05, a caliper 0.1, a rule 0.5."""
    for edge in data_of(name)["edges"]:
        for station in (s for line in edge["lines"] for s in line):
            for key, step in (("off", 0.05), ("tick", 0.1), ("along", 0.5)):
                steps = float(station[key]) / step
                assert steps == pytest.approx(round(steps), abs=1e-9)
    assert not re.search(r"\d\.\d\d\d", words(pdf_of(name)))


def test_heights_that_move_are_worked_on_the_drums_own_holes():
    """By hand: 2 mm off at the datum, nothing opposite: 1 + cos(along) mm at any place."""
    _, scheme, _ = tom()
    truing = Truing(batter=Removal(1.0, 1.0, 0.0))
    lines = moved_lines(replace(scheme.layout, truing=truing), ends=["batter"], say=Lengths())
    worked = [
        re.fullmatch(
            r"Hole (\d+) at (\S+) degrees, (\S+) mm from the batter edge as found: the plane goes"
            r" down (\S+) mm there, so it is then at (\S+) mm\.",
            line,
        )
        for line in lines[1:]
    ]
    assert len(worked) == 2
    for found in worked:
        number, along, before, down, after = (float(v) for v in found.groups())
        hole = scheme.layout.drum.hole(int(number))
        assert before == pytest.approx(hole.place.down_mm, abs=0.051)
        off = 1.0 + math.cos(math.radians(hole.place.along_deg))
        assert along == pytest.approx(hole.place.along_deg, abs=0.051)
        assert down == pytest.approx(off, abs=0.051)
        assert after == pytest.approx(hole.place.down_mm - off, abs=0.051)
    assert float(worked[0][4]) > float(worked[1][4])


def test_from_the_resonant_edge_the_depth_there_counts():
    """By hand: 203 deep and 1.5 more at the datum; 0.5 comes off all round."""
    _, scheme, _ = tom(wedge_mm=3.0)
    layout = replace(scheme.layout, truing=Truing(resonant=Removal(0.5)))
    line = moved_lines(layout, ends=["resonant"], say=Lengths())[1]
    number, before = re.match(
        r"Hole (\d+) at \S+ degrees, (\S+) mm from the resonant", line
    ).groups()
    hole = layout.drum.hole(int(number))
    deep = 203.0 + 1.5 * math.cos(math.radians(hole.place.along_deg))
    assert float(before) == pytest.approx(deep - hole.place.down_mm, abs=0.051)


def test_the_budget_says_what_stops_it_and_what_comes_next():
    rows = data_of("tom")["budgets"]
    assert rows[0] == {
        "edge": "batter", "planned": "0.3 mm", "could": "3.5 mm", "stopped": "hole 9 to the edge",
        "then": "the ring at 24 mm", "unknown": "",
    }  # fmt: skip
    assert rows[1]["planned"] == "nothing"
    assert "hole 9 to the edge" in words(pdf_of("tom"))


def test_what_comes_off_the_other_edge_by_a_plain_length_is_planned_too():
    job, scheme, plan = tom()
    for off, said in ((1.5, "1.5 mm"), (60.0, "cut off")):
        layout = replace(scheme.layout, truing=replace(scheme.layout.truing, resonant=Removal(off)))
        told = Budget(end="resonant", most_mm=4.0, stopped_by="the ring", limits=())
        data, _ = truing_data(job, replace(scheme, layout=layout), plan, budgets=(told,))
        assert data["budgets"][0]["planned"] == said


def test_depths_are_said_where_they_differ():
    assert data_of("tom")["depth"] == (
        "Depth before truing 203 mm all round; after it 202.5 mm all round."
    )
    # By hand: 3 mm deeper at the datum than opposite, and made parallel.
    assert data_of("wedge")["depth"] == (
        "Depth before truing 204.5 mm at 0 degrees, 201.5 mm at 180 degrees; after it 201.5 mm all"
        " round."
    )


def test_more_than_a_millimetre_is_brought_down_before_the_plate():
    assert any("bring the high side down first" in step for step in data_of("wedge")["steps"])
    assert not any("bring the high side" in step for step in data_of("tom")["steps"])
    assert "Never freehand" in data_of("tom")["steps"][-1]
    assert "Beds last" in data_of("snare")["steps"][-1]


def test_beds_alike_are_drawn_once_and_say_what_truing_leaves():
    """By hand: 3 deep over ramps of 60 mm; the bed's middle is station 2 of 16."""
    job, scheme, plan = snare()
    beds = truing_data(job, scheme, plan)[0]["beds"]
    assert [b["name"] for b in beds] == ["Snare beds at 22.5 degrees and 202.5 degrees"]
    assert "ramps 1 in 20; your rule is 1 in 20 at most" in beds[0]["lines"][0]
    left = 3.0 - plan.resonant.removal_mm[1]
    line = beds[0]["lines"][1]
    deep, wide = re.search(r"then it is (\S+) mm deep and (\S+) mm wide", line).groups()
    assert float(deep) == pytest.approx(left, abs=0.051)
    assert float(wide) == pytest.approx(60.0 + 120.0 * left / 3.0, abs=0.26)


def test_an_edge_whose_cut_nobody_read_says_how_to_take_it():
    part = data_of("tiny")["sections"][0]
    assert part["image"] == ""
    assert "on a card before the first stroke" in part["lines"][0]


def test_edges_cut_alike_are_drawn_once():
    job, scheme, plan = snare()
    data, images = truing_data(job, scheme, plan)
    assert [p["name"] for p in data["sections"]] == [
        "Both edges: round-over and 45 inside, as found and to be cut again"
    ]
    assert [name for name in images if name.startswith("section")] == ["section-batter"]
    ends = scheme.layout.drum.readings
    other = replace(ends.resonant, profile=ProfileRead(cut="30", apex_mm=2.0))
    drum = replace(scheme.layout.drum, readings=replace(ends, resonant=other))
    scheme = replace(scheme, layout=replace(scheme.layout, drum=drum))
    assert len(truing_data(job, scheme, plan)[0]["sections"]) == 2


def test_a_shell_that_is_not_of_wood_is_not_told_to_sand():
    job, scheme, plan = tom()
    drum = replace(scheme.layout.drum, material=Material.METAL)
    scheme = replace(scheme, layout=replace(scheme.layout, drum=drum))
    data = truing_data(job, scheme, plan)[0]
    assert data["steps"] == data["sections"] == data["cautions"] == []
    assert "is for wood" in data["other-material"]
    said = words(truing_sheet_pdf(job, scheme, plan))
    assert "This shell is metal" in said
    assert "Take care" not in said


def test_beds_that_go_with_an_offcut_are_not_on_the_sheet():
    """60 mm are sawn off the end with the beds; the batter edge alone is trued."""
    job, scheme, plan = snare()
    sawn = Truing(batter=plan.truing.batter, resonant=Removal(60.0))
    scheme = replace(scheme, layout=replace(scheme.layout, truing=sawn))
    data, images = truing_data(job, scheme, replace(plan, resonant=None))
    assert data["beds"] == []
    assert not any(name.startswith("bed") for name in images)
    assert "Beds last" not in data["steps"][-1]


def test_cautions_of_edge_and_bed_stand_on_it_with_their_sources():
    job, scheme, plan = snare()
    drum = replace(scheme.layout.drum, finish=OldFinish(kind="wrap", maybe_nitrate=True))
    scheme = replace(scheme, layout=replace(scheme.layout, drum=drum))
    said = words(truing_sheet_pdf(job, scheme, plan))
    for wanted in (
        "Hardwood dust harms", "never cut freehand", "may be cellulose nitrate", "INDG469",
        "The rules of your place",
    ):  # fmt: skip
        assert wanted in said, wanted


def test_inches_stand_beside_where_the_person_reads_inches():
    """Exact: 0.3 mm is 0.0118 in; a feeler in inches is marked in thousandths."""
    job, scheme, plan = tom((0.0, 0.3, 0.0, 0.3))
    said = words(truing_sheet_pdf(replace(job, units="in"), scheme, plan))
    assert "take off, in .012 .000 .012 .000" in said
    assert "take off, in" not in words(pdf_of("tom"))


def test_a_drum_without_holes_or_head_still_has_its_sheet():
    job, scheme, plan = tom()
    bare = EndReadings(end="batter", edge=scheme.layout.drum.readings.batter.edge, profile=ROUND)
    drum = replace(scheme.layout.drum, holes=(), rings=(), readings=Readings(batter=bare))
    scheme = replace(scheme, layout=replace(scheme.layout, drum=drum, holes=(), fittings=()))
    data = truing_data(job, scheme, plan)[0]
    assert len(data["moved"]) == 1
    assert not any("head lies" in line for line in data["sections"][0]["lines"])
    assert truing_sheet_pdf(job, scheme, plan)
