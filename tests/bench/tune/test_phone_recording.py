"""A recording as a phone in a workshop takes it, from its bytes to what is to be turned.

Truth: the sound is written from its formula (the split, the axis, the rod of every tap), and what
goes wrong in it is put in by hand.
"""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray
from small_kits import drum, tune

from counterhoop.bench.tune.heard import Heard
from counterhoop.bench.tune.listened import listened
from counterhoop.heads.wav import wav_bytes

RATE_HZ, LASTS_S = 16_000, 2.4
SPLIT_CENTS, AXIS_DEG, PHONE_DEG = 30.0, 70.0, 205.0
ALONG_DEG = (30.0, 90.0, 150.0, 210.0, 270.0, 330.0)
Floats = NDArray[np.float64]


def tap(rod: int, *, db: float, chance: np.random.Generator) -> Floats:
    """Two pitches round 200 Hz, (0,1) and (2,1) beside them, a stick; a hand that errs by 3 deg."""
    t = np.arange(round(LASTS_S * RATE_HZ)) / RATE_HZ
    ahead = t + 0.03 * 0.12 * -np.expm1(-t / 0.12)
    place = np.radians(ALONG_DEG[rod - 1] + 3.0 * chance.standard_normal() - AXIS_DEG)
    phone, half = np.radians(PHONE_DEG - AXIS_DEG), 2.0 ** (SPLIT_CENTS / 2400.0)
    tones = (
        (200.0 / half, np.sin(place) * np.sin(phone), 4.0),
        (200.0 * half, np.cos(place) * np.cos(phone), 4.0),
        (118.0, 0.5, 8.0),
        (282.0, 0.5, 4.0),
    )
    rings = sum(a * np.exp(-d * t) * np.cos(2 * np.pi * hz * ahead) for hz, a, d in tones)
    stick = chance.standard_normal(len(t)) * np.exp(-t / 0.002)
    return np.asarray(10.0 ** (db / 20.0) * (rings + stick))


def word(chance: np.random.Generator) -> Floats:
    """A held vowel: harmonics that swell, stay and stop."""
    t = np.arange(round(0.5 * RATE_HZ)) / RATE_HZ
    swell = np.minimum(1.0, t / 0.05) * np.minimum(1.0, (0.5 - t) / 0.05)
    voice = sum(np.sin(2 * np.pi * 130.0 * n * t + 6.0 * chance.random()) / n for n in range(1, 20))
    return np.asarray(0.4 * swell * voice)


def recorded(*taps: tuple[float, int, float], words_s: tuple[float, ...] = ()) -> bytes:
    """Taps (when, at which rod, how loud in dB) through a recorder that turns itself up and clips.

    It comes up within half a second where it is quiet, by 20 dB at most.
    """
    chance = np.random.default_rng(4)
    sound = 2e-3 * chance.standard_normal(round((max(at for at, _, _ in taps) + 3.0) * RATE_HZ))
    parts = [(at, tap(rod, db=db, chance=chance)) for at, rod, db in taps]
    for at_s, part in [*parts, *((at, word(chance)) for at in words_s)]:
        first = round(at_s * RATE_HZ)
        sound[first : first + len(part)] += part[: len(sound) - first]
    level, gains = 0.0, np.empty_like(sound)
    for at, size in enumerate(np.abs(sound)):
        seconds = 0.01 if size > level else 0.5
        level += (size - level) / (seconds * RATE_HZ)
        gains[at] = min(1.0, 0.1 / (level + 1e-6))
    return wav_bytes(np.clip(sound * gains, -0.9, 0.9), rate_hz=RATE_HZ)


def heard_of(data: bytes) -> Heard:
    return listened(data, tune=tune(drum("tom", girth=955, depth=203)))


UNEVEN = (
    (0.5, 1, 0.0), (2.5, 2, -8.0), (4.5, 3, 3.0), (4.56, 3, -3.0), (6.5, 4, -12.0), (10.0, 5, 26.0),
    (12.5, 6, -4.0),
)  # fmt: skip
"""The stick bounces at rod 3, and rod 5 is struck far too hard."""


def test_uneven_taps_a_bounce_and_a_hard_one_leave_every_rod_in_its_place():
    heard = heard_of(recorded(*UNEVEN))
    assert {round(one.starts_s, 1): one.rod for one in heard.strokes if not one.dropped} == {
        0.5: 1, 2.5: 2, 6.5: 4, 10.0: 5, 12.5: 6,
    }  # fmt: skip
    assert heard.rim is not None
    assert heard.rim.split_cents == pytest.approx(SPLIT_CENTS, abs=1.0)
    assert heard.rim.axis_deg == pytest.approx(AXIS_DEG, abs=5.0)
    assert heard.advice is not None
    assert heard.advice.pattern != ()


def test_a_word_that_the_recorder_makes_die_away_like_a_drum_turns_nothing():
    """It may pass for a tap and shift the rods after it, but it does not ring round the rim."""
    heard = heard_of(recorded(*UNEVEN, words_s=(8.3,)))
    assert heard.advice is not None
    assert heard.advice.pattern == ()
