"""What is heard in one stroke: partials, how far the pitch glides, and pairs that beat."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

HEARD_S = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Partial:
    """One decaying tone, as it stands once the glide is over.

    Attributes
    ----------
    hz, hz_doubt : float
        Settled pitch and its standard uncertainty.
    decay_per_s, decay_doubt : float
        The level falls as ``exp(-decay_per_s t)``.
    level_db : float
        Against the strongest partial of the same reading, a tenth of a second after the stroke:
        earlier the stick is heard as well.
    amplitude, phase_rad : float
        Of the cosine, carried back to the start of the stroke.
    """

    hz: float
    hz_doubt: float
    decay_per_s: float
    decay_doubt: float
    level_db: float
    amplitude: float
    phase_rad: float

    @property
    def t60_s(self) -> float:
        """Time in which it falls by 60 dB."""
        return math.log(1000.0) / self.decay_per_s

    @property
    def heard(self) -> float:
        """Amplitude a tenth of a second after the stroke."""
        return self.amplitude * math.exp(-HEARD_S * self.decay_per_s)


def levelled(partials: Sequence[Partial]) -> tuple[Partial, ...]:
    """Return partials from low to high, with their levels over the strongest of them all."""
    most = max((partial.heard for partial in partials), default=1.0)
    return tuple(
        replace(partial, level_db=20.0 * math.log10(max(partial.heard / most, 1e-10)))
        for partial in sorted(partials, key=lambda partial: partial.hz)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Glide:
    """How the pitch falls to where it settles: by ``cents`` at first, over ``tau_s``.

    The pitch at time t is ``hz * (1 + share * exp(-t / tau_s))`` because the head is stretched
    by its own movement: the tension rises with the square of the amplitude (H. M. Berger,
    J. Appl. Mech. 22 (1955), from memory), so that ``tau_s`` is about ``1 / (2 decay_per_s)``.
    """

    cents: float
    tau_s: float

    @property
    def share(self) -> float:
        """By which part of the settled pitch the first instant is sharp.

        Examples
        --------
        >>> round(Glide(cents=100.0, tau_s=0.1).share, 4)
        0.0595
        """
        return float(2.0 ** (self.cents / 1200.0) - 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosePair:
    """Two partials so close that they beat, with the evidence for there being two.

    Attributes
    ----------
    beat_hz : float
        Difference of their settled pitches.
    better_db : float
        By how much two partials leave less of the sound unexplained than one does.
    says : str
        What was found where, in a sentence.
    """

    low: Partial
    high: Partial
    beat_hz: float
    better_db: float
    says: str
