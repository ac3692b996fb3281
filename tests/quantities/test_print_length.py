"""Printed lengths: true to half a mark of the rule, and read back as what was printed."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.quantities.length import parse_length
from counterhoop.quantities.print_length import (
    CALIPER_MM,
    TAPE_MM,
    print_inch,
    print_length,
    print_mm,
)

sizes = st.floats(-2000, 2000, allow_nan=False)


@pytest.mark.parametrize(
    ("value_mm", "resolution_mm", "shown"),
    [
        (356.39, TAPE_MM, "356.5 mm"),
        (203.0, TAPE_MM, "203 mm"),
        (0.25, TAPE_MM, "0.5 mm"),
        (-0.2, TAPE_MM, "0 mm"),
        (200.0, 1.0, "200 mm"),
        (1200.0, 10.0, "1200 mm"),
        (203.0, CALIPER_MM, "203.0 mm"),
        (5.55625, CALIPER_MM, "5.6 mm"),
        (0.15, CALIPER_MM, "0.2 mm"),
        (4.4958, 0.01, "4.50 mm"),
        (0.3, 0.25, "0.25 mm"),
        # Instruments in inches, worked by hand: 1/64 is 0.397, next 0.5; a thou 0.0254, next 0.05;
        # half a thou 0.0127, next 0.02; 1/16 is 1.5875, next 2; 1/4 is 6.35, next 10.
        (355.203125, 25.4 / 64, "355 mm"),
        (0.2286, 0.0254, "0.25 mm"),
        (0.0381, 0.0127, "0.04 mm"),
        (355.6, 25.4 / 16, "356 mm"),
        (355.6, 25.4 / 4, "360 mm"),
        (-1.26, CALIPER_MM, "-1.3 mm"),
    ],
)
def test_millimetres(value_mm: float, resolution_mm: float, shown: str) -> None:
    assert print_mm(value_mm, resolution_mm=resolution_mm) == shown


@pytest.mark.parametrize(
    ("value_mm", "denominator", "shown"),
    [
        (356.39, 32, "14 1/32 in"),
        (139.7, 32, "5 1/2 in"),
        (5.55625, 32, "7/32 in"),
        (304.8, 32, "12 in"),
        (0.0, 32, "0 in"),
        (-12.7, 32, "-1/2 in"),
        (25.4 * 0.99, 16, "1 in"),
        (25.4 * 63 / 64, 64, "63/64 in"),
    ],
)
def test_inches(value_mm: float, denominator: int, shown: str) -> None:
    assert print_inch(value_mm, denominator=denominator) == shown


def test_both_and_without_the_unit() -> None:
    assert print_length(356.39) == "356.5 mm (14 1/32 in)"
    assert print_length(139.7, units="in", resolution_mm=0.1) == "5 1/2 in (139.7 mm)"
    assert print_mm(41.0, with_unit=False) == "41"
    assert print_inch(41.0, with_unit=False) == "1 5/8"


@given(value_mm=sizes, resolution_mm=st.sampled_from([1.0, 0.5, 0.25, 0.1, 0.01]))
def test_printed_mm_is_the_nearest_mark(value_mm: float, resolution_mm: float) -> None:
    shown = print_mm(value_mm, resolution_mm=resolution_mm)
    back = parse_length(shown, allow_negative=True).exact_mm
    assert abs(float(back) - value_mm) <= resolution_mm / 2 + 1e-9
    assert (back / Fraction(str(resolution_mm))).denominator == 1


@given(value_mm=sizes, denominator=st.sampled_from([2, 4, 8, 16, 32, 64, 128]))
def test_printed_inches_are_the_nearest_mark(value_mm: float, denominator: int) -> None:
    shown = print_inch(value_mm, denominator=denominator)
    back = parse_length(shown, allow_negative=True).exact_mm
    assert abs(float(back) - value_mm) <= 25.4 / denominator / 2 + 1e-6
    assert (back / Fraction(254, 10) * denominator).denominator == 1


@pytest.mark.parametrize("value_mm", [float("nan"), float("inf")])
def test_no_number_is_not_printed(value_mm: float) -> None:
    with pytest.raises(BadInput):
        print_mm(value_mm)


@pytest.mark.parametrize("denominator", [0, 3, -8, 10])
def test_no_rule_is_marked_so(denominator: int) -> None:
    with pytest.raises(BadInput):
        print_inch(10.0, denominator=denominator)


@pytest.mark.parametrize("resolution_mm", [0.0, -0.5, float("nan"), float("inf")])
def test_no_instrument_reads_so(resolution_mm: float) -> None:
    with pytest.raises(BadInput):
        print_mm(10.0, resolution_mm=resolution_mm)
