"""What a printer does to lengths, and that it is undone."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.papers.printer import PrinterCorrection, from_check_sheet

READ = st.floats(0.9805, 1.0195)


@given(short=READ, long=READ, paper=st.floats(0.0, 1.0), radius=st.floats(60.0, 400.0))
def test_printing_and_wrapping_undo_the_correction(
    short: float, long: float, paper: float, radius: float
) -> None:
    """Exact law: drawn x printer x (skin over paper's middle line) = model."""
    right = from_check_sheet(short_read_mm=180.0 * short, long_read_mm=250.0 * long, paper_mm=paper)
    for side, printer in (("short", short), ("long", long)):
        drawn = 123.4 * right.along_scale(radius_mm=radius, side=side)
        on_shell = drawn * printer * radius / (radius + paper / 2)
        assert on_shell == pytest.approx(123.4, abs=1e-9)
        assert 100.0 * right.factor(side) * printer == pytest.approx(100.0, abs=1e-9)


def test_closing_length_is_the_papers_middle_line() -> None:
    right = PrinterCorrection(paper_mm=0.1)
    assert right.closing_mm(radius_mm=791 / math.tau) == pytest.approx(791 + math.pi * 0.1)
    assert PrinterCorrection().closing_mm(radius_mm=791 / math.tau) == pytest.approx(791.0)


@pytest.mark.parametrize("factor", [0.979, 1.021, math.nan, math.inf, -1.0])
def test_a_printer_more_than_two_in_a_hundred_off_is_refused(factor: float) -> None:
    with pytest.raises(BadInput, match="2 %"):
        PrinterCorrection(short_factor=factor)
    with pytest.raises(BadInput, match="2 %"):
        from_check_sheet(short_read_mm=180.0, long_read_mm=250.0 * factor)


@pytest.mark.parametrize("paper", [-0.1, 1.5, math.nan])
def test_paper_of_no_thickness_that_exists_is_refused(paper: float) -> None:
    with pytest.raises(BadInput, match="paper"):
        PrinterCorrection(paper_mm=paper)


def test_two_in_a_hundred_is_still_allowed() -> None:
    assert PrinterCorrection(short_factor=1.02, long_factor=0.98).factor("long") == 0.98


@given(short=READ, long=READ)
def test_what_was_read_is_said_again_to_a_hundredth(short: float, long: float) -> None:
    right = from_check_sheet(short_read_mm=180.0 * short, long_read_mm=250.0 * long)
    if right.short_factor == right.long_factor == 1.0:
        return
    said = right.says.split()
    assert float(said[said.index("180") + 2]) == pytest.approx(180.0 * short, abs=0.0051)
    assert float(said[said.index("250") + 2]) == pytest.approx(250.0 * long, abs=0.0051)


def test_a_true_printer_needs_no_word() -> None:
    assert PrinterCorrection().says == PrinterCorrection(paper_mm=0.3).says == ""
