"""How well any method could read a stroke: the Cramér-Rao bound of the whole model."""

from __future__ import annotations

import numpy as np

from counterhoop.listen.glide import Course, ahead_s


def least_doubt_hz(
    tone: Course,
    *,
    amplitude: float,
    noise_variance: float,
    rate_hz: float,
    seconds: float,
    since_s: float = 0.0,
) -> float:
    """Return the least standard deviation that an unbiased reading of the settled pitch can have.

    All six are unknown: amplitude, phase, pitch, decay and both figures of the glide. The sound
    is real, its noise white and Gaussian.

    Parameters
    ----------
    tone : Course
        The truth.
    amplitude : float
        Of the cosine at the start of the stroke.
    noise_variance, rate_hz : float
        Of each sample.
    seconds, since_s : float
        From where to where the sound is used, from the start of the stroke.

    Notes
    -----
    Without a glide to read and for a sound that has died away this is, up to the few per cent
    that the real sound differs from a complex one, ``sqrt(8 decay^3 / (snr rate)) / (2 pi)``
    with ``snr = amplitude^2 / (2 noise_variance)`` [computed: Fisher information]. The six make
    it larger, because a glide and a lower pitch look alike.

    Examples
    --------
    20 dB in 0 to 1 kHz, 1/e in a quarter of a second: three hundredths of a hertz at 100 Hz, half
    a cent. Were it known not to glide, 0.008 Hz.

    >>> tone = Course(hz=100.0, decay_per_s=4.0, share=0.03, tau_s=0.125)
    >>> round(least_doubt_hz(
    ...     tone, amplitude=1.0, noise_variance=0.005, rate_hz=2000.0, seconds=1.0), 4)
    0.0348
    """
    count = round((seconds - since_s) * rate_hz)
    times = since_s + np.arange(count) / rate_hz
    fading = np.exp(-times / tone.tau_s)
    ran = times + ahead_s(times, share=tone.share, tau_s=tone.tau_s)
    fade = np.exp(-tone.decay_per_s * times)
    phase = 2.0 * np.pi * tone.hz * ran
    across = -amplitude * fade * np.sin(phase)
    along = fade * np.cos(phase)
    turn = 2.0 * np.pi * tone.hz * across
    # Where nothing glides, tau is unknown but the direction in which it would show is the same.
    share = tone.share if tone.share else 1.0
    slopes = np.column_stack(
        [
            along,
            across,
            -amplitude * times * along,
            2.0 * np.pi * ran * across,
            turn * tone.tau_s * (1.0 - fading),
            turn * share * (1.0 - fading - times / tone.tau_s * fading),
        ]
    )
    scale = np.sqrt((slopes**2).sum(axis=0))
    spread = np.linalg.inv((slopes / scale).T @ (slopes / scale))
    return float(np.sqrt(spread[3, 3] * noise_variance) / scale[3])
