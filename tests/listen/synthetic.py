"""Sounds whose truth is known: damped tones that glide, in noise, written from their formulas.

Nothing here is taken from the package, so that it can stand as truth for what reads sounds there.

    s(t) = sum_i A_i exp(-decay_i t) cos(phase_i + 2 pi hz_i (t + share tau (1 - exp(-t / tau))))

Every pitch is that of the settled tone; at the start it is sharp by the share.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
RATE_HZ = 44_100
BAND_HZ = 1000.0
"""The band in which the noise is counted."""


@dataclass(frozen=True, kw_only=True)
class Tone:
    """One damped tone; it falls to 1/e of its amplitude in 1 / decay_per_s seconds."""

    hz: float
    decay_per_s: float = 4.0
    amplitude: float = 1.0
    phase_rad: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Slide:
    """How far all tones together start sharp, as a share of the pitch, and how fast that goes."""

    share: float = 0.0
    tau_s: float = 0.12

    @property
    def cents(self) -> float:
        return 1200.0 * math.log2(1.0 + self.share)


STEADY = Slide()


def rung(
    *tones: Tone, seconds: float = 1.5, rate_hz: int = RATE_HZ, slide: Slide = STEADY
) -> Floats:
    """Return the sum of tones that start at the first sample, without noise."""
    at_s = np.arange(round(seconds * rate_hz)) / rate_hz
    ahead_s = slide.share * slide.tau_s * -np.expm1(-at_s / slide.tau_s)
    sound = np.zeros_like(at_s)
    for tone in tones:
        turned = tone.phase_rad + 2.0 * math.pi * tone.hz * (at_s + ahead_s)
        sound += tone.amplitude * np.exp(-tone.decay_per_s * at_s) * np.cos(turned)
    return sound


def noise_of(
    count: int, *, snr_db: float, amplitude: float = 1.0, seed: int, rate_hz: int = RATE_HZ
) -> Floats:
    """Return white noise; amplitude^2 / (2 v) is the ratio, v its variance in 0 to 1 kHz."""
    variance = amplitude**2 / 2.0 / 10.0 ** (snr_db / 10.0)
    spread = math.sqrt(variance * (rate_hz / 2.0) / BAND_HZ)
    return spread * np.random.default_rng(seed).standard_normal(count)


def single(
    hz: float, *, decay_per_s: float = 4.0, snr_db: float = 30.0, slide: Slide = STEADY,
    phase_rad: float = 0.3, seed: int = 1, seconds: float = 1.5, rate_hz: int = RATE_HZ,
) -> Floats:  # fmt: skip
    """Return one tone of amplitude 1 in noise."""
    tone = Tone(hz=hz, decay_per_s=decay_per_s, phase_rad=phase_rad)
    clean = rung(tone, seconds=seconds, rate_hz=rate_hz, slide=slide)
    return clean + noise_of(len(clean), snr_db=snr_db, seed=seed, rate_hz=rate_hz)


def pair(
    hz: float, *, apart_hz: float, second: float = 0.7, decay_per_s: float = 4.0,
    second_decay_per_s: float | None = None, phases_rad: tuple[float, float] = (0.3, 1.9),
    snr_db: float = 20.0, slide: Slide = STEADY, seed: int = 1, seconds: float = 1.5,
    rate_hz: int = RATE_HZ,
) -> Floats:  # fmt: skip
    """Return two tones in noise: the lower one of amplitude 1, the upper one of ``second``."""
    low = Tone(hz=hz, decay_per_s=decay_per_s, phase_rad=phases_rad[0])
    high = Tone(
        hz=hz + apart_hz, amplitude=second, phase_rad=phases_rad[1],
        decay_per_s=decay_per_s if second_decay_per_s is None else second_decay_per_s,
    )  # fmt: skip
    clean = rung(low, high, seconds=seconds, rate_hz=rate_hz, slide=slide)
    return clean + noise_of(len(clean), snr_db=snr_db, seed=seed, rate_hz=rate_hz)


def in_a_row(
    strokes: Sequence[Floats], *, every_s: float, lead_s: float = 0.3, rate_hz: int = RATE_HZ
) -> tuple[Floats, tuple[float, ...]]:
    """Return one recording of many strokes, and when each of them starts.

    Each rings on beneath the next one. Put noise on the whole afterwards: ``noise_of``.
    """
    starts = [round((lead_s + number * every_s) * rate_hz) for number in range(len(strokes))]
    long = max(start + len(stroke) for start, stroke in zip(starts, strokes, strict=True))
    recording = np.zeros(max(long, round((lead_s + len(strokes) * every_s) * rate_hz)))
    for start, stroke in zip(starts, strokes, strict=True):
        recording[start : start + len(stroke)] += stroke
    return recording, tuple(start / rate_hz for start in starts)


@dataclass(frozen=True, kw_only=True)
class Rim:
    """Two-lobed truth round the rim.

    The sharp one of the two has its antinodes at ``axis_deg`` and opposite, the flat one midway.
    A tap at ``along`` heard at ``phone_deg`` has them at ``cos(along - axis) cos(phone - axis)``
    and ``sin(along - axis) sin(phone - axis)``, in phase.
    """

    mean_hz: float = 220.0
    split_cents: float = 30.0
    axis_deg: float = 20.0
    phone_deg: float = 55.0
    decay_per_s: float = 4.0
    others: tuple[Tone, ...] = ()

    @property
    def flat_hz(self) -> float:
        return self.mean_hz * 2.0 ** (-self.split_cents / 2400.0)

    @property
    def sharp_hz(self) -> float:
        return self.mean_hz * 2.0 ** (self.split_cents / 2400.0)

    def tones(self, along_deg: float, *, strength: float = 1.0) -> tuple[Tone, ...]:
        """Return what a tap near a rod rings with; amplitudes may be below nought."""
        tap, heard = (math.radians(a - self.axis_deg) for a in (along_deg, self.phone_deg))
        sharp = strength * math.cos(tap) * math.cos(heard)
        flat = strength * math.sin(tap) * math.sin(heard)
        pair_of = zip((self.flat_hz, self.sharp_hz), (flat, sharp), strict=True)
        return (
            *(Tone(hz=hz, decay_per_s=self.decay_per_s, amplitude=a) for hz, a in pair_of),
            *self.others,
        )

    def recorded(
        self, along_deg: Sequence[float], *, every_s: float = 1.6, seconds: float = 1.5,
        snr_db: float = 30.0, slide: Slide = STEADY, seed: int = 1, rate_hz: int = RATE_HZ,
    ) -> tuple[Floats, tuple[float, ...]]:  # fmt: skip
        """Return the taps in a row in noise (the ratio is for amplitude 1), and their starts."""
        taps = [
            rung(*self.tones(along), seconds=seconds, rate_hz=rate_hz, slide=slide)
            for along in along_deg
        ]
        clean, starts = in_a_row(taps, every_s=every_s, rate_hz=rate_hz)
        noise = noise_of(len(clean), snr_db=snr_db, seed=seed, rate_hz=rate_hz)
        return clean + noise, starts
