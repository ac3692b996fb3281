"""Rods as waves round the rim.

Truth: Fourier sums worked by hand, exact laws, and brute force over a rim cut into pieces.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.heads.rim_load import RimLoad, Wave, load_of_rods

RADIUS_M = 0.1524
PULLS = st.lists(st.floats(100.0, 900.0), min_size=3, max_size=12)


def places(rods: int) -> list[float]:
    return [rod * 360.0 / rods for rod in range(rods)]


@given(PULLS)
def test_all_pulls_together_are_the_load_over_the_rim(pulls):
    load = load_of_rods(pulls, along_deg=places(len(pulls)), radius_m=RADIUS_M)
    assert load.mean_n_per_m * 2.0 * math.pi * RADIUS_M == pytest.approx(sum(pulls))


@given(st.integers(3, 12), st.floats(100.0, 900.0))
def test_even_rods_leave_no_wave_of_fewer_lobes_than_rods(rods, pull):
    load = load_of_rods([pull] * rods, along_deg=places(rods), radius_m=RADIUS_M, most_lobes=rods)
    *fewer, ripple = load.waves
    assert all(wave.high_n_per_m < 1e-9 * pull for wave in fewer)
    assert ripple.high_n_per_m == pytest.approx(2.0 * load.mean_n_per_m)


@given(PULLS, st.floats(0.0, 360.0))
def test_a_turned_drum_has_a_turned_load(pulls, turn_deg):
    at = places(len(pulls))
    load = load_of_rods(pulls, along_deg=at, radius_m=RADIUS_M)
    turned = load_of_rods(pulls, along_deg=[a + turn_deg for a in at], radius_m=RADIUS_M)
    for here in (0.0, 77.0, 200.0):
        assert turned.at(here + turn_deg) == pytest.approx(load.at(here), abs=1e-6 * sum(pulls))


def test_one_rod_of_six_pulls_more():
    """40 N more: 40 over pi a in each wave, worked by hand."""
    pulls = [440.0, *[400.0] * 5]
    load = load_of_rods(pulls, along_deg=places(6), radius_m=RADIUS_M, most_lobes=5)
    assert [w.high_n_per_m for w in load.waves] == pytest.approx([40 / (math.pi * RADIUS_M)] * 5)
    assert all(wave.at(0.0) == pytest.approx(wave.high_n_per_m) for wave in load.waves)


def test_waves_are_those_of_a_rim_cut_into_pieces():
    """A smooth load, put on 720 rods one beside the other, comes back."""
    load = RimLoad(
        mean_n_per_m=2500.0,
        waves=(Wave(lobes=2, high_n_per_m=200.0, tight_deg=35.0),
               Wave(lobes=3, high_n_per_m=90.0, tight_deg=110.0)),
    )  # fmt: skip
    at = np.arange(720) / 2.0
    piece_m = 2.0 * math.pi * RADIUS_M / 720
    again = load_of_rods([load.at(a) * piece_m for a in at], along_deg=at, radius_m=RADIUS_M)
    for lobes in (2, 3):
        found, put = again.wave(lobes), load.wave(lobes)
        assert found.high_n_per_m == pytest.approx(put.high_n_per_m, rel=1e-9)
        assert found.tight_deg == pytest.approx(put.tight_deg, abs=1e-6)
    assert again.wave(4).high_n_per_m < 1e-9


@pytest.mark.parametrize(("pulls", "at"), [([1.0, 2.0], [0.0, 180.0]), ([1.0] * 4, [0.0] * 3)])
def test_what_cannot_be_laid_round_is_refused(pulls, at):
    with pytest.raises(BadInput, match="three rods or more"):
        load_of_rods(pulls, along_deg=at, radius_m=RADIUS_M)
