"""Tones closer than a spectrum can part, from the subspace of a short record."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray


def poles_of(
    values: NDArray[np.complex128], *, rate_hz: float, count: int
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return pitches and decays of so many damped tones.

    Parameters
    ----------
    values : ndarray of complex, shape (n,)
        A band moved to zero, its glide taken out.
    rate_hz : float
        Of these samples.
    count : int
        Number of tones.

    Returns
    -------
    hz, decay_per_s : ndarray, shape (count,)
        From low to high; pitches from the middle of the band.

    Notes
    -----
    Total least squares on the shifted signal subspace of a Hankel matrix of n / 2 rows (ESPRIT:
    R. Roy and T. Kailath, IEEE Trans. ASSP 37 (1989), from memory). On a sound that glides it
    invents tones: what it finds is a place to begin, never a result.

    Examples
    --------
    >>> t = np.arange(100) / 100.0
    >>> tones = np.exp((2j * np.pi * 3.0 - 4.0) * t) + 0.5 * np.exp((2j * np.pi * 5.0 - 3.0) * t)
    >>> hz, decay = poles_of(tones, rate_hz=100.0, count=2)
    >>> hz.round(6).tolist(), decay.round(6).tolist()
    ([3.0, 5.0], [4.0, 3.0])
    """
    rows = len(values) // 2
    hankel = np.lib.stride_tricks.sliding_window_view(values, len(values) - rows + 1)
    space = np.linalg.svd(hankel, full_matrices=False)[0][:, :count]
    both = np.hstack([space[:-1], space[1:]])
    turn = np.linalg.svd(both)[2].conj().T
    shift = -turn[:count, count:] @ np.linalg.inv(turn[count:, count:])
    poles = np.log(np.linalg.eigvals(shift)) * rate_hz
    order = np.argsort(poles.imag)
    return poles.imag[order] / (2.0 * np.pi), -poles.real[order]
