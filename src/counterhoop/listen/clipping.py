"""Where a recorder could not follow: flat tops."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Spans = tuple[tuple[float, float], ...]

_SAME_TOP = 4.6e-5
_OVER = 1.001
_LEAST_TOP = 0.05
_SAMPLES, _SECONDS, _COARSE_SECONDS = 4, 1 / 12_000, 1e-3
_ONE_SPAN_S = 0.05


def flat_tops(
    samples: Floats,
    *,
    rate_hz: int,
    highest: float,
    lowest: float,
    coarse: bool = False,
    topless: bool = False,
    starts_s: float = 0.0,
) -> list[tuple[float, float]]:
    """Return from when to when a sound is cut off at its top or bottom.

    Parameters
    ----------
    samples : ndarray, shape (n,)
        One channel as it was recorded, full scale 1.
    rate_hz : int
        Samples a second.
    highest, lowest : float
        Of the whole recording.
    coarse : bool
        The samples have 8 bits only: each top of a slow sound is flat for a while.
    topless : bool
        The samples are floats as they came from the recorder: full scale is no top.
    starts_s : float
        When the first sample was.

    Notes
    -----
    A run of samples that are all the largest one, to a step and a half of 16 bits. A sine of 60 Hz
    at 44.1 kHz stays that near its top for three samples: four, and no less than 1/12 ms, are cut
    off. What was cut off before it was packed with loss comes out beyond full scale.

    Examples
    --------
    >>> top = np.array([0.2, 0.9, 0.9, 0.9, 0.9, 0.1, -0.3, -0.6, -0.2])
    >>> flat_tops(top, rate_hz=1000, highest=0.9, lowest=-0.6)
    [(0.001, 0.005)]
    """
    least = _COARSE_SECONDS if coarse else _SECONDS
    run = max(_SAMPLES, round(least * rate_hz))
    found = [] if topless else runs(np.abs(samples) > _OVER, least=2)
    if highest > _LEAST_TOP:
        found += runs(samples >= highest - _SAME_TOP, least=run)
    if lowest < -_LEAST_TOP:
        found += runs(samples <= lowest + _SAME_TOP, least=run)
    return [(starts_s + a / rate_hz, starts_s + b / rate_hz) for a, b in sorted(found)]


def runs(held: NDArray[np.bool_], *, least: int) -> list[tuple[int, int]]:
    """Return first and one past last of every run of true values that is long enough.

    Examples
    --------
    >>> runs(np.array([True, False, True, True]), least=2)
    [(2, 4)]
    """
    edges = np.flatnonzero(np.diff(np.r_[False, held, False].astype(np.int8)))
    pairs = edges.reshape(-1, 2)
    long = pairs[pairs[:, 1] - pairs[:, 0] >= least]
    return [(int(a), int(b)) for a, b in long]


def joined(spans: Sequence[tuple[float, float]], *, apart_s: float = _ONE_SPAN_S) -> Spans:
    """Return spans in order, those that lie close together as one.

    Examples
    --------
    >>> joined([(0.0, 0.01), (0.02, 0.03), (2.0, 2.1)])
    ((0.0, 0.03), (2.0, 2.1))
    """
    together: list[tuple[float, float]] = []
    for start, end in sorted(spans):
        if together and start - together[-1][1] <= apart_s:
            together[-1] = (together[-1][0], max(end, together[-1][1]))
        else:
            together.append((start, end))
    return tuple(together)
