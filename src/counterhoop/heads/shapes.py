"""Bessel functions on the disc: what heads and the air between them are made up of.

Everything here is for a disc of radius 1 and per the integral of the squared cosine round it.
"""

from __future__ import annotations

from functools import cache
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Floats: TypeAlias = NDArray[np.float64]

FARTHEST = 600.0
"""Wave number at which the integrals over all waves are cut off; see ``tests/heads``."""
PANELS, POINTS = 400, 8


@cache
def head_zeros(around: int, terms: int) -> Floats:
    """Return the first zeros of ``J_m``, shape (terms,)."""
    from scipy.special import jn_zeros

    return np.asarray(jn_zeros(around, terms), dtype=np.float64)


@cache
def air_zeros(around: int, terms: int) -> Floats:
    """Return the first zeros of the slope of ``J_m``, shape (terms,); for m = 0 the first is 0."""
    from scipy.special import jn_zeros, jnp_zeros

    if around == 0:
        return np.concatenate([[0.0], jn_zeros(1, terms)])[:terms]
    return np.asarray(jnp_zeros(around, terms), dtype=np.float64)


@cache
def head_norms(around: int, terms: int) -> Floats:
    """Return the integral of ``J_m(j r)^2 r`` over the disc for each zero, shape (terms,)."""
    from scipy.special import jvp

    return np.asarray(jvp(around, head_zeros(around, terms)) ** 2 / 2.0)


@cache
def air_norms(around: int, terms: int) -> Floats:
    """Return the integral of ``J_m(j' r)^2 r`` over the disc for each zero, shape (terms,)."""
    from scipy.special import jv

    zeros = air_zeros(around, terms)
    share = np.ones(terms)
    share[zeros > 0] -= (around / zeros[zeros > 0]) ** 2
    return np.asarray(share / 2.0 * jv(around, zeros) ** 2)


@cache
def head_moments(around: int, terms: int) -> Floats:
    """Return the integral of each shape of a head times ``r^(m + 1)``, shape (terms,).

    For m = 0 it is the volume swept: what is felt of a shape from afar.
    """
    from scipy.special import jv

    zeros = head_zeros(around, terms)
    return np.asarray(jv(around + 1, zeros) / zeros)


@cache
def air_moments(around: int, terms: int) -> Floats:
    """Return the same for each shape of the air across a pipe, shape (terms,)."""
    from scipy.special import jv

    zeros = air_zeros(around, terms)
    moments = np.full(terms, 0.5)
    up = zeros > 0
    moments[up] = jv(around + 1, zeros[up]) / zeros[up]
    return moments


def head_waves(around: int, terms: int, waves: Floats) -> Floats:
    """Return the Hankel transform of each shape of a head, shape (terms, waves).

    ``F_n(k) = j_n J_m'(j_n) J_m(k) / (k^2 - j_n^2)``: Watson, Theory of Bessel Functions, 5.11
    (from memory).
    """
    from scipy.special import jv, jvp

    zeros = head_zeros(around, terms)[:, None]
    return np.asarray(zeros * jvp(around, zeros) * jv(around, waves) / (waves**2 - zeros**2))


def air_waves(around: int, terms: int, waves: Floats) -> Floats:
    """Return the Hankel transform of each shape of the air across a pipe, (terms, waves)."""
    from scipy.special import jv, jvp

    zeros = air_zeros(around, terms)[:, None]
    slope = waves * jvp(around, waves)
    return np.asarray(jv(around, zeros) * slope / (zeros**2 - waves**2))


@cache
def overlaps(around: int, head_terms: int, air_terms: int) -> Floats:
    """Return the integrals of head shape times air shape over the disc, (head, air)."""
    return head_waves(around, head_terms, air_zeros(around, air_terms))


@cache
def all_waves() -> tuple[Floats, Floats]:
    """Return places and weights that integrate over all waves from 0 to ``FARTHEST``."""
    places, weights = np.polynomial.legendre.leggauss(POINTS)
    ends = np.linspace(0.0, FARTHEST, PANELS + 1)
    half, middle = np.diff(ends) / 2.0, (ends[1:] + ends[:-1]) / 2.0
    return (
        (middle[:, None] + half[:, None] * places).ravel(),
        (half[:, None] * weights).ravel(),
    )
