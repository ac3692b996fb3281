"""Spectrum and fading of a recording, thinned to what a drawing shows."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from counterhoop.bench.tune.heard import Fade, Spectrum
from counterhoop.listen.sound import Sound
from counterhoop.listen.strokes import Stroke

UP_TO_HZ, STEP_HZ = 800.0, 2.0
FLOOR_DB = -60.0
FADE_STEP_S, FADE_LONGEST_S = 0.02, 2.0
_AFTER_S, _LONGEST_S = 0.05, 1.5


def spectrum_of(sound: Sound, strokes: Sequence[Stroke]) -> Spectrum | None:
    """Return the mean spectrum of strokes, over its highest point; None without a stroke.

    Each counts alike, and so does each 50 ms after it landed, when the stick is off the head.
    """
    steps = round(UP_TO_HZ / STEP_HZ)
    total = np.zeros(steps + 1)
    for stroke in strokes:
        ends_s = min(stroke.ends_s, stroke.starts_s + _LONGEST_S)
        part = sound.between(stroke.starts_s + _AFTER_S, ends_s)
        if len(part) < sound.rate_hz // 10:
            continue
        size = round(sound.rate_hz / STEP_HZ * np.ceil(len(part) * STEP_HZ / sound.rate_hz))
        power = np.abs(np.fft.rfft(part * np.hanning(len(part)), n=size)) ** 2
        every = size * STEP_HZ / sound.rate_hz
        # The highest of the lines within a step: a peak is not to fall between two steps.
        bins = np.rint(np.arange(len(power)) / every).astype(int)
        kept = bins <= steps
        highest = np.zeros(steps + 1)
        np.maximum.at(highest, bins[kept], power[kept])
        if highest.max() > 0.0:
            total += highest / highest.max()
    if not total.max() > 0.0:
        return None
    db = 10.0 * np.log10(np.maximum(total / total.max(), 10.0 ** (FLOOR_DB / 10.0)))
    return Spectrum(from_hz=0.0, step_hz=STEP_HZ, db=_tenths(db))


def fade_of(sound: Sound, stroke: Stroke) -> Fade | None:
    """Return how one stroke fades, over its loudest step; None where it is too short."""
    part = sound.between(stroke.starts_s, min(stroke.ends_s, stroke.starts_s + FADE_LONGEST_S))
    size = round(FADE_STEP_S * sound.rate_hz)
    count = len(part) // size
    if count < 3:
        return None
    power = (part[: count * size].reshape(count, size) ** 2).mean(axis=1)
    if not power.max() > 0.0:
        return None
    db = 10.0 * np.log10(np.maximum(power / power.max(), 10.0 ** (FLOOR_DB / 10.0)))
    return Fade(step_s=FADE_STEP_S, db=_tenths(db))


def _tenths(db: NDArray[np.float64]) -> tuple[float, ...]:
    return tuple(round(float(one), 1) for one in db)
