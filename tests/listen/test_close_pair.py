"""Tones that beat among others, and what only looks as if two did.

Truth: sounds written from their formulas in ``synthetic.py``.
"""

from __future__ import annotations

import numpy as np
import pytest
from synthetic import Slide, Tone, noise_of, pair, rung

from counterhoop.listen.partial import ClosePair
from counterhoop.listen.read_stroke import read_stroke
from counterhoop.listen.sound import Sound
from counterhoop.listen.strokes import Stroke

RATE_HZ = 8000
# As high and as short-lived as on a snare drum: gone by 60 dB in 0.7, 0.6 and 0.35 s.
THREE = (
    Tone(hz=687.4, decay_per_s=9.9, amplitude=0.6),
    Tone(hz=696.0, decay_per_s=11.5, phase_rad=2.0),
    Tone(hz=707.6, decay_per_s=19.7, amplitude=1.6, phase_rad=4.0),
)


def pairs_in(sound: np.ndarray) -> tuple[ClosePair, ...]:
    stroke = Stroke(number=1, starts_s=0.0, ends_s=len(sound) / RATE_HZ)
    return read_stroke(Sound(samples=sound, rate_hz=RATE_HZ), stroke).pairs


def in_noise(*tones: Tone, snr_db: float, seed: int, slide: Slide) -> np.ndarray:
    clean = rung(*tones, rate_hz=RATE_HZ, slide=slide)
    return clean + noise_of(len(clean), snr_db=snr_db, seed=seed, rate_hz=RATE_HZ)


def turned(tones: tuple[Tone, ...], seed: int) -> list[Tone]:
    """Return tones with phases at random."""
    chance = np.random.default_rng(seed)
    return [
        Tone(
            hz=tone.hz,
            decay_per_s=tone.decay_per_s,
            amplitude=tone.amplitude,
            phase_rad=chance.uniform(0.0, 6.3),
        )
        for tone in tones
    ]


def found_among_three(count: int) -> float:
    found = 0
    for seed in range(count):
        slide = Slide(share=(0.0, 0.003)[seed % 2], tau_s=0.04)
        sound = in_noise(*turned(THREE, seed), snr_db=30.0, seed=seed, slide=slide)
        beats = [two.beat_hz for two in pairs_in(sound) if abs(two.low.hz - 687.4) < 2.0]
        found += beats != [] and abs(beats[0] / 8.6 - 1.0) < 0.1
    return found / count


def test_two_tones_that_beat_are_found_though_a_third_rings_beside_them() -> None:
    assert found_among_three(4) >= 3 / 4


def test_two_tones_a_dozen_hertz_apart_are_two_tones_and_no_pair() -> None:
    for seed in range(3):
        sound = in_noise(*turned(THREE[1:], seed), snr_db=30.0, seed=seed, slide=Slide())
        assert pairs_in(sound) == ()


def invented_of_bent_decays(count: int) -> int:
    """Return how many of so many single tones, each dying fast first and slowly then, beat."""
    chance = np.random.default_rng(11)
    invented = 0
    for seed in range(count):
        hz, slow = chance.uniform(80.0, 700.0), chance.uniform(2.5, 8.0)
        tones = (
            Tone(hz=hz, decay_per_s=slow),
            Tone(hz=hz, decay_per_s=slow * chance.uniform(1.5, 5.0), amplitude=1.5),
        )
        slide = Slide(share=chance.uniform(0.0, 0.06), tau_s=1.0 / (2.0 * slow))
        sound = in_noise(*tones, snr_db=chance.uniform(15.0, 45.0), seed=seed, slide=slide)
        invented += bool(pairs_in(sound))
    return invented


def test_one_tone_whose_decay_bends_is_no_pair() -> None:
    assert invented_of_bent_decays(6) == 0


def found_of_quick_pairs(decay_per_s: float, *, count: int) -> float:
    """Return how often a pair 2 Hz apart, 20 dB above the noise, is found; gliding or not."""
    chance = np.random.default_rng(12)
    found = 0
    for seed in range(count):
        sound = pair(
            (100.0, 180.0)[seed // 3 % 2],
            apart_hz=2.0,
            decay_per_s=decay_per_s,
            snr_db=20.0,
            seed=seed,
            phases_rad=(chance.uniform(0.0, 6.3), chance.uniform(0.0, 6.3)),
            slide=Slide(share=(0.0, 0.04, 0.1)[seed % 3], tau_s=1.0 / (2.0 * decay_per_s)),
            rate_hz=RATE_HZ,
        )
        found += any(abs(two.beat_hz - 2.0) < 0.2 for two in pairs_in(sound))
    return found / count


@pytest.mark.full
def test_pairs_beside_others_and_quick_pairs_at_full_counts() -> None:
    assert found_among_three(60) >= 0.8
    assert invented_of_bent_decays(200) <= 1
    # No method reads this beat better than to 0.04 Hz at 5 per second, 0.07 at 6, 0.10 at 7 and
    # 0.28 at 10, where a tenth of it is asked for [computed: Fisher information].
    assert found_of_quick_pairs(5.0, count=60) >= 0.85
    assert found_of_quick_pairs(6.0, count=60) >= 0.5
