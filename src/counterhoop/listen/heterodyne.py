"""A band of a sound moved down to zero, so that a few hundred samples say all about a partial."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

STOP_DB = 70.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A band around ``centre_hz`` as complex samples.

    A tone ``A cos(2 pi f t + p)`` with t from the start of the stroke becomes
    ``A exp(i (2 pi (f - centre_hz) t + p))``.

    Attributes
    ----------
    values : ndarray of complex, shape (n,)
        Only samples that the filter made wholly from the sound given to it.
    rate_hz : float
        Of these samples.
    starts_s : float
        Time of the first of them after the start of the stroke.
    noise_hz : float
        Width of the band as noise counts it: even noise of variance v in a sound of rate r stays
        complex noise of variance ``4 v noise_hz / r`` here.
    """

    values: NDArray[np.complex128]
    rate_hz: float
    centre_hz: float
    starts_s: float
    noise_hz: float

    @property
    def times_s(self) -> NDArray[np.float64]:
        """When each sample was, after the start of the stroke; shape (n,)."""
        return self.starts_s + np.arange(len(self.values)) / self.rate_hz

    def after(self, since_s: float) -> Band:
        """Return the samples from a later time on."""
        skip = max(0, int(np.ceil((since_s - self.starts_s) * self.rate_hz - 1e-9)))
        return Band(
            values=self.values[skip:],
            rate_hz=self.rate_hz,
            centre_hz=self.centre_hz,
            starts_s=self.starts_s + skip / self.rate_hz,
            noise_hz=self.noise_hz,
        )


@lru_cache(maxsize=64)
def low_pass(pass_share: float, edge_share: float) -> NDArray[np.float64]:
    """Return an even low-pass filter of odd length with sum 1.

    Parameters
    ----------
    pass_share, edge_share : float
        Where it still passes, and how much further it stops, as shares of the sample rate.

    Notes
    -----
    Windowed sine of J. F. Kaiser (1974): the window's shape and length follow from the 70 dB by
    which it stops (from memory; a test measures the filter).
    """
    beta = 0.1102 * (STOP_DB - 8.7)
    half = int(np.ceil((STOP_DB - 7.95) / (14.36 * edge_share) / 2.0))
    steps = np.arange(-half, half + 1)
    cut = pass_share + edge_share / 2.0
    taps = 2.0 * cut * np.sinc(2.0 * cut * steps) * np.kaiser(2 * half + 1, beta)
    return np.asarray(taps / taps.sum(), dtype=np.float64)


def band_around(
    samples: NDArray[np.float64],
    *,
    rate_hz: float,
    centre_hz: float,
    half_width_hz: float,
    edge_hz: float | None = None,
    starts_s: float = 0.0,
) -> Band:
    """Move a band to zero, filter it and keep only as many samples as it needs.

    Parameters
    ----------
    samples : ndarray, shape (n,)
        Sound, the first sample at ``starts_s`` after the start of the stroke.
    rate_hz, centre_hz, half_width_hz : float
        Sample rate; middle of the band; half of what passes unharmed.
    edge_hz : float, optional
        How far beyond that the filter takes to stop, half the half width if not said. The
        filter is about ``4.3 / edge_hz`` seconds long and half of that is lost at each end.

    Returns
    -------
    Band
        Of no samples where the sound is shorter than the filter.
    """
    edge = half_width_hz / 2.0 if edge_hz is None else edge_hz
    taps = low_pass(half_width_hz / rate_hz, edge / rate_hz)
    # What folds back at this rate falls on the filter's edge, not on what passes unharmed.
    step = max(1, int(rate_hz / (2.0 * half_width_hz + edge)))
    turn = 2.0 * np.pi * centre_hz / rate_hz
    first_s = starts_s + (len(taps) // 2) / rate_hz
    if len(samples) < len(taps):
        values = np.zeros(0, dtype=np.complex128)
    else:
        windows = np.lib.stride_tricks.sliding_window_view(samples, len(taps))[::step]
        steps = np.arange(len(taps))
        wheel = taps * np.exp(-1j * turn * steps)
        starts = np.arange(len(windows)) * step / rate_hz + starts_s
        both = windows @ np.column_stack([wheel.real, wheel.imag])
        turned = np.exp(-2j * np.pi * centre_hz * starts)
        values = 2.0 * (both[:, 0] + 1j * both[:, 1]) * turned
    return Band(
        values=values,
        rate_hz=rate_hz / step,
        centre_hz=centre_hz,
        starts_s=first_s,
        noise_hz=rate_hz * float(taps @ taps),
    )


def thinned(
    samples: NDArray[np.float64], *, rate_hz: float, up_to_hz: float
) -> tuple[NDArray[np.float64], float]:
    """Return a sound with as few samples as its low part needs, and their rate.

    Parameters
    ----------
    samples : ndarray, shape (n,)
        Taken as silent before and after.
    rate_hz, up_to_hz : float
        Sample rate; what lies below this frequency stays as it is.
    """
    from scipy.signal import upfirdn

    step = int(rate_hz // (2.8 * up_to_hz))
    if step < 2:
        return samples, rate_hz
    taps = low_pass(up_to_hz / rate_hz, (rate_hz / step - 2.0 * up_to_hz) / rate_hz)
    half = len(taps) // 2
    # Silence in front makes the middle of the filter fall on a sample that is kept.
    ahead = -half % step
    padded = np.concatenate([np.zeros(ahead), samples, np.zeros(half)])
    kept = upfirdn(taps, padded, down=step)[(half + ahead) // step :]
    return np.asarray(kept[: -(-len(samples) // step)], dtype=np.float64), rate_hz / step
