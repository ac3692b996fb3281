"""The pitch falls as a stroke dies away: what that does to the phase, and a first guess of it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.heterodyne import Band

MOST_SHARE = 0.20
# A fit of the late sound alone may carry its glide back to more than any drum starts with.
CARRIED_SHARE = 0.40
DECAYS_PER_S = (1.5, 3.0, 6.0, 12.0, 24.0)
# A head's own movement stretches it: the glide dies twice as fast as the sound, or near to that.
TAU_TIMES_TWO_DECAY = (0.5, 1.0, 2.0)
_CYCLES_APART = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """How one tone runs: where it settles, how it dies, how it glides.

    Attributes
    ----------
    hz, decay_per_s : float
        Settled pitch; the amplitude falls as ``exp(-decay_per_s t)``.
    share, tau_s : float
        The pitch at time t is ``hz (1 + share exp(-t / tau_s))``.
    """

    hz: float
    decay_per_s: float
    share: float
    tau_s: float


def ahead_s(times_s: NDArray[np.float64], *, share: float, tau_s: float) -> NDArray[np.float64]:
    """Return by how much a gliding tone is ahead of one that never glides, as time.

    A tone of settled pitch f has turned ``f (t + ahead_s)`` times since the stroke.

    Examples
    --------
    >>> ahead_s(np.array([0.1, 10.0]), share=0.05, tau_s=0.1).round(5).tolist()
    [0.00316, 0.005]
    """
    return np.asarray(-share * tau_s * np.expm1(-times_s / tau_s), dtype=np.float64)


def straightened(band: Band, *, share: float, tau_s: float) -> NDArray[np.complex128]:
    """Return a band with the glide of a tone at its middle taken out; shape (n,)."""
    ahead = ahead_s(band.times_s, share=share, tau_s=tau_s)
    return np.asarray(band.values * np.exp(-2j * np.pi * band.centre_hz * ahead))


def first_guess(band: Band) -> Course:
    """Return the one gliding, dying tone of a coarse grid that explains most of a band.

    Notes
    -----
    For every decay and glide of the grid the spectrum of the straightened and weighted band is
    the share of the sound that a tone of each pitch explains (a matched filter): no start value
    is needed, and no false valley of the fit can be stepped into.
    """
    times = band.times_s
    size = 1 << int(np.ceil(np.log2(4 * len(times))))
    pitches = np.fft.fftfreq(size, 1.0 / band.rate_hz)
    best, found = -1.0, Course(hz=band.centre_hz, decay_per_s=3.0, share=0.0, tau_s=0.15)
    for decay in DECAYS_PER_S:
        fade = np.exp(-decay * times)
        faded = band.values * fade
        for times_two_decay in TAU_TIMES_TWO_DECAY:
            tau_s = times_two_decay / (2.0 * decay)
            step = max(0.004, _CYCLES_APART / (band.centre_hz * tau_s))
            shares = np.arange(-step if step < 0.03 else 0.0, MOST_SHARE, step)
            turn = 2.0 * np.pi * band.centre_hz * ahead_s(times, share=1.0, tau_s=tau_s)
            rows = faded * np.exp(-1j * shares[:, None] * turn)
            explained = np.abs(np.fft.fft(rows, size, axis=1)) ** 2 / (fade @ fade)
            row, column = np.unravel_index(int(np.argmax(explained)), explained.shape)
            if explained[row, column] > best:
                best = float(explained[row, column])
                found = Course(
                    hz=float(pitches[column] + band.centre_hz),
                    decay_per_s=decay,
                    share=float(shares[row]),
                    tau_s=tau_s,
                )
    return found
