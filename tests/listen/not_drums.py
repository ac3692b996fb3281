"""Sounds that are no drum: a voice, music, noise, clicks, all from their formulas and a seed.

The voice is a train of pulses whose pitch moves, through resonances that change from syllable to
syllable, with bursts and hisses between: the source and filter of G. Fant, Acoustic Theory of
Speech Production (1960), with formants of vowels after G. E. Peterson and H. L. Barney, J. Acoust.
Soc. Am. 24 (1952) 175 (both from memory).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.signal import butter, lfilter, sosfilt

Floats = NDArray[np.float64]
RATE_HZ = 44_100
VOWELS = (
    (730, 1090, 2440),
    (270, 2290, 3010),
    (300, 870, 2240),
    (530, 1840, 2480),
    (570, 840, 2410),
)


def voice(*, seconds: float = 4.0, seed: int = 1, rate_hz: int = RATE_HZ) -> Floats:
    """Return something like speech of four syllables a second."""
    chance = np.random.default_rng(seed)
    count = round(seconds * rate_hz)
    out = np.zeros(count)
    at = round(0.3 * rate_hz)
    base_hz = chance.uniform(90.0, 220.0)
    while at < count - rate_hz // 10:
        long = round(chance.uniform(0.14, 0.32) * rate_hz)
        kind = chance.integers(3)
        if kind == 0:
            burst = round(0.012 * rate_hz)
            sound = chance.standard_normal(burst) * np.exp(-np.arange(burst) / (0.003 * rate_hz))
            _add(out, 0.25 * sound, at)
            at += burst
        elif kind == 1:
            hiss = round(chance.uniform(0.05, 0.12) * rate_hz)
            sections = butter(
                2, (2500, min(7000, 0.45 * rate_hz)), btype="bandpass", fs=rate_hz, output="sos"
            )
            _add(out, 0.1 * sosfilt(sections, chance.standard_normal(hiss)) * np.hanning(hiss), at)
            at += hiss
        _add(out, _syllable(long, base_hz, chance, rate_hz), at)
        at += long + round(chance.choice([0.01, 0.04, 0.3], p=[0.5, 0.3, 0.2]) * rate_hz)
    return 0.5 * out / np.abs(out).max() + 2e-4 * chance.standard_normal(count)


def _syllable(long: int, base_hz: float, chance: np.random.Generator, rate_hz: int) -> Floats:
    share = np.arange(long) / long
    bend = chance.uniform(-0.15, 0.15)
    hz = base_hz * chance.uniform(0.85, 1.15) * (1.0 + bend * share + 0.01 * np.sin(30.0 * share))
    phase = np.cumsum(hz / rate_hz)
    pulses = np.diff(np.floor(phase), prepend=0.0)
    sound = lfilter([1.0], [1.0, -0.97], pulses + 0.01 * chance.standard_normal(long))
    for formant in VOWELS[chance.integers(len(VOWELS))]:
        pole = np.exp(-np.pi * 90.0 / rate_hz + 2j * np.pi * formant / rate_hz)
        sound = lfilter([1.0], [1.0, -2.0 * pole.real, abs(pole) ** 2], sound)
    swell = np.minimum(1.0, share * long / (0.03 * rate_hz)) * np.minimum(1.0, (1 - share) / 0.3)
    return np.asarray(swell * sound / np.abs(sound).max())


def _add(out: Floats, part: Floats, at: int) -> None:
    part = part[: len(out) - at]
    out[at : at + len(part)] += part


def music(*, seconds: float = 4.0, seed: int = 1, rate_hz: int = RATE_HZ) -> Floats:
    """Return chords that are held, as of an organ, changed twice a second."""
    chance = np.random.default_rng(seed)
    out = np.zeros(round(seconds * rate_hz))
    long = round(0.5 * rate_hz)
    at_s = np.arange(long) / rate_hz
    swell = np.minimum(1.0, at_s / 0.02) * np.minimum(1.0, (at_s[-1] - at_s) / 0.03)
    for start in range(0, len(out), long):
        root = 110.0 * 2.0 ** (chance.integers(12) / 12.0)
        chord = sum(
            np.sin(2 * np.pi * root * step * over * at_s + chance.uniform(0, 6)) / over
            for step in (1.0, 1.26, 1.5) for over in (1, 2, 3, 4)
        )  # fmt: skip
        _add(out, 0.1 * swell * chord, start)
    return out + 2e-4 * chance.standard_normal(len(out))


def noise(*, seconds: float = 4.0, seed: int = 1, rate_hz: int = RATE_HZ) -> Floats:
    """Return a fan: noise that is stronger below, with a hum."""
    chance = np.random.default_rng(seed)
    rough = lfilter([1.0], [1.0, -0.95], chance.standard_normal(round(seconds * rate_hz)))
    hum = 0.3 * np.sin(2 * np.pi * 100.0 * np.arange(len(rough)) / rate_hz)
    return np.asarray(0.05 * (rough / rough.std() + hum))


def click(*, seconds: float = 2.0, rate_hz: int = RATE_HZ) -> Floats:
    """Return one click, as of a switch."""
    out = 2e-4 * np.random.default_rng(1).standard_normal(round(seconds * rate_hz))
    long = round(0.004 * rate_hz)
    at_s = np.arange(long) / rate_hz
    _add(out, 0.5 * np.exp(-at_s / 0.0008) * np.sin(2 * np.pi * 2500.0 * at_s), rate_hz // 2)
    return out
