"""The wrap list and its words: everything that is cut stands on it, once, where it is cut."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from functools import cache
from typing import Any

import pypdfium2 as pdfium
import pytest
from example_jobs import job_of
from example_shells import scheme_of, small_tom
from pypdf import PdfReader

from counterhoop.cli.wrap_text import wrap_text
from counterhoop.papers.drawing.cut_plan import Cut, sheet_drawing
from counterhoop.papers.drawing.lettering import box_of
from counterhoop.papers.drawing.records import Path, Text
from counterhoop.papers.wrap_list import wrap_data, wrap_list_pdf
from counterhoop.scheme.wrapping import WrapPlan, wrap_plans
from counterhoop.shell.drum import OldFinish
from counterhoop.shell.job import Job
from counterhoop.shell.wish import FinishPlan
from counterhoop.shell.wrap_stock import Offcut, WrapStock

STOCK = WrapStock(
    name="amber drift", thickness_mm=0.5, length_mm=1400.0, width_mm=610.0, price_minor=6200,
    offcuts=(Offcut(name="red end", length_mm=500.0, width_mm=300.0),),
)  # fmt: skip
HOSTILE = '#import "x.typ": * $a^2$ \\ #panic("no") <l> @ref [open *b* // /*'


@cache
def planned(**changes: Any) -> tuple[Job, WrapPlan]:
    stock = replace(STOCK, **changes)
    schemes = []
    for key, depth in (("small tom", 178.0), ("deep tom", 364.0), ("third tom", 284.0)):
        layout = small_tom(depth_mm=depth)
        finish = FinishPlan(kind="new wrap", thickness_mm=0.5, wrap=stock.name)
        drum = replace(
            layout.drum, key=key, depth_mm=depth, finish=OldFinish(kind="wrap", thickness_mm=0.5)
        )
        schemes.append(scheme_of(replace(layout, drum=drum, finish=finish)))
    wanted = tuple(
        replace(job_of().drums[0], drum=s.layout.drum, finish=s.layout.finish) for s in schemes
    )
    job = job_of(drums=wanted, wraps=(stock,))
    (plan,) = wrap_plans(job, schemes, rules=job.rules)
    return job, plan


def words(pdf: bytes) -> str:
    text = " ".join(p.get_textpage().get_text_range() for p in pdfium.PdfDocument(pdf))
    return re.sub(r"\s+", " ", text.replace("\xa0", " "))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_list_is_tagged_and_prints_at_actual_size(paper: str) -> None:
    """ISO 14289-1 (PDF/UA-1) and ISO 32000-1, table 150: title shown, language, no scaling."""
    job, plan = planned()
    pdf = wrap_list_pdf(job, plan, paper=paper)
    root = PdfReader(io.BytesIO(pdf)).trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert root["/MarkInfo"]["/Marked"]
    assert b"pdfuaid" in root["/Metadata"].get_data()
    assert pdf == wrap_list_pdf(job, plan, paper=paper)


def test_every_piece_stands_on_the_list_with_its_size_sheet_and_place() -> None:
    job, plan = planned()
    rows = wrap_data(job, plan)["pieces"]
    assert [row["name"] for row in rows] == ["small tom", "deep tom", "third tom"]
    for row, piece, put in zip(rows, plan.pieces, plan.nesting.placed, strict=True):
        assert (float(row["length"][0]), float(row["width"][0])) == (
            piece.length_mm,
            piece.width_mm,
        )
        assert (float(row["end"][0]), float(row["side"][0])) == (
            put.from_end_mm,
            put.from_side_mm,
        )
        assert row["sheet"] == plan.sheet_names[put.sheet]


def test_the_paper_says_seams_glue_heads_ticks_and_cautions() -> None:
    job, plan = planned()
    said = words(wrap_list_pdf(job, plan))
    for wanted in (
        "measure from this corner", "the pattern runs this way", "glued at the seam",
        "match by daylight", "sample, under a lug", "offcut kept", "cellulose nitrate",
        "vapour", "sharp knife", "heat softens it", "12 h", "24 h",
        "The wrap adds 1.0 mm to every diameter, 1.5 mm through the overlap",
    ):  # fmt: skip
        assert wanted in said, wanted
    for drum in plan.drums:
        for seam in drum.seams:
            assert seam.says.split(";")[0] in said


def test_only_an_overlap_takes_up_what_the_girth_is_off() -> None:
    for overlap_mm, takes in ((25.0, "takes up a millimetre or two"), (0.0, "takes up nothing")):
        said = words(wrap_list_pdf(*planned(overlap_mm=overlap_mm)))
        both = [w for w in ("takes up a millimetre or two", "takes up nothing") if w in said]
        assert both == [takes]


def test_a_job_without_old_wrap_is_not_warned_of_nitrate() -> None:
    job, plan = planned()
    bare = replace(plan, drums=tuple(replace(d, old_wrap=False) for d in plan.drums))
    assert "cellulose nitrate" not in words(wrap_list_pdf(job, bare))


def test_inches_stand_beside_millimetres() -> None:
    job, plan = planned()
    row = wrap_data(replace(job, units="in"), plan)["pieces"][0]
    assert all(row[key][1].endswith(" in") for key in ("length", "width"))


@pytest.mark.parametrize("name", [HOSTILE, "Łódź 鼓 \U0001f941"])
def test_names_that_people_typed_are_data(name: str) -> None:
    job, plan = planned(name=name)
    said = words(wrap_list_pdf(job, plan))
    assert ('#panic("no")' in said) is (name == HOSTILE)


def test_the_command_says_the_same() -> None:
    job, plan = planned()
    said = re.sub(r"\s+", " ", wrap_text([plan], currency="GBP"))
    assert "amber drift: 3 pieces from" in said
    for piece in plan.pieces:
        assert f"{piece.name}: {piece.length_mm:g} x {piece.width_mm:g} mm" in said
    for drum in plan.drums:
        assert drum.seams[0].says in said
    assert "No drum gets a new wrap" in wrap_text([], currency="GBP")
    assert job.number == "17"


SIZES = [(975.5, 175.0), (300.0, 30.0), (30.0, 300.0), (1400.0, 52.0), (60.0, 60.0), (12.0, 9.0)]


@pytest.mark.parametrize(("along_mm", "across_mm"), SIZES)
@pytest.mark.parametrize("left", [False, True])
def test_words_stay_inside_their_piece(along_mm: float, across_mm: float, left: bool) -> None:
    cut = Cut(
        x_mm=5.0, y_mm=7.0, along_mm=along_mm, across_mm=across_mm, left=left,
        lines=("12", "a drum with rather a long name", f"{along_mm:g} x {across_mm:g} mm"),
    )  # fmt: skip
    drawn = sheet_drawing(1400.0, 610.0, [cut], scale=0.12, title="t", says="s")
    inside = [s for s in drawn.strokes if isinstance(s, Text) and s.text in cut.lines]
    assert bool(inside) is (min(along_mm, across_mm) >= 30.0)
    for text in inside:
        left_mm, top_mm, right_mm, bottom_mm = box_of(text)
        assert cut.x_mm <= left_mm
        assert right_mm <= cut.x_mm + along_mm
        assert cut.y_mm <= top_mm
        assert bottom_mm <= cut.y_mm + across_mm
    assert any(
        isinstance(s, Path) and s.points[2] == (5.0 + along_mm, 7.0 + across_mm)
        for s in drawn.strokes
    )
