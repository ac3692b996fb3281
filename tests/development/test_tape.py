"""Girths, places read with a tape, finishes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.tape import (
    along_deg_read,
    bare_girth_mm,
    girth_from_diameters_mm,
    girth_mm,
    girth_over_mm,
)
from counterhoop.errors import BadInput


@given(st.floats(100, 1000), st.floats(0, 3))
def test_a_tape_reads_the_circle_half_its_thickness_out(diameter, tape):
    # Exact law: a bent strip keeps its length at the middle of its thickness.
    read = math.pi * (diameter + tape)
    assert girth_mm(read, tape_mm=tape) == pytest.approx(math.pi * diameter, abs=1e-9)


def test_half_a_millimetre_of_wrap_is_three_of_girth():
    # Exact law: 2 pi t.
    over = girth_over_mm(1000.0, thickness_mm=0.5)
    assert over - 1000.0 == pytest.approx(math.pi, abs=1e-12)


@given(st.floats(200, 3000), st.floats(0, 5))
def test_a_finish_put_on_and_taken_off_changes_nothing(girth, thick):
    over = girth_over_mm(girth, thickness_mm=thick)
    assert bare_girth_mm(over, thickness_mm=thick) == pytest.approx(girth, abs=1e-9)


@given(st.floats(0, 359.9), st.floats(200, 600), st.floats(0, 1))
def test_the_tapes_thickness_never_moves_a_place(along, diameter, tape):
    once_round = math.pi * (diameter + tape)
    read = once_round * along / 360.0
    assert along_deg_read(read, read_girth_mm=once_round) == pytest.approx(along, abs=1e-9)


def test_a_place_left_of_the_datum_and_one_just_past_it():
    assert along_deg_read(-10.0, read_girth_mm=720.0) == pytest.approx(355.0)
    assert along_deg_read(720.5, read_girth_mm=720.0) == pytest.approx(0.25)
    with pytest.raises(BadInput, match="more than once round"):
        along_deg_read(722.0, read_girth_mm=720.0)


def test_two_square_diameters_of_an_oval_give_its_girth_to_second_order():
    # Independent: Ramanujan's 1914 approximation of an ellipse's perimeter.
    a, b = 152.0, 150.0
    h = ((a - b) / (a + b)) ** 2
    true = math.pi * (a + b) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))
    assert girth_from_diameters_mm([2 * a, 2 * b]) == pytest.approx(true, abs=0.02)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: girth_mm(0.0, tape_mm=0.2),
        lambda: girth_mm(950.0, tape_mm=-0.1),
        lambda: girth_mm(math.nan, tape_mm=0.1),
        lambda: girth_from_diameters_mm([]),
        lambda: girth_from_diameters_mm([300.0, -1.0]),
        lambda: girth_over_mm(950.0, thickness_mm=-0.5),
        lambda: bare_girth_mm(3.0, thickness_mm=0.5),
        lambda: along_deg_read(10.0, read_girth_mm=0.0),
    ],
)
def test_readings_that_no_shell_gives_are_refused(wrong):
    with pytest.raises(BadInput):
        wrong()
