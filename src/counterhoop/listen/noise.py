"""How loud what is no tone is, in a stroke."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

_BLOCK_S = 0.05


def noise_under(samples: NDArray[np.float64], *, rate_hz: float) -> float:
    """Return the level of the quietest of a stroke over its loudest, in dB.

    Parameters
    ----------
    samples : ndarray, shape (n,)
        One stroke from its start to the next.
    rate_hz : float
        Of them.

    Notes
    -----
    Where a recording was faded out, its end is quieter than its noise was: the figure is what
    the room and the recorder added at the most favourable.

    Examples
    --------
    >>> t = np.arange(4000) / 2000.0
    >>> sound = np.exp(-20.0 * t) * np.sin(600.0 * t) + 0.001 * np.sin(1e4 * t * t)
    >>> round(noise_under(sound, rate_hz=2000.0))
    -57
    """
    size = max(1, round(_BLOCK_S * rate_hz))
    blocks = samples[: len(samples) // size * size].reshape(-1, size)
    if not len(blocks):
        return 0.0
    rms = np.sqrt((blocks**2).mean(axis=1))
    # Digital silence after the sound was cut is no noise.
    heard = rms[rms > 0.0]
    if not len(heard):
        return 0.0
    return 20.0 * math.log10(float(heard.min() / heard.max()))
