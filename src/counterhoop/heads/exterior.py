"""The air outside that a head in a wall carries, or an open end in a wall."""

from __future__ import annotations

from functools import cache

import numpy as np

from counterhoop.heads.shapes import (
    FARTHEST,
    Floats,
    air_waves,
    air_zeros,
    all_waves,
    head_waves,
)


@cache
def baffled_mass(around: int, terms: int) -> Floats:
    """Return the air that a head in a wall carries on one side, over density and radius cubed.

    Parameters
    ----------
    around, terms : int
        Nodal diameters; shapes of the head.

    Returns
    -------
    array, shape (terms, terms)
        ``integral of F_i F_j dk``: the incompressible limit of the Rayleigh integral, good while
        a wave in air is much longer than the radius (Morse and Ingard, Theoretical Acoustics,
        chapter 7, from memory). At ``k0 a = 0.7`` it is a few per cent of itself too small.
    """
    waves, weights = all_waves()
    seen = head_waves(around, terms, waves)
    return (seen * weights) @ seen.T


@cache
def baffled_opening_mass(around: int, terms: int) -> Floats:
    """Return the same for an open end whose air moves in the shapes of the pipe."""
    from scipy.special import jv

    waves, weights = all_waves()
    seen = air_waves(around, terms, waves)
    # Beyond the last wave the product falls with the third power.
    rim = np.asarray(jv(around, air_zeros(around, terms)))
    tail = np.outer(rim, rim) / (2.0 * np.pi * FARTHEST**2)
    return np.asarray((seen * weights) @ seen.T + tail)
