"""Overall width against brute force, and the trade's own figure for a bracket."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterhoop.scheme.enclosing import overall_width_mm

REACH = st.lists(st.tuples(st.floats(0.0, 359.9), st.floats(0.0, 90.0)), min_size=0, max_size=8)


@pytest.mark.parametrize("reach_mm", [63.5, 76.2])
def test_a_large_bracket_adds_its_whole_reach(reach_mm):
    """Common practice, no source: a large bracket adds 2 1/2 to 3 in to a drum's width."""
    assert overall_width_mm(165.0, ((20.0, reach_mm),)) == pytest.approx(330.0 + reach_mm, abs=0.1)


def test_fittings_opposite_each_other_add_up():
    assert overall_width_mm(150.0, ((10.0, 30.0), (190.0, 50.0))) == pytest.approx(380.0, abs=0.1)


def test_a_bare_shell_is_as_wide_as_it_is():
    assert overall_width_mm(178.0, ()) == pytest.approx(356.0, abs=0.06)


@settings(max_examples=25)
@given(reach=REACH, radius=st.floats(100.0, 300.0))
def test_no_centre_of_a_grid_gives_a_smaller_ring(reach, radius):
    """Brute force: the ring about each centre of a grid of 2 mm; half a step can be missed."""
    width = overall_width_mm(radius, tuple(reach))
    points = [
        ((radius + r) * math.cos(math.radians(a)), (radius + r) * math.sin(math.radians(a)))
        for a, r in reach
    ]
    best = math.inf
    for x in range(-92, 93, 2):
        for y in range(-92, 93, 2):
            need = math.hypot(x, y) + radius
            for px, py in points:
                need = max(need, math.hypot(px - x, py - y))
            best = min(best, need)
    assert width <= 2 * best + 0.2
    assert width >= 2 * best - 2 * math.sqrt(2) - 1e-6


@given(reach=REACH, turn=st.floats(0.0, 360.0))
def test_turning_the_drum_changes_nothing(reach, turn):
    """Exact law, to the flats of the polygon that stands for the shell."""
    one = overall_width_mm(150.0, tuple(reach))
    other = overall_width_mm(150.0, tuple((a + turn, r) for a, r in reach))
    assert other == pytest.approx(one, abs=0.1)
