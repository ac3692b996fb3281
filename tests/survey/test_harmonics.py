"""Waves round the rim: put in, found again; and what a caliper cannot see."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize

from counterhoop.survey.harmonics import (
    curve_mm,
    harmonics,
    hidden_from_diameters_mm,
    highest_order,
    saddle_response,
)
from counterhoop.survey.round_stations import equal_stations_deg


def wave(order, size, high, count=16):
    along = equal_stations_deg(count)
    return along, [size * math.cos(math.radians(order * (a - high))) for a in along]


@given(st.integers(1, 7), st.floats(0.01, 5), st.floats(0, 360))
def test_a_wave_is_found_again(order, size, high):
    found = harmonics(*wave(order, size, high))
    assert len(found) == 7
    for one in found:
        assert one.amplitude_mm == pytest.approx(size if one.order == order else 0, abs=1e-9)
    off = order * (found[order - 1].high_deg - high)
    assert math.cos(math.radians(off)) == pytest.approx(1, abs=1e-9)


@given(st.lists(st.floats(-1, 1), min_size=5, max_size=31).filter(lambda v: len(v) % 2 == 1))
def test_against_the_fourier_transform(values):
    # Independent: numpy's FFT; with an odd number of stations the waves give every reading back.
    found = harmonics(equal_stations_deg(len(values)), values)
    sizes = 2 * np.abs(np.fft.rfft(values))[1:] / len(values)
    assert [w.amplitude_mm for w in found] == pytest.approx(list(sizes), abs=1e-9)
    for angle, value in zip(equal_stations_deg(len(values)), values, strict=True):
        assert np.mean(values) + curve_mm(found, angle) == pytest.approx(value, abs=1e-9)


def test_doubt_of_amplitude_and_direction():
    # Closed form at equal stations: u sqrt(2/N); over n times the amplitude for the direction.
    oval = harmonics(*wave(2, 0.5, 30.0), reading_doubt_mm=0.1)[1]
    assert oval.doubt_mm == pytest.approx(0.1 * math.sqrt(2 / 16), abs=1e-12)
    assert oval.high_doubt_deg == pytest.approx(math.degrees(oval.doubt_mm / 0.5 / 2), abs=1e-9)
    assert oval.sure
    assert not harmonics(*wave(2, 0.05, 30.0), reading_doubt_mm=0.1)[1].sure


def test_the_doubt_against_chance():
    # Independent: two thousand surveys with made-up errors of a fixed seed.
    chance = np.random.default_rng(7)
    along, values = wave(2, 0.5, 30.0)
    sizes = [
        harmonics(along, values + chance.normal(0, 0.02, 16))[1].amplitude_mm for _ in range(2000)
    ]
    assert np.std(sizes) == pytest.approx(0.02 * math.sqrt(2 / 16), rel=0.06)


def test_three_lobes_measure_the_same_everywhere():
    along, values = wave(3, 0.5, 10.0, count=30)
    across = [values[i] + values[i + 15] for i in range(15)]
    assert max(across) - min(across) == pytest.approx(0, abs=1e-12)
    found = harmonics(along, values)
    assert hidden_from_diameters_mm(found) == pytest.approx(1.0, abs=1e-3)
    assert hidden_from_diameters_mm(harmonics(*wave(2, 0.5, 0))) == pytest.approx(0, abs=1e-9)


@given(st.integers(1, 9), st.floats(10, 80))
def test_the_saddle_against_geometry(order, feet):
    # Independent: two feet at a fixed distance set down on a slightly wavy shell of 178 mm; the
    # dial is set to 0 on a round one.
    small, radius, half = 1e-3, 178.0, math.radians(feet)

    def skin(angle):
        return radius + small * math.cos(order * angle)

    foot = optimize.brentq(
        lambda angle: skin(angle) * math.sin(angle) - radius * math.sin(half),
        half - 0.01,
        half + 0.01,
        xtol=1e-15,
    )
    reading = skin(0) - skin(foot) * math.cos(foot) - radius * (1 - math.cos(half))
    assert reading / small == pytest.approx(saddle_response(order, feet_deg=feet), abs=2e-2)


def test_unequal_stations_tell_fewer_waves():
    assert highest_order(equal_stations_deg(16)) == 7
    assert highest_order((0, 30, 60, 90, 120, 150, 180, 210, 240, 300)) == 3
