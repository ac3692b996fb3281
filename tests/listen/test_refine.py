"""The fit of gliding tones: exact on sounds without noise, doubts that hold, independent solver."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import least_squares
from synthetic import Slide, Tone, noise_of, rung, single

from counterhoop.listen.glide import Course, first_guess
from counterhoop.listen.heterodyne import Band, band_around
from counterhoop.listen.high_resolution import poles_of
from counterhoop.listen.refine import refine

RATE_HZ = 4000


def band_of(sound: np.ndarray, hz: float) -> Band:
    return band_around(
        sound, rate_hz=RATE_HZ, centre_hz=1.03 * hz, half_width_hz=0.16 * hz, edge_hz=0.6 * hz
    )


@given(
    hz=st.floats(60.0, 400.0),
    decay=st.floats(1.5, 12.0),
    share=st.floats(0.0, 0.12),
    bent=st.floats(0.7, 1.4),
    phase=st.floats(-3.0, 3.0),
)
def test_a_clean_gliding_tone_is_read_exactly(
    hz: float, decay: float, share: float, bent: float, phase: float
) -> None:
    # Exact law: what was put in comes out. The filter's ripple of 0.03 % is all the noise there is.
    slide = Slide(share=share, tau_s=bent / (2.0 * decay))
    tone = Tone(hz=hz, decay_per_s=decay, phase_rad=phase)
    band = band_of(rung(tone, rate_hz=RATE_HZ, slide=slide), hz)
    fit = refine(band, tones=[first_guess(band)])
    assert fit is not None
    assert 1731.0 * abs(fit.hz[0] / hz - 1.0) < 0.6
    assert fit.decay_per_s[0] == pytest.approx(decay, rel=0.02)
    assert abs(fit.amplitudes[0]) == pytest.approx(1.0, rel=0.02)


def test_doubts_are_as_large_as_the_errors() -> None:
    # Errors over stated doubts of 60 sounds have unit spread; 60 give it to about 9 %.
    slide = Slide(share=0.05, tau_s=0.125)
    ratios = []
    for seed in range(60):
        sound = single(120.0, snr_db=25.0, slide=slide, seed=seed, rate_hz=RATE_HZ, seconds=1.2)
        band = band_of(sound, 120.0)
        fit = refine(band, tones=[first_guess(band)])
        assert fit is not None
        ratios.append((fit.hz[0] - 120.0) / fit.hz_doubt[0])
    assert 0.75 < math.sqrt(np.mean(np.square(ratios))) < 1.35


def test_the_doubt_of_the_glide_knows_a_tone_that_dies_fast_beside_the_one_that_is_read() -> None:
    # As above, but of the share; nothing glides, and what is left over is all at the start. Taken
    # for even noise, it would have the errors half as large again as their doubts.
    chance = np.random.default_rng(3)
    ratios = []
    for seed in range(60):
        phases, at_share = chance.uniform(0.0, 6.3, 2), chance.uniform(0.9, 0.95)
        heard = Tone(hz=175.0, decay_per_s=5.0, phase_rad=phases[0])
        fast = Tone(hz=at_share * 175.0, decay_per_s=34.0, amplitude=0.5, phase_rad=phases[1])
        clean = rung(heard, fast, rate_hz=RATE_HZ)
        noise = noise_of(len(clean), snr_db=30.0, seed=seed, rate_hz=RATE_HZ)
        band = band_of(clean + noise, 175.0).after(0.05)
        fit = refine(band, tones=[Course(hz=175.0, decay_per_s=5.0, share=0.0, tau_s=0.1)])
        assert fit is not None
        ratios.append(fit.share / fit.share_doubt)
    assert 0.5 < math.sqrt(np.mean(np.square(ratios))) < 1.35


def test_an_independent_solver_finds_the_same_two_tones() -> None:
    # Independent implementation: scipy's trust region on real and imaginary parts, all unknown.
    tones = (Tone(hz=150.0), Tone(hz=153.0, amplitude=0.6, phase_rad=1.0, decay_per_s=3.0))
    clean = rung(*tones, rate_hz=RATE_HZ, slide=Slide(share=0.04, tau_s=0.14))
    noise = 0.003 * np.random.default_rng(1).standard_normal(len(clean))
    band = band_of(clean + noise, 151.0)
    starts = [Course(hz=hz, decay_per_s=4.0, share=0.03, tau_s=0.12) for hz in (149.7, 153.4)]
    fit = refine(band, tones=starts)
    assert fit is not None
    times = band.times_s

    def left(u: np.ndarray) -> np.ndarray:
        ran = times + u[8] * u[9] * (1.0 - np.exp(-times / u[9]))
        model = sum(
            (u[k] + 1j * u[k + 1])
            * np.exp((2j * np.pi * (u[k + 2] * ran - band.centre_hz * times)) - u[k + 3] * times)
            for k in (0, 4)
        )
        rest = band.values - model
        return np.concatenate([rest.real, rest.imag])

    begin = [1.0, 0.0, 149.9, 4.0, 0.3, 0.5, 153.1, 3.0, 0.04, 0.14]
    found = least_squares(left, begin, xtol=1e-12, ftol=1e-12).x
    for at, u in enumerate((2, 6)):
        assert abs(fit.hz[at] - found[u]) < 0.5 * fit.hz_doubt[at]


def test_poles_are_those_of_the_formula_and_three_are_not_two() -> None:
    at = np.arange(120) / 120.0
    poles = [(-6.0, 3.0), (1.0, 5.0), (2.5, 4.0)]
    values = sum(np.exp((2j * np.pi * hz - decay) * at) for hz, decay in poles)
    hz, decay = poles_of(np.asarray(values), rate_hz=120.0, count=3)
    assert hz == pytest.approx([-6.0, 1.0, 2.5], abs=1e-6)
    assert decay == pytest.approx([3.0, 5.0, 4.0], abs=1e-5)


def test_a_band_too_short_for_its_unknowns_is_not_fitted() -> None:
    band = band_of(single(100.0, rate_hz=RATE_HZ), 100.0)
    short = Band(
        values=band.values[:3],
        rate_hz=band.rate_hz,
        centre_hz=band.centre_hz,
        starts_s=0.0,
        noise_hz=band.noise_hz,
    )
    assert refine(short, tones=[Course(hz=100.0, decay_per_s=4.0, share=0.0, tau_s=0.1)]) is None
