"""The sounds of known truth are what they claim to be.

Truth: the formulas evaluated by hand, Parseval's sum over a spectrum, and counting cycles.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from synthetic import Rim, Slide, Tone, in_a_row, noise_of, pair, rung, single


def test_one_tone_is_its_formula_at_one_time_worked_by_hand():
    sound = rung(Tone(hz=100.0, decay_per_s=4.0, amplitude=0.5, phase_rad=0.2), rate_hz=8000)
    # At 0.25 s: 25 whole turns, and one e-folding.
    assert sound[2000] == pytest.approx(0.5 * math.exp(-1.0) * math.cos(0.2), abs=1e-12)


def test_the_glide_adds_its_share_times_tau_of_turns():
    """Turns from 0 to the end: hz (t + share tau), hand-worked; counted where nought is crossed."""
    slide = Slide(share=0.05, tau_s=0.1)
    sound = rung(Tone(hz=200.0, decay_per_s=0.5, phase_rad=-1.0), seconds=2.0, slide=slide)
    rising = int(((sound[:-1] < 0) & (sound[1:] >= 0)).sum())
    assert rising == pytest.approx(200.0 * (2.0 + 0.05 * 0.1), abs=1.0)
    assert rising != pytest.approx(200.0 * 2.0, abs=0.4)


@pytest.mark.parametrize("rate_hz", [8000, 44_100])
def test_noise_has_its_variance_within_one_kilohertz(rate_hz):
    """The spectrum summed over 0 to 1 kHz (Parseval) is amplitude^2 / 2 at 0 dB."""
    noise = noise_of(20 * rate_hz, snr_db=0.0, amplitude=0.8, seed=3, rate_hz=rate_hz)
    spectrum = np.fft.rfft(noise)
    below = np.fft.rfftfreq(len(noise), 1 / rate_hz) <= 1000.0
    power = 2.0 * float((np.abs(spectrum[below]) ** 2).sum()) / len(noise) ** 2
    assert power == pytest.approx(0.8**2 / 2.0, rel=0.03)


def test_the_same_seed_gives_the_same_sound_and_another_does_not():
    assert np.array_equal(single(150.0, seed=5), single(150.0, seed=5))
    assert not np.array_equal(single(150.0, seed=5), single(150.0, seed=6))


def test_a_pair_is_two_tones():
    both = pair(200.0, apart_hz=2.0, snr_db=200.0, phases_rad=(0.0, 0.0))
    alone = rung(Tone(hz=200.0)) + rung(Tone(hz=202.0, amplitude=0.7))
    np.testing.assert_allclose(both, alone, atol=1e-8)


def test_strokes_in_a_row_start_where_it_says():
    taps = [np.array([1.0, 0.5]), np.array([2.0, 0.5])]
    row, starts = in_a_row(taps, every_s=0.1, lead_s=0.05, rate_hz=1000)
    assert starts == (0.05, 0.15)
    assert [row[round(start * 1000)] for start in starts] == [1.0, 2.0]


def test_a_tap_on_the_axis_has_one_tone_and_one_between_has_both():
    rim = Rim(axis_deg=20.0, phone_deg=65.0)
    flat, sharp = rim.tones(20.0)
    assert flat.amplitude == pytest.approx(0.0, abs=1e-15)
    assert sharp.amplitude == pytest.approx(math.sqrt(0.5))
    assert 1200.0 * math.log2(sharp.hz / flat.hz) == pytest.approx(30.0)
    flat, sharp = rim.tones(65.0)
    assert flat.amplitude == pytest.approx(sharp.amplitude)
