"""A head without air: the ideal membrane, evenly tensioned."""

from __future__ import annotations

import math
from functools import cache

from counterhoop.heads.believed import believed_pull, believed_radius


@cache
def head_zero(around: int, circles: int) -> float:
    """Return the number that fixes a mode of an ideal head: a zero of a Bessel function.

    Parameters
    ----------
    around : int
        Nodal diameters, 0 or more.
    circles : int
        Nodal circles, the rim included: 1 or more.

    Notes
    -----
    ``j_mn``, the n-th positive zero of ``J_m``: Abramowitz and Stegun, table 9.5 (from memory).

    Examples
    --------
    >>> round(head_zero(0, 1), 6), round(head_zero(1, 1), 6)
    (2.404826, 3.831706)
    """
    from scipy.special import jn_zeros

    return float(jn_zeros(around, circles)[-1])


def ideal_hz(
    around: int, circles: int, *, radius_m: float, tension_n_per_m: float, mass_kg_per_m2: float
) -> float:
    """Return the pitch of a mode of a head in a vacuum.

    Notes
    -----
    ``f = j_mn / (2 pi a) sqrt(T / sigma)``: Fletcher and Rossing, The Physics of Musical
    Instruments, chapter 3 (from memory). Air lowers the lowest modes of a real head by up to a
    third, so this is a bound and no forecast.

    Examples
    --------
    >>> round(ideal_hz(0, 1, radius_m=0.1524, tension_n_per_m=2500, mass_kg_per_m2=0.265), 2)
    243.93
    """
    believed_radius(radius_m)
    believed_pull(tension_n_per_m)
    wave = math.sqrt(tension_n_per_m / mass_kg_per_m2)
    return head_zero(around, circles) / (2.0 * math.pi * radius_m) * wave


def ideal_tension_n_per_m(
    around: int, circles: int, *, hz: float, radius_m: float, mass_kg_per_m2: float
) -> float:
    """Return the tension at which a mode of a head in a vacuum has a pitch; see ``ideal_hz``.

    Examples
    --------
    >>> round(ideal_tension_n_per_m(0, 1, hz=243.93, radius_m=0.1524, mass_kg_per_m2=0.265))
    2500
    """
    return mass_kg_per_m2 * (2.0 * math.pi * radius_m * hz / head_zero(around, circles)) ** 2
