"""Templates measured as a printer would lay them down: rendered at 600 dpi, in grey."""

from __future__ import annotations

import io

import numpy as np
import pypdfium2 as pdfium
import pytest
from example_shells import scheme_of, small_tom
from pdf_paths import page_paths, rendered, sheets_of
from pdf_template import is_line

from counterhoop.papers.check_sheet import check_sheet_pdf
from counterhoop.papers.job_facts import JobFacts
from counterhoop.papers.printer import PrinterCorrection
from counterhoop.papers.template import template_drawings, template_pdf
from counterhoop.scheme.verdict import Verdict

FACTS = JobFacts(job="17", drum="small tom")
PX = 25.4 / 600
BAR_MM = 0.05


def darkness_centre(
    dark: np.ndarray, *, left: float, top: float, right: float, bottom: float, axis: int
) -> float:
    """Centroid of darkness in a window given in mm, along x (axis 1) or y (axis 0), in mm."""
    x0, x1 = round(left / PX), round(right / PX)
    y0, y1 = round(top / PX), round(bottom / PX)
    window = dark[y0:y1, x0:x1]
    window = np.where(window > 0.3, window, 0.0)
    weights = window.sum(axis=1 - axis)
    places = (np.arange(len(weights)) + 0.5) * PX + (x0 if axis == 1 else y0) * PX
    return float((weights * places).sum() / weights.sum())


def disc_centre(dark: np.ndarray, *, x: float, y: float, radius: float) -> tuple[float, float]:
    """Centroid of darkness within a disc, in mm: the rim of a hole without its number."""
    # A page has 35 million dots; only those about the hole are looked at.
    top, left = (max(0, int((at - radius) / PX) - 1) for at in (y, x))
    bottom, right = (int((at + radius) / PX) + 2 for at in (y, x))
    about = dark[top:bottom, left:right]
    rows, columns = np.indices(about.shape, sparse=True)
    ys, xs = (rows + top + 0.5) * PX, (columns + left + 0.5) * PX
    within = (xs - x) ** 2 + (ys - y) ** 2 < radius**2
    weights = np.where(within & (about > 0.3), about, 0.0)
    total = weights.sum()
    return float((weights * xs).sum() / total), float((weights * ys).sum() / total)


def bar_lengths(
    page: pdfium.PdfPage, *, across_mm: float = 100.0, down_mm: float = 100.0
) -> tuple[float, float]:
    """Measured lengths of the bars across and down: between the middles of their end lines."""
    dark = rendered(page)
    lines = [p for p in page_paths(page) if is_line(p)]
    across = [p for p in lines if abs(p.size[0] - across_mm) < 0.01 and p.size[1] < 0.01]
    down = [p for p in lines if abs(p.size[1] - down_mm) < 0.01 and p.size[0] < 0.01]
    a = max(across, key=lambda p: p.box[1])
    d = min(down, key=lambda p: p.box[0])
    ends_x = [
        darkness_centre(
            dark, left=x - 0.8, right=x + 0.8, top=a.middle[1] + 0.5, bottom=a.middle[1] + 1.8,
            axis=1,
        )
        for x in (a.box[0], a.box[2])
    ]  # fmt: skip
    ends_y = [
        darkness_centre(
            dark, left=d.middle[0] + 0.5, right=d.middle[0] + 1.8, top=y - 0.8, bottom=y + 0.8,
            axis=0,
        )
        for y in (d.box[1], d.box[3])
    ]  # fmt: skip
    return ends_x[1] - ends_x[0], ends_y[1] - ends_y[0]


@pytest.mark.parametrize("paper", ["A4", "A3", "Letter", "roll"])
def test_both_check_bars_of_every_sheet_are_true(paper: str) -> None:
    pdf = pdfium.PdfDocument(io.BytesIO(template_pdf(scheme_of(small_tom()), FACTS, paper=paper)))
    assert sheets_of(pdf)
    for index in sheets_of(pdf):
        across, down = bar_lengths(pdf[index])
        assert across == pytest.approx(100.0, abs=BAR_MM)
        assert down == pytest.approx(100.0, abs=BAR_MM)


def test_check_bars_take_the_printer_and_never_the_paper() -> None:
    correction = PrinterCorrection(short_factor=1.01, long_factor=0.99, paper_mm=0.5)
    pdf = pdfium.PdfDocument(
        io.BytesIO(template_pdf(scheme_of(small_tom()), FACTS, paper="A3", correction=correction))
    )
    assert pdf[1].get_width() > pdf[1].get_height()
    across, down = bar_lengths(pdf[1], across_mm=99.0, down_mm=101.0)
    assert across / 0.99 == pytest.approx(100.0, abs=BAR_MM)
    assert down / 1.01 == pytest.approx(100.0, abs=BAR_MM)


@pytest.mark.parametrize("draft", [False, True])
def test_holes_lie_where_they_should_by_their_darkness(draft: bool) -> None:
    layout = small_tom()
    scheme = scheme_of(layout)
    made = template_drawings(scheme, paper="A4")
    pdf = pdfium.PdfDocument(io.BytesIO(template_pdf(scheme, FACTS, paper="A4", draft=draft)))
    pages = {n: rendered(pdf[i]) for n, i in enumerate(sheets_of(pdf), 1)}
    seen = 0
    for plan in layout.holes:
        if plan.verdict not in (Verdict.KEEP, Verdict.LEAVE_OPEN):
            continue
        x = layout.flat.surface.along_mm(plan.place.along_deg)
        for index, tile in enumerate(made.tiling.tiles, 1):
            if not (tile.left_mm + 8 < x < tile.joint_right_mm - 8):
                continue
            px, py = made.tiling.on_sheet(tile, x, plan.place.down_mm)
            r = plan.new.size_mm[0] / 2 + 0.4
            found = disc_centre(pages[index], x=px, y=py, radius=r)
            assert found == pytest.approx((px, py), abs=0.05)
            seen += 1
    assert seen >= 5


@pytest.mark.parametrize("paper", ["A4", "A3", "Letter"])
def test_the_bars_of_the_check_sheet_are_true(paper: str) -> None:
    page = pdfium.PdfDocument(io.BytesIO(check_sheet_pdf(paper=paper)))[0]
    across, down = bar_lengths(page, across_mm=180.0, down_mm=250.0)
    assert across == pytest.approx(180.0, abs=BAR_MM)
    assert down == pytest.approx(250.0, abs=BAR_MM)


def test_a_bar_a_fifth_of_a_millimetre_short_would_be_seen() -> None:
    correction = PrinterCorrection(short_factor=0.998)
    pdf = pdfium.PdfDocument(
        io.BytesIO(template_pdf(scheme_of(small_tom()), FACTS, paper="A4", correction=correction))
    )
    across, _ = bar_lengths(pdf[1], across_mm=99.8)
    assert abs(across - 100.0) > BAR_MM


@pytest.mark.parametrize("draft", [False, True])
def test_nothing_is_printed_in_the_margin(draft: bool) -> None:
    for paper in ("A4", "A3", "Letter"):
        pdf = pdfium.PdfDocument(
            io.BytesIO(template_pdf(scheme_of(small_tom()), FACTS, paper=paper, draft=draft))
        )
        for index in range(len(pdf)):
            dark = rendered(pdf[index], dpi=100) > 0.3  # the mark of a draft may bleed; it is pale
            edge = round(10.0 / 25.4 * 100)
            assert not dark[:edge].any()
            assert not dark[-edge:].any()
            assert not dark[:, :edge].any()
            assert not dark[:, -edge:].any()
