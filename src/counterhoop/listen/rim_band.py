"""Where in a recording of taps near the rim the (1,1) pitch may lie."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

LOWEST_HZ, HIGHEST_HZ = 50.0, 700.0
NEAR = 0.16
_LOUD_DB, _SAME = 30.0, 0.09
# A head's next family of modes lies this much higher: (2,1) over (1,1), two heads or one.
_NEXT = (1.2, 1.62)
_NEXT_DB, _NEXT_LEAST_DB = 8.0, 24.0


def rim_pitches(
    taps: Sequence[Floats], *, rate_hz: float, near_hz: float | None = None
) -> tuple[float, ...]:
    """Return about where the (1,1) pitch may be, the likeliest first; () where nothing rings.

    Parameters
    ----------
    taps : sequence of ndarray
        Sound of each tap, from a little after its start.
    rate_hz : float
        Sample rate.
    near_hz : float, optional
        Where it is expected, to a sixth; else it is sought.

    Notes
    -----
    Sought is the loudest pitch of all taps together that has another one where (2,1) should be:
    taps near the rim and a phone off the centre favour both over (0,1). That one may still be the
    loudest, and is told from the taps: it is the same at all of them.
    """
    if not taps:
        return ()
    hz, power = _spectrum(taps, rate_hz)
    low, high = (
        (LOWEST_HZ, HIGHEST_HZ) if near_hz is None else (near_hz * (1 - NEAR), near_hz * (1 + NEAR))
    )
    within = (hz >= low) & (hz <= high)
    if not within.any() or power[within].max() <= 0.0:
        return ()
    if near_hz is not None:
        return (_middle(hz, power, float(hz[within][np.argmax(power[within])])),)
    peaks = _peaks(hz, power, within)
    likely = sorted(peaks, key=lambda peak: -peak[1] - _company(peak, peaks))
    return tuple(_middle(hz, power, peak) for peak, _ in likely if peak <= HIGHEST_HZ)


def _spectrum(taps: Sequence[Floats], rate_hz: float) -> tuple[Floats, Floats]:
    step = max(1, int(rate_hz // (3.0 * HIGHEST_HZ)))
    count = 1 << int(np.ceil(np.log2(max(len(tap) for tap in taps) // step + 1)) + 1)
    total = np.zeros(count // 2 + 1)
    for tap in taps:
        thin = tap[: len(tap) // step * step].reshape(-1, step).mean(axis=1)
        # Half a window, from its crest: the sound dies anyway.
        bins = np.abs(np.fft.rfft(thin * np.hanning(2 * len(thin))[len(thin) :], count)) ** 2
        total += bins / (bins.sum() + 1e-300)
    return np.asarray(np.fft.rfftfreq(count, step / rate_hz), dtype=np.float64), total


def _peaks(hz: Floats, power: Floats, within: NDArray[np.bool_]) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = []
    level = 10.0 * np.log10(power + 1e-300)
    crest = np.r_[False, (power[1:-1] > power[:-2]) & (power[1:-1] >= power[2:]), False]
    loudest = level[within].max()
    for at in sorted(np.flatnonzero(crest), key=lambda index: -level[index]):
        if level[at] < loudest - _LOUD_DB:
            break
        if all(abs(hz[at] / other - 1.0) > _SAME for other, _ in found):
            found.append((float(hz[at]), float(level[at])))
    return [peak for peak in found if LOWEST_HZ <= peak[0] <= HIGHEST_HZ * _NEXT[1]]


def _company(peak: tuple[float, float], peaks: list[tuple[float, float]]) -> float:
    above = [other for other in peaks if _NEXT[0] <= other[0] / peak[0] <= _NEXT[1]]
    return _NEXT_DB if any(other[1] > peak[1] - _NEXT_LEAST_DB for other in above) else 0.0


def _middle(hz: Floats, power: Floats, peak: float) -> float:
    """Return the middle of what is loud close by: two pitches are seen as one place."""
    here = (hz > peak * (1.0 - _SAME)) & (hz < peak * (1.0 + _SAME))
    loud = power * here
    loud = np.where(loud > loud.max() / 30.0, loud, 0.0)
    held = hz[loud > 0.0]
    return float((held.min() + held.max()) / 2.0)
