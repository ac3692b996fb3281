"""Where in a stroke tones may be: peaks of its spectrum, early and late."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

LOWEST_HZ, HIGHEST_HZ = 30.0, 800.0
EARLY_S, LATE_S = (0.03, 0.33), (0.2, 1.6)
# An early peak this far above a late one is the same tone before it has glided down.
GLIDES_UP = 1.15
_DEEP_DB, _CLEAR_DB = 34.0, 9.0
_MOST = 16


@dataclass(frozen=True, slots=True, kw_only=True)
class Peak:
    """A peak of the spectrum.

    Attributes
    ----------
    hz, level_db : float
        Where, and how strong over the strongest of its window.
    energy_db : float
        Of the whole stroke from a little below it to where it may have glided from, over that of
        the strongest such band: a tone that rings long after the others have died is not strong.
    late : bool
        Whether it was seen after the glide.
    """

    hz: float
    level_db: float
    energy_db: float
    late: bool


def peaks_of(samples: NDArray[np.float64], *, rate_hz: float) -> tuple[Peak, ...]:
    """Return where tones may be, from low to high.

    Parameters
    ----------
    samples : ndarray, shape (n,)
        One stroke from its start.
    rate_hz : float
        At least three times 800 Hz.

    Notes
    -----
    The late window sees tones after their glide, the early one those that die within a fifth of
    a second; what the early one sees a little above a late peak is left out.
    """
    late = _peaks(samples, rate_hz, LATE_S, late=True)
    early = _peaks(samples, rate_hz, EARLY_S, late=False)
    new = [
        peak
        for peak in early
        if not any(0.96 * other.hz < peak.hz < GLIDES_UP * other.hz for other in late)
    ]
    found = sorted([*late, *new], key=lambda peak: peak.hz)
    whole = samples[round(EARLY_S[0] * rate_hz) :]
    power = np.abs(np.fft.rfft(whole)) ** 2
    hz = np.fft.rfftfreq(len(whole), 1.0 / rate_hz)
    energies = []
    for peak in found:
        low, high = _own(peak, found)
        energies.append(float(power[(hz > low) & (hz < high)].sum()) + 1e-30)
    return tuple(
        replace(peak, energy_db=10.0 * float(np.log10(energy / max(energies))))
        for peak, energy in zip(found, energies, strict=True)
    )


def _own(peak: Peak, found: Sequence[Peak]) -> tuple[float, float]:
    """Return the band that a peak has to itself: half the way to a stronger one at most."""
    low, high = 0.95 * peak.hz, GLIDES_UP * peak.hz
    for other in found:
        if other.level_db > peak.level_db:
            middle = (peak.hz + other.hz) / 2.0
            low, high = (max(low, middle), high) if other.hz < peak.hz else (low, min(high, middle))
    return low, high


def _peaks(
    samples: NDArray[np.float64], rate_hz: float, window_s: tuple[float, float], *, late: bool
) -> list[Peak]:
    part = samples[round(window_s[0] * rate_hz) : round(window_s[1] * rate_hz)]
    if len(part) < 0.08 * rate_hz:
        return []
    size = 1 << int(np.ceil(np.log2(4 * len(part))))
    power = np.abs(np.fft.rfft(part * np.hanning(len(part)), size)) ** 2 + 1e-30
    db = 10.0 * np.log10(power)
    hz = np.fft.rfftfreq(size, 1.0 / rate_hz)
    within = (hz > LOWEST_HZ) & (hz < HIGHEST_HZ)
    tops = np.flatnonzero(within[1:-1] & (db[1:-1] > db[:-2]) & (db[1:-1] >= db[2:])) + 1
    if not len(tops):
        return []
    floor = float(np.median(db[within]))
    most = float(db[tops].max())
    lobe = max(1, int(np.ceil(2.5 * size / len(part))))
    found: list[Peak] = []
    for top in tops[np.argsort(-db[tops])]:
        if db[top] < max(most - _DEEP_DB, floor + _CLEAR_DB) or len(found) == _MOST:
            break
        near = db[max(0, top - lobe) : top + lobe + 1]
        if db[top] < near.max():
            continue
        a, b, c = db[top - 1 : top + 2]
        shift = 0.5 * (a - c) / (a - 2.0 * b + c) if a - 2.0 * b + c else 0.0
        found.append(
            Peak(
                hz=float((top + shift) * rate_hz / size),
                level_db=float(b - most),
                energy_db=0.0,
                late=late,
            )
        )
    return found
