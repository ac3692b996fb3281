"""The bound: against the closed form without glide, a numerical Fisher matrix, exact scaling."""

from __future__ import annotations

import math

import numpy as np
import pytest

from counterhoop.listen.bound import least_doubt_hz
from counterhoop.listen.glide import Course

SNR_20 = {"amplitude": 1.0, "noise_variance": 0.005, "rate_hz": 2000.0}


def fisher(unknowns: np.ndarray, known: int, *, seconds: float, rate_hz: float) -> np.ndarray:
    """Return the Fisher matrix for unit noise, by central differences of the sound itself."""
    at = np.arange(round(seconds * rate_hz)) / rate_hz

    def sound(u: np.ndarray) -> np.ndarray:
        amplitude, phase, decay, hz, share, tau = u
        ran = at + share * tau * (1.0 - np.exp(-at / tau))
        return np.asarray(amplitude * np.exp(-decay * at) * np.cos(2.0 * np.pi * hz * ran + phase))

    slopes = []
    for which in range(known):
        step = np.zeros(6)
        step[which] = 1e-5 * max(abs(unknowns[which]), 0.1)
        slopes.append((sound(unknowns + step) - sound(unknowns - step)) / (2.0 * step[which]))
    rows = np.array(slopes)
    return np.asarray(rows @ rows.T)


@pytest.mark.parametrize("share", [0.01, 0.05, 0.12])
def test_the_bound_is_that_of_a_fisher_matrix_by_differences(share: float) -> None:
    unknowns = np.array([1.0, 0.0, 4.0, 100.0, share, 0.125])
    spread = np.linalg.inv(fisher(unknowns, 6, seconds=1.0, rate_hz=2000.0)) * 0.005
    tone = Course(hz=100.0, decay_per_s=4.0, share=share, tau_s=0.125)
    assert least_doubt_hz(tone, **SNR_20, seconds=1.0) == pytest.approx(
        math.sqrt(spread[3, 3]), rel=1e-3
    )


def test_a_tone_known_not_to_glide_has_the_closed_form() -> None:
    # sd(f) = sqrt(8 decay^3 / (snr rate)) / 2 pi for a sound heard to its end [computed]; for
    # decay 4, 20 dB and 2 kHz 0.00805 Hz, and 0.0081 Hz in one second.
    unknowns = np.array([1.0, 0.3, 4.0, 100.0, 0.0, 0.125])
    spread = np.linalg.inv(fisher(unknowns, 4, seconds=2.5, rate_hz=2000.0)) * 0.005
    closed = math.sqrt(8.0 * 4.0**3 / (100.0 * 2000.0)) / (2.0 * math.pi)
    assert closed == pytest.approx(0.00805, abs=5e-6)
    assert math.sqrt(spread[3, 3]) == pytest.approx(closed, rel=0.02)


def test_ten_times_less_noise_power_is_ten_decibels_and_a_glide_only_adds_doubt() -> None:
    tone = Course(hz=100.0, decay_per_s=4.0, share=0.05, tau_s=0.125)
    loud = least_doubt_hz(tone, **SNR_20, seconds=1.0)
    quiet = least_doubt_hz(tone, amplitude=1.0, noise_variance=0.0005, rate_hz=2000.0, seconds=1.0)
    assert loud / quiet == pytest.approx(math.sqrt(10.0), rel=1e-9)
    assert loud > 0.0081
    assert least_doubt_hz(tone, **SNR_20, seconds=1.0, since_s=0.05) > loud
