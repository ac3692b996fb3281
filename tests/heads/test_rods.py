"""Pull and torque of rods. Truth: published examples, each named; the turning of a wheel."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.heads.rods import (
    nut_factor,
    nut_factor_by_friction,
    rod_force,
    rod_torque,
    tension_of_rods,
    torque_by_friction_nm,
)
from counterhoop.standards.threads import find_thread

INCH, POUND = 0.0254, 4.4482216152605
INCH_POUND = INCH * POUND


@pytest.mark.parametrize(("factor", "inch_pounds"), [(0.3, 72.7), (0.2, 48.5), (0.1, 24.2)])
def test_number_ten_screw_of_1275_pounds(factor, inch_pounds):
    """Mechanical Fastening, Joining and Assembly, page 85 (from memory): T = K F d."""
    found = factor * 1275 * POUND * 0.190 * INCH / INCH_POUND
    assert found == pytest.approx(inch_pounds, abs=0.06)
    # And our own figure is that law with the table's factor.
    twelve = find_thread("12-24")
    ours = rod_torque(400.0, thread=twelve, state="black")
    assert ours.nm == pytest.approx(0.30 * 400.0 * twelve.major_mm / 1000)


def test_a_three_quarter_bolt_of_25_kip():
    """Shigley and Mischke, example 8-3 (from memory): 3551 lbf in by friction 0.15.

    3/4-16 UNF by its basic pitch diameter.
    """
    pitch = INCH / 16
    found = torque_by_friction_nm(
        25_000 * POUND, major_m=0.75 * INCH, pitch_m=pitch,
        pitch_diameter_m=0.75 * INCH - 0.649519 * pitch, friction=0.15, collar_friction=0.15,
    )  # fmt: skip
    assert found / INCH_POUND == pytest.approx(3551, abs=1)


@pytest.mark.parametrize(
    ("state", "factor"),
    [("black", 0.30), ("zinc", 0.20), ("oiled", 0.18), ("cadmium", 0.16), ("anti-seize", 0.12)],
)
def test_nut_factors(state, factor):
    """Shigley and Mischke, 5th edition, table 8-15 (from memory)."""
    assert nut_factor(state) == factor


@pytest.mark.parametrize(
    ("friction", "twelve", "six"),
    [(0.08, 0.134, 0.128), (0.10, 0.159, 0.154), (0.12, 0.185, 0.179), (0.15, 0.224, 0.217),
     (0.20, 0.289, 0.281)],
)  # fmt: skip
def test_nut_factors_of_rods(friction, twelve, six):
    """Computed once by another program: 12-24 with a collar of 8.5 mm, M6 with one of 9 mm."""
    how = {"friction": friction, "collar_friction": friction}
    assert nut_factor_by_friction(find_thread("12-24"), collar_mm=8.5, **how) == pytest.approx(
        twelve, abs=0.0015
    )
    assert nut_factor_by_friction(find_thread("M6"), collar_mm=9, **how) == pytest.approx(
        six, abs=0.0015
    )


def test_without_friction_a_screw_is_a_wedge():
    # Exact: work in is work out, F times pitch for each turn.
    torque = torque_by_friction_nm(
        1000.0, major_m=0.006, pitch_m=0.001, pitch_diameter_m=0.00535, friction=0.0,
        collar_friction=0.0,
    )  # fmt: skip
    assert 2 * math.pi * torque == pytest.approx(1000.0 * 0.001)


@pytest.mark.parametrize(
    ("across", "rods", "newtons"), [(10, 6, 332), (12, 6, 399), (13, 6, 432), (14, 8, 349),
                                    (16, 8, 399)],
)  # fmt: skip
def test_pull_at_2500(across, rods, newtons):
    """Hand-worked: 2 pi a T / N."""
    assert rod_force(2500, radius_m=across * INCH / 2, rods=rods).n == pytest.approx(
        newtons, abs=0.6
    )


@given(n_per_m=st.floats(500, 6000), rods=st.integers(3, 12), rub=st.floats(0, 0.4))
def test_all_rods_hold_the_film(n_per_m, rods, rub):
    # Exact laws: the sum does not go with their number; friction never helps the rod; and back.
    how = {"radius_m": 0.15, "edge_friction": rub}
    force = rod_force(n_per_m, rods=rods, **how)
    assert rods * force.n == pytest.approx(rod_force(n_per_m, rods=1, **how).n)
    assert force.most_n >= force.n
    assert tension_of_rods(force.most_n, rods=rods, **how) == pytest.approx(n_per_m)


def test_what_is_said():
    torque = rod_torque(399.0, thread=find_thread("12-24"))
    assert torque.says == (
        "About 0.4 N m, a guide only: at that torque a rod pulls anything from 280 to 520 N."
    )
    with pytest.raises(BadInput, match="wanted black or zinc"):
        nut_factor("greasy")
    with pytest.raises(BadInput, match="a head needs rods"):
        rod_force(2500, radius_m=0.15, rods=0)
