"""Laws that every mode keeps, whatever the drum.

Truth: Rayleigh's principle and the orthogonality of modes, exact; counts beside each root; the
same integrals taken farther.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from counts import cases
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq
from toms import cents, drum, pitches

from counterhoop.heads.air import air_at
from counterhoop.heads.exterior import baffled_mass, baffled_opening_mass
from counterhoop.heads.roots import negative, roots
from counterhoop.heads.shapes import FARTHEST, air_waves, head_waves
from counterhoop.heads.stiffness import Stiffness

TENSION = st.floats(600.0, 5000.0)


@cases(6)
@given(batter=TENSION, resonant=TENSION, m=st.integers(1, 4))
def test_where_sound_is_instant_modes_are_orthogonal(batter, resonant, m):
    """Then what moves does not depend on pitch; each Rayleigh quotient is its pitch squared."""
    air = replace(drum().air, sound_m_per_s=1e7)
    stiffness = Stiffness(drum(batter=batter, resonant=resonant, air=air), m, 6)
    hz, shapes = zip(*roots(stiffness, 900.0), strict=True)
    q = np.array(shapes).T
    mass = stiffness.inertia(100.0)
    assert np.allclose(mass, stiffness.inertia(700.0), rtol=1e-6)
    square = (2 * np.pi * 100.0) ** 2
    stretch = stiffness.at(100.0) + square * mass
    moving = q.T @ mass @ q
    scale = np.sqrt(np.outer(np.diag(moving), np.diag(moving)))
    off = moving / scale - np.eye(len(hz))
    assert np.abs(off).max() < 1e-6
    quotients = np.diag(q.T @ stretch @ q) / np.diag(moving)
    assert np.sqrt(quotients) / (2 * np.pi) == pytest.approx(hz, rel=1e-6)


@pytest.mark.parametrize("shell", [drum(), drum(resonant=None), replace(drum(), vent_m=0.012)])
@pytest.mark.parametrize("around", [0, 1])
def test_a_shape_a_little_wrong_gives_a_pitch_hardly_wrong(shell, around):
    """Rayleigh's principle: wrong by the square. Holds with air that answers by pitch too."""
    stiffness = Stiffness(shell, around, 6)
    hz, shape = list(roots(stiffness, 500.0))[-1]
    wrong = np.random.default_rng(3).normal(size=shape.size) / math.sqrt(shape.size)

    def pitch(step):
        tried = shape + step * wrong
        return brentq(lambda f: tried @ stiffness.at(f) @ tried, hz * 0.97, hz * 1.03, xtol=1e-12)

    off = [abs(pitch(step) - hz) for step in (4e-4, 2e-4)]
    assert off[0] / off[1] == pytest.approx(4.0, rel=0.05)


@cases(6)
@given(batter=TENSION, resonant=st.one_of(st.none(), TENSION), deep=st.floats(3.0, 18.0),
       m=st.integers(0, 4))  # fmt: skip
def test_each_root_is_where_it_is_said_to_be(batter, resonant, deep, m):
    """Within a millionth of a hertz, and one more eigenvalue below nought behind it."""
    stiffness = Stiffness(drum(12, deep, batter=batter, resonant=resonant), m, 6)
    found = [hz for hz, _ in roots(stiffness, 600.0)]
    assert found == sorted(found)
    for hz in found:
        near = [hz - 1e-6, hz + 1e-6]
        within = sum(near[0] < other < near[1] for other in found)
        assert negative(stiffness.at(near[1])) - negative(stiffness.at(near[0])) == within


def test_equal_heads_far_apart_have_every_pitch_twice():
    """Roots that fall together are counted, not lost: a shell of 4 m."""
    far = replace(drum(12, 160), resonant=drum().batter)
    two = pitches(far, 3, up_to_hz=600.0)
    assert len(two) % 2 == 0
    assert two[::2] == pytest.approx(two[1::2], rel=1e-6)
    assert len(two) >= 2


@pytest.mark.parametrize("around", [0, 1, 4])
def test_waves_shorter_than_the_last_carry_nothing(around):
    """The same integrals to four times as far, on a finer grid."""
    places, weights = np.polynomial.legendre.leggauss(6)
    ends = np.linspace(0.0, 4.0 * FARTHEST, 6001)
    half, middle = np.diff(ends) / 2, (ends[1:] + ends[:-1]) / 2
    waves = (middle[:, None] + half[:, None] * places).ravel()
    weight = (half[:, None] * weights).ravel()
    heads, pipe = head_waves(around, 10, waves), air_waves(around, 10, waves)
    assert np.allclose((heads * weight) @ heads.T, baffled_mass(around, 10), rtol=0, atol=1e-8)
    tail = baffled_opening_mass(around, 10) - (pipe * weight) @ pipe.T
    assert np.abs(tail).max() < 3e-7


@cases(6)
@given(batter=TENSION, warm=st.floats(1.0, 25.0))
def test_thinner_warmer_air_lets_the_pair_rise(batter, warm):
    """The whole air: lighter by its temperature, its spring the same. Never lower."""
    cold = drum(batter=batter)
    air = cold.air
    lighter = (air.celsius + 273.15) / (air.celsius + 273.15 + warm)
    hot = replace(
        cold,
        air=replace(
            air, density_kg_per_m3=air.density_kg_per_m3 * lighter,
            sound_m_per_s=air.sound_m_per_s / math.sqrt(lighter),
        ),
    )  # fmt: skip
    for m in (0, 1):
        for up, own in zip(pitches(hot, m)[:2], pitches(cold, m)[:2], strict=True):
            assert up > own


def test_ten_degrees_warmer_lift_the_pair_by_half_a_comma():
    """20 to 30 degrees, 12 by 8 in: 12 and 10 cents by another program, whole cents."""
    warm = replace(drum(), air=air_at(30.0))
    lift = [cents(a, b) for a, b in zip(pitches(warm, 0)[:2], pitches(drum(), 0)[:2], strict=True)]
    assert lift == pytest.approx([12.0, 10.0], abs=2.0)
