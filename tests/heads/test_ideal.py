"""Heads in a vacuum, and the air of a room.

Truth: Abramowitz and Stegun, table 9.5 (from memory); J. D. Cook, The acoustics of kettledrums,
2016; HyperPhysics, Circular membrane; the zeros of J_3 as fncbook lists them.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.heads.air import air_at
from counterhoop.heads.head import film_head, weighed_head
from counterhoop.heads.ideal import head_zero, ideal_hz, ideal_tension_n_per_m

WHOLE = st.floats(0.05, 10.0)


@pytest.mark.parametrize(
    ("around", "circles", "zero"),
    [(0, 1, 2.40483), (1, 1, 3.83171), (2, 1, 5.13562), (0, 2, 5.52008), (3, 1, 6.38016),
     (1, 2, 7.01559), (4, 1, 7.58834), (2, 2, 8.41724), (0, 3, 8.65373), (5, 1, 8.77148)],
)  # fmt: skip
def test_zeros_are_those_of_the_handbook(around, circles, zero):
    assert head_zero(around, circles) == pytest.approx(zero, abs=6e-6)


def test_zeros_of_the_third_order():
    listed = (6.380162, 9.761023, 13.015201)
    assert [head_zero(3, n) for n in (1, 2, 3)] == pytest.approx(listed, abs=1e-6)


def test_ratios_are_the_published_ones():
    """Cook: 1.594, 2.136, 2.296, 2.653, 2.918 times the lowest; cut off, not rounded, in two."""
    modes = ((1, 1), (2, 1), (0, 2), (3, 1), (1, 2))
    ratios = [head_zero(*mode) / head_zero(0, 1) for mode in modes]
    assert ratios == pytest.approx((1.594, 2.136, 2.296, 2.653, 2.918), abs=1.1e-3)


def test_the_lowest_goes_by_the_published_constant():
    """HyperPhysics: f = 0.765 sqrt(T / sigma) / D, which is 2.4048 over pi."""
    hz = ideal_hz(0, 1, radius_m=0.5, tension_n_per_m=9.0, mass_kg_per_m2=1.0)
    assert hz == pytest.approx(0.7655 * 3.0, rel=1e-4)


@given(st.floats(0.05, 2.0), WHOLE, WHOLE)
def test_tension_and_pitch_go_back_and_forth(radius_m, tension, mass):
    hz = ideal_hz(1, 1, radius_m=radius_m, tension_n_per_m=tension, mass_kg_per_m2=mass)
    back = ideal_tension_n_per_m(1, 1, hz=hz, radius_m=radius_m, mass_kg_per_m2=mass)
    assert math.isclose(back, tension, rel_tol=1e-12)


def test_plies_weigh_together():
    """7 mil of film at 1390 kg/m3 weigh 0.247 kg/m2: worked by hand."""
    two = film_head(177.8e-6, 177.8e-6)
    assert two.mass_kg_per_m2 == pytest.approx(2 * 0.24714, abs=1e-4)
    assert two.film_m == pytest.approx(355.6e-6)
    again = weighed_head(mass_kg=two.mass_kg_per_m2 * math.pi * 0.15**2, diameter_m=0.3)
    assert again.mass_kg_per_m2 == pytest.approx(two.mass_kg_per_m2)
    assert again.stiffness_n_per_m is None


def test_of_calf_nothing_but_the_mass_is_known():
    assert (
        weighed_head(mass_kg=0.1, diameter_m=0.4, film_m=3e-4, calf=True).stiffness_n_per_m is None
    )


def test_air_of_a_room():
    """1.204 kg/m3 and 343.2 m/s at 20 degrees, 1.293 and 331.3 at 0: handbooks (from memory)."""
    room, ice = air_at(20.0), air_at(0.0)
    assert (room.density_kg_per_m3, room.sound_m_per_s) == pytest.approx((1.204, 343.2), rel=3e-4)
    assert (ice.density_kg_per_m3, ice.sound_m_per_s) == pytest.approx((1.293, 331.3), rel=1e-3)
