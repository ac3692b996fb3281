"""Damped tones that start together and bend together: what a struck head sounds like."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from counterhoop.heads.shapes import Floats

_SILENT = math.log(1e5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ringing:
    """One damped tone.

    Attributes
    ----------
    hz : float
        When it has settled.
    decay_per_s : float
        Its amplitude falls to 1/e in one over this.
    amplitude : float
        At the start; below nought where it starts the other way.
    name : str
        Of the mode that rings.
    """

    hz: float
    decay_per_s: float
    amplitude: float
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bend:
    """How far sharp the start is, as a share of the pitch, and how fast that goes.

    Tension rises with the square of how far a head moves, so a bend falls twice as fast as the
    tone that makes it.
    """

    share: float
    fall_per_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Struck:
    """A stroke, as tones and bends.

    Attributes
    ----------
    ringings : tuple of Ringing
        By rising pitch.
    bends : tuple of Bend
        Added up and common to all tones.
    """

    ringings: tuple[Ringing, ...]
    bends: tuple[Bend, ...] = ()

    @property
    def sharp_cents(self) -> float:
        """How far sharp of its settled pitch the stroke starts."""
        return 1200.0 * math.log2(1.0 + math.fsum(bend.share for bend in self.bends))

    def sound(self, *, seconds: float, rate_hz: int = 44_100) -> Floats:
        """Return the sound, shape (seconds * rate_hz,); time 0 is the middle of the blow.

        Notes
        -----
        ``sum A exp(-d t) sin(2 pi f (t + sum s (1 - exp(-b t)) / b))``: the pitch is
        ``f (1 + sum s exp(-b t))``, and the phase its integral. A tone ends when it has fallen by
        100 dB, which is less than 16 bits can write.

        Examples
        --------
        >>> one = Ringing(hz=100.0, decay_per_s=0.0, amplitude=0.5)
        >>> sound = Struck(ringings=(one,)).sound(seconds=0.01, rate_hz=1000)
        >>> [round(float(value), 3) for value in sound[:3]]
        [0.0, 0.294, 0.476]
        """
        at_s = np.arange(round(seconds * rate_hz)) / rate_hz
        bent_s = at_s.copy()
        for bend in self.bends:
            bent_s -= bend.share / bend.fall_per_s * np.expm1(-bend.fall_per_s * at_s)
        sound = np.zeros_like(at_s)
        for one in self.ringings:
            heard_s = math.inf if one.decay_per_s == 0.0 else _SILENT / one.decay_per_s
            heard = slice(0, round(min(seconds, heard_s) * rate_hz))
            fall = np.exp(-one.decay_per_s * at_s[heard])
            sound[heard] += one.amplitude * fall * np.sin(2.0 * np.pi * one.hz * bent_s[heard])
        return sound
