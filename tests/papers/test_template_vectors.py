"""Every hole within 0.02 mm of the model, read back from the vectors of the PDF."""

from __future__ import annotations

import io
import math
from dataclasses import replace

import pypdfium2 as pdfium
import pytest
from example_shells import scheme_of, small_tom
from pdf_paths import page_words, sheets_of
from pdf_template import ReadSheet, read_template, worst_hole_mm
from pypdf import PdfReader

from counterhoop.development.place import Place
from counterhoop.papers.drawing.records import Layer, Text
from counterhoop.papers.job_facts import JobFacts
from counterhoop.papers.printer import PrinterCorrection, from_check_sheet
from counterhoop.papers.template import template_drawings, template_pdf
from counterhoop.scheme.layout import Layout

FACTS = JobFacts(job="17", client="A. Client", drum="small tom, 10 dia x 7 deep")
HOLE_MM = 0.02


@pytest.fixture(params=["A4", "A3", "Letter", "roll"])
def paper(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def read(layout: Layout, **how: object) -> list[ReadSheet]:
    """Set a layout's template and read it back."""
    scheme = scheme_of(layout)
    return read_template(template_pdf(scheme, FACTS, **how), template_drawings(scheme, **how))


@pytest.mark.parametrize(("around", "depth"), [(791.0, 178.0), (1756.93, 356.2)])
def test_every_hole_is_where_the_model_has_it(paper: str, around: float, depth: float) -> None:
    layout = small_tom(around_mm=around, depth_mm=depth)
    assert worst_hole_mm(read(layout, paper=paper), layout) < HOLE_MM


@pytest.mark.parametrize("paper", ["A4", "A3", "roll"])
def test_a_hole_on_the_datum_is_not_cut_by_the_joint(paper: str) -> None:
    layout = small_tom()
    holes = tuple(
        replace(p, place=Place(p.place.along_deg - 2.0, p.place.down_mm)) for p in layout.holes[:4]
    )
    on_datum = replace(layout, holes=(*holes, *layout.holes[4:]))
    scheme = scheme_of(on_datum)
    made = template_drawings(scheme, paper=paper)
    assert made.tiling.start_mm < -5.0
    first = made.drawings[0]
    assert any(isinstance(s, Text) and s.text == "0 line, on the datum" for s in first.strokes)
    sheets = read_template(template_pdf(scheme, FACTS, paper=paper), made)
    assert worst_hole_mm(sheets, on_datum) < HOLE_MM
    assert sum(s.joint_apart for s in sheets) == pytest.approx(791.0, abs=0.02)


def test_a_hole_out_of_place_is_seen() -> None:
    layout = small_tom()
    moved = replace(
        layout, holes=(*layout.holes[:-1], replace(layout.holes[-1], place=Place(245.02, 129.0)))
    )
    assert worst_hole_mm(read(moved), layout) > HOLE_MM


@pytest.mark.parametrize("paper", ["A4", "A3", "roll"])
@pytest.mark.parametrize("on_datum", [True, False])
def test_the_strip_closes_on_the_circumference(paper: str, on_datum: bool) -> None:
    layout = small_tom(around_mm=791.37)
    if on_datum:
        layout = replace(layout, holes=layout.holes[4:])
    scheme = scheme_of(layout)
    pdf = template_pdf(scheme, FACTS, paper=paper)
    made = template_drawings(scheme, paper=paper)
    sheets = read_template(pdf, made)
    start = 0.0 if on_datum else -5.0
    length = start
    for sheet in sheets:  # as taped: each sheet from its left edge to the line on its right
        assert sheet.left_said == pytest.approx(length, abs=0.01)
        length += sheet.joint_apart
    assert length - start == pytest.approx(791.37, abs=0.02)
    assert sheets[-1].joint_said == pytest.approx(791.4 + start)
    page = pdfium.PdfDocument(io.BytesIO(pdf))[0]
    assert "closinglinethestripmustmeasure791.4mm" in page_words(page)


@pytest.mark.parametrize("paper", ["A4", "A3"])
def test_a_correction_is_undone_by_the_printer_and_the_wrap(paper: str) -> None:
    layout = small_tom()
    correction = PrinterCorrection(short_factor=1.012, long_factor=0.991, paper_mm=0.2)
    pdf = template_pdf(scheme_of(layout), FACTS, paper=paper, correction=correction)
    page = pdfium.PdfDocument(io.BytesIO(pdf))[1]
    lying = page.get_width() > page.get_height()
    across, down = (0.991, 1.012) if lying else (1.012, 0.991)
    radius = layout.flat.surface.radius_mm
    wrap = (radius + 0.1) / radius
    sheets = read_template(
        pdf, template_drawings(scheme_of(layout), paper=paper, correction=correction)
    )
    # What is said beside a line is what a rule shows on the print; the printer divides by its
    # factor, wrapping round the shell by the paper term.
    for sheet in sheets:
        printed = [
            ((x - sheet.left_said) / across + sheet.left_said, y / down, w, h)
            for x, y, w, h in sheet.marks
        ]
        undone = replace(sheet, marks=tuple((x / wrap, y, w, h) for x, y, w, h in printed))
        sheets[sheets.index(sheet)] = undone
    worst = 0.0
    for plan in layout.holes:
        place, shape = plan.new_place or plan.place, plan.new or plan.old
        assert shape is not None
        along = layout.flat.surface.along_mm(place.along_deg)
        wide, high = shape.size_mm[0] * across * wrap, shape.size_mm[1] * down
        worst = max(
            worst,
            min(
                math.hypot(x - along, y - place.down_mm)
                for sheet in sheets
                for x, y, w, h in sheet.marks
                if abs(w - wide) < 0.02 and abs(h - high) < 0.02
            ),
        )
    # joint figures are printed to a tenth: half of that, and the 0.02 of the vectors
    assert worst < 0.05 + HOLE_MM
    assert "794.0" not in page_words(page)
    assert f"closinglength{2 * math.pi * (radius + 0.1):.1f}mm" in page_words(page)


def test_every_hole_is_numbered_on_exactly_one_sheet() -> None:
    layout = small_tom(around_mm=1757.0, depth_mm=356.0)
    made = template_drawings(scheme_of(layout), paper="A4")
    numbers = [
        int(s.text)
        for drawing in made.drawings
        for s in drawing.strokes
        if isinstance(s, Text) and s.layer is Layer.NUMBER
    ]
    assert sorted(numbers) == [plan.number for plan in layout.holes]


def test_every_sheet_says_what_it_must() -> None:
    layout = small_tom()
    for paper in ("A4", "A3", "Letter"):
        document = pdfium.PdfDocument(
            io.BytesIO(template_pdf(scheme_of(layout), FACTS, paper=paper, draft=True))
        )
        for number, index in enumerate(sheets_of(document), 1):
            words = page_words(document[index])
            for said in (
                "batteredgeup", "printedsideout", "along→", f"sheet{number}of", "DRAFT",
                "checkbaracross:100mm", "checkbardown:100mm", "overtheoldfinish", "beforetruing",
            ):  # fmt: skip
                assert said in words, (paper, index, said)


def test_an_approved_template_is_no_draft() -> None:
    pdf = template_pdf(scheme_of(small_tom(), approved="A. Client, 24 Nov"), FACTS, draft=False)
    document = pdfium.PdfDocument(io.BytesIO(pdf))
    assert all("DRAFT" not in page_words(document[i]) for i in range(len(document)))


@pytest.mark.parametrize("paper", ["A4", "roll"])
def test_the_title_block_says_which_printer_it_is_drawn_for(paper: str) -> None:
    scheme = scheme_of(small_tom())
    said = "drawn for a printer that draws 180 as 179.5 and 250 as 249.2"
    off = from_check_sheet(short_read_mm=179.5, long_read_mm=249.2)
    for right, there in ((off, True), (PrinterCorrection(paper_mm=0.1), False), (None, False)):
        pdf = template_pdf(scheme, FACTS, paper=paper, correction=right)
        first = PdfReader(io.BytesIO(pdf)).pages[0].extract_text()
        assert (said in " ".join(first.split())) is there
