"""A band of a sound moved to zero: against the formula of the tone that went in."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.listen.heterodyne import band_around, low_pass, thinned

RATE_HZ = 2205.0
TIMES = np.arange(2205) / RATE_HZ


@given(
    hz=st.floats(86.0, 114.0),
    phase=st.floats(-3.0, 3.0),
    starts_s=st.floats(0.0, 0.1),
    decay=st.floats(0.0, 8.0),
)
def test_a_tone_inside_comes_out_as_its_complex_self(
    hz: float, phase: float, starts_s: float, decay: float
) -> None:
    # Exact law: A cos(2 pi f t + p) becomes A exp(i (2 pi (f - f0) t + p)), t from the stroke.
    at = TIMES + starts_s
    sound = 3.0 * np.exp(-decay * at) * np.cos(2.0 * np.pi * hz * at + phase)
    band = band_around(
        sound, rate_hz=RATE_HZ, centre_hz=100.0, half_width_hz=20.0, starts_s=starts_s
    )
    then = band.times_s
    truth = 3.0 * np.exp(-decay * then + 1j * (2.0 * np.pi * (hz - 100.0) * then + phase))
    assert np.abs(band.values - truth).max() < 0.01


@pytest.mark.parametrize("hz", [10.0, 60.0, 69.0, 131.0, 180.0, 700.0])
def test_a_tone_outside_is_seventy_decibels_down(hz: float) -> None:
    sound = np.cos(2.0 * np.pi * hz * TIMES)
    band = band_around(sound, rate_hz=RATE_HZ, centre_hz=100.0, half_width_hz=20.0)
    assert np.abs(band.values).max() < 10.0 ** (-68.0 / 20.0)


def test_a_tone_just_outside_is_not_stopped() -> None:
    # The comparison above can fail: nothing stops a tone on the edge of the filter.
    sound = np.cos(2.0 * np.pi * 125.0 * TIMES)
    band = band_around(sound, rate_hz=RATE_HZ, centre_hz=100.0, half_width_hz=20.0)
    assert np.abs(band.values).max() > 0.1


def test_noise_in_a_band_is_what_its_width_says() -> None:
    noise = np.random.default_rng(3).standard_normal(200_000)
    band = band_around(noise, rate_hz=RATE_HZ, centre_hz=400.0, half_width_hz=30.0)
    assert np.mean(np.abs(band.values) ** 2) == pytest.approx(
        4.0 * band.noise_hz / RATE_HZ, rel=0.03
    )


def test_later_samples_keep_their_times() -> None:
    band = band_around(np.ones(2205), rate_hz=RATE_HZ, centre_hz=0.0, half_width_hz=20.0)
    later = band.after(0.5)
    assert later.starts_s >= 0.5 > later.starts_s - 1.0 / band.rate_hz
    assert np.allclose(later.times_s, band.times_s[-len(later.values) :])


def test_a_sound_shorter_than_the_filter_gives_no_samples() -> None:
    short = band_around(np.ones(50), rate_hz=RATE_HZ, centre_hz=100.0, half_width_hz=20.0)
    assert len(short.values) == 0


@given(hz=st.floats(30.0, 840.0), rate_hz=st.sampled_from([8000.0, 22050.0, 44100.0, 96000.0]))
def test_thinned_sound_is_the_same_sound_at_fewer_times(hz: float, rate_hz: float) -> None:
    at = np.arange(int(0.5 * rate_hz)) / rate_hz
    thin, thin_hz = thinned(np.cos(2.0 * np.pi * hz * at), rate_hz=rate_hz, up_to_hz=850.0)
    inner = slice(20, -20)
    truth = np.cos(2.0 * np.pi * hz * np.arange(len(thin)) / thin_hz)
    assert np.abs(thin - truth)[inner].max() < 0.002
    assert thin_hz >= 2.8 * 850.0


def test_the_filter_is_even_and_sums_to_one() -> None:
    taps = low_pass(0.01, 0.005)
    assert taps.sum() == pytest.approx(1.0)
    assert np.allclose(taps, taps[::-1])
