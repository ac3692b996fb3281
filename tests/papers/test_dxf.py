"""The DXF: read back by ezdxf, audited, true, in millimetres."""

from __future__ import annotations

import io
import math
import os
import re
import subprocess
import sys
from pathlib import Path

import ezdxf
import pytest
from example_shells import small_tom
from ezdxf import bbox, units

from counterhoop.papers.drawing.hatch import circle_hatch, path_hatch
from counterhoop.papers.drawing.shell_flat import draw_flat
from counterhoop.papers.dxf import to_dxf
from counterhoop.scheme.verdict import Verdict

LAYOUT = small_tom()
DEPTH = LAYOUT.flat.depth_mm


@pytest.fixture(scope="module")
def document() -> object:
    return ezdxf.read(io.StringIO(to_dxf(draw_flat(LAYOUT)).decode()))


def test_the_audit_finds_nothing(document) -> None:
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])


def test_units_are_millimetres_and_no_dimension_can_mislead(document) -> None:
    assert document.units == units.MM
    assert document.header["$INSUNITS"] == 4
    assert document.header["$MEASUREMENT"] == 1
    assert document.header["$DIMLFAC"] == 1.0
    assert len(document.modelspace().query("DIMENSION")) == 0


def test_every_hole_is_where_the_model_has_it_on_its_verdicts_layer(document) -> None:
    for plan in LAYOUT.holes:
        place, shape = plan.new_place or plan.place, plan.new or plan.old
        layer = plan.verdict.value.replace(" ", "-").upper()
        x, y = LAYOUT.flat.surface.along_mm(place.along_deg), DEPTH - place.down_mm
        best = math.inf
        for entity in document.modelspace().query(f'CIRCLE LWPOLYLINE[layer=="{layer}"]'):
            if entity.dxftype() == "CIRCLE":
                middle, size = entity.dxf.center, (2 * entity.dxf.radius,) * 2
            else:
                box = bbox.extents([entity], fast=False)
                middle, size = box.center, (box.size.x, box.size.y)
            if size == pytest.approx(shape.size_mm, abs=0.02):
                best = min(best, math.hypot(middle.x - x, middle.y - y))
        assert best < 0.02, plan


def test_a_slot_is_a_stadium_and_not_a_bow_tie(document) -> None:
    (slot,) = (
        e for e in document.modelspace().query('LWPOLYLINE[layer=="SLOT"]') if e.dxf.flags & 1
        if 0 < next(iter(e.get_points()))[1] < DEPTH
    )  # fmt: skip
    box = bbox.extents([slot])
    assert (box.size.x, box.size.y) == pytest.approx((9.0, 6.0), abs=0.01)
    plan = next(p for p in LAYOUT.holes if p.verdict is Verdict.SLOT)
    assert plan.new.size_mm == (9.0, 6.0)


def test_the_same_drawing_gives_the_same_bytes() -> None:
    assert to_dxf(draw_flat(LAYOUT)) == to_dxf(draw_flat(small_tom()))


def entities(text: str) -> str:
    return text.partition("  2\nENTITIES\n")[2].partition("  0\nENDSEC\n")[0]


def test_every_entity_is_written_as_ezdxf_itself_writes_it(document) -> None:
    """An independent writer: what was read back is written again by ezdxf, tag for tag."""
    again = io.StringIO()
    document.write(again)
    ours = entities(to_dxf(draw_flat(LAYOUT)).decode())
    assert {"LINE", "CIRCLE", "LWPOLYLINE", "TEXT"} <= set(ours.splitlines())
    assert entities(again.getvalue()) == ours


def test_no_entity_shares_its_handle(document) -> None:
    """The handles of entities, and the next one free, do not clash with ezdxf's own."""
    text = to_dxf(draw_flat(LAYOUT)).decode()
    used = re.findall(r"^  5\n([0-9A-F]+)$", text, re.MULTILINE)
    ours = re.findall(r"^  5\n([0-9A-F]+)$", entities(text), re.MULTILINE)
    assert len(ours) == len(document.modelspace())
    assert all(used.count(handle) == 1 for handle in ours[:3] + ours[-3:])
    assert len(set(ours)) == len(ours)
    assert int(document.header["$HANDSEED"], 16) > max(int(handle, 16) for handle in ours)


def test_other_programs_write_the_same_bytes() -> None:
    """Python shuffles its sets anew in every program; no list of the file may depend on it."""
    code = (
        "import sys; sys.path.insert(0, sys.argv[1]);"
        "from example_shells import small_tom; from hashlib import sha256;"
        "from counterhoop.papers.drawing.shell_flat import draw_flat;"
        "from counterhoop.papers.dxf import to_dxf;"
        "print(sha256(to_dxf(draw_flat(small_tom()))).hexdigest())"
    )
    here = str(Path(__file__).parent)
    said = {
        subprocess.run(
            [sys.executable, "-c", code, here], env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True, text=True, check=True,
        ).stdout
        for seed in ("1", "2", "3")
    }  # fmt: skip
    assert len(said) == 1


def test_ezdxfs_own_option_is_left_as_it_was() -> None:
    before = ezdxf.options.write_fixed_meta_data_for_testing
    to_dxf(draw_flat(LAYOUT))
    assert ezdxf.options.write_fixed_meta_data_for_testing is before is False


def test_hatching_stays_in_its_hole_and_clear_of_the_centre() -> None:
    for x1, y1, x2, y2 in circle_hatch(10.0, 20.0, 6.5, apart_mm=1.1, clear_mm=2.0):
        for x, y in ((x1, y1), (x2, y2)):
            assert 1.0 - 1e-9 <= math.hypot(x - 10.0, y - 20.0) <= 3.25 + 1e-9
        assert (y2 - y1) / (x2 - x1) == pytest.approx(-1.0)
    box = ((0.0, 0.0), (10.0, 0.0), (10.0, 4.0), (0.0, 4.0))
    for x1, y1, x2, y2 in path_hatch(box, (), apart_mm=1.1):
        assert all(-1e-9 <= x <= 10 + 1e-9 for x in (x1, x2))
        assert all(-1e-9 <= y <= 4 + 1e-9 for y in (y1, y2))


def test_both_hatchings_rise_to_the_right() -> None:
    for x1, y1, x2, y2 in (
        *circle_hatch(0.0, 0.0, 6.0, apart_mm=1.0),
        *path_hatch(((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0)), (), apart_mm=1.0),
    ):
        assert (x2 - x1) * (y2 - y1) < 0


def test_a_text_from_outside_cannot_break_the_file() -> None:
    from counterhoop.papers.drawing.records import Drawing, Layer, Text

    drawing = Drawing(
        left_mm=0, top_mm=0, width_mm=10, height_mm=10, title="x",
        strokes=(Text(layer=Layer.NOTE, x_mm=1, y_mm=5, text="a\n  0\nENDSEC\x07\ud800"),),
    )  # fmt: skip
    document = ezdxf.read(io.StringIO(to_dxf(drawing).decode()))
    assert not document.audit().has_errors
    assert [t.dxf.text.split() for t in document.modelspace().query("TEXT")] == [
        ["a", "0", "ENDSEC"]
    ]
