"""Where one tone of a stroke settles: fitted in a few bands from a few times on, least doubted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.glide import Course, first_guess
from counterhoop.listen.heterodyne import Band, band_around
from counterhoop.listen.refine import Fit, refine
from counterhoop.listen.sought import Peak

# The stick is still on the head before this.
FIRST_S = 0.02
STARTS_S = (FIRST_S, 0.1, 0.2, 0.35)
MIDDLE, HALF = 1.03, 0.15
_WIDE, _NARROW = 0.85, 0.2
# Neighbours: sure to be tones, and those that may be.
_STRONG_DB, _WEAK_DB = -10.0, -20.0
_WIDEST_EDGE_HZ = 100.0
_FEWEST = 16
# Later on what is left may be another tone that was never strong.
_ALIVE = 0.03
_HOPELESS_DB = 6.0


def settle(
    samples: NDArray[np.float64], *, rate_hz: float, peak: Peak, peaks: Sequence[Peak]
) -> tuple[Band, Fit] | None:
    """Return the band and the fit of one gliding tone that leave least doubt of its pitch.

    Parameters
    ----------
    samples : ndarray, shape (n,)
        One stroke from its start.
    rate_hz : float
        Of them.
    peak, peaks : Peak
        Where the tone was seen, and all that was seen: a strong neighbour is kept out of the
        band.

    Notes
    -----
    The early sound says most of the glide and is also least like a single tone. What a fit leaves
    over sets its doubt, so the least doubt is where the model holds: from the first moment for a
    clean tone in noise, later for a drum struck hard.
    """
    best: tuple[Band, Fit] | None = None
    for edge_hz in _edges(peak, peaks):
        band = _band(samples, rate_hz, peak, edge_hz)
        begin: Course | None = None
        for since_s in STARTS_S:
            part = band.after(since_s)
            if len(part.values) < _FEWEST or (since_s < band.starts_s and since_s > FIRST_S):
                continue
            if begin and _energy(part) < _ALIVE * _energy(band):
                break
            fit = refine(part, tones=[begin or first_guess(part)])
            if fit is None:
                break
            begin = fit.course(0)
            if best is None or fit.hz_doubt[0] < best[1].hz_doubt[0]:
                best = part, fit
        if best and best[1].explained_db < _HOPELESS_DB:
            break
    return best


def bands_of(
    samples: NDArray[np.float64], rate_hz: float, peak: Peak, peaks: Sequence[Peak]
) -> Iterator[Band]:
    """Yield a wide and a narrow band around a peak, strong neighbours kept out of both."""
    for share in (_WIDE, _NARROW):
        yield _band(samples, rate_hz, peak, _edge(peak, peaks, share, weakest_db=_WEAK_DB))


def _band(samples: NDArray[np.float64], rate_hz: float, peak: Peak, edge_hz: float) -> Band:
    return band_around(
        samples,
        rate_hz=rate_hz,
        centre_hz=MIDDLE * peak.hz,
        half_width_hz=HALF * peak.hz,
        edge_hz=edge_hz,
    ).after(FIRST_S)


def _edges(peak: Peak, peaks: Sequence[Peak]) -> Sequence[float]:
    """Return the widths of the filter's edges to try, from wide to narrow.

    A weak neighbour may be a tone or a peak of the noise that a tone which dies fast leaves
    behind it. Keeping it out costs a filter so long that the glide is lost in it: so it is let in
    first, and what the fit leaves over tells whether it should have been.
    """
    tried = [
        _edge(peak, peaks, _WIDE, weakest_db=_STRONG_DB),
        _edge(peak, peaks, _WIDE, weakest_db=_WEAK_DB),
        _edge(peak, peaks, _NARROW, weakest_db=_WEAK_DB),
    ]
    return list(dict.fromkeys(tried))


def _energy(band: Band) -> float:
    return float(np.vdot(band.values, band.values).real)


def _edge(peak: Peak, peaks: Sequence[Peak], share: float, *, weakest_db: float) -> float:
    """Return how wide the filter's edges may be without letting in a neighbour that is strong."""
    low, high = (MIDDLE - HALF) * peak.hz, (MIDDLE + HALF) * peak.hz
    edge = min(share * peak.hz, _WIDEST_EDGE_HZ)
    for other in peaks:
        # The skirt of a tone that dies fast gives a peak of noise on it energy, but no height.
        if other.energy_db > peak.energy_db + weakest_db and other.level_db > peak.level_db - 15.0:
            if other.hz < 0.85 * peak.hz:
                edge = min(edge, low - 1.03 * other.hz)
            elif other.hz > 1.22 * peak.hz:
                edge = min(edge, 0.985 * other.hz - high)
    return max(edge, 0.08 * peak.hz)
