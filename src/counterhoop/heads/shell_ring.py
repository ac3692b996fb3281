"""Pitches of the shell itself, as a ring that goes oval."""

from __future__ import annotations

import math

from counterhoop.heads.believed import believed_radius


def ring_hz(
    lobes: int, *, radius_m: float, wall_m: float, modulus_n_per_m2: float, density_kg_per_m3: float
) -> float:
    """Return a pitch of a free thin ring that bends in its own plane.

    Parameters
    ----------
    lobes : int
        Waves round it, 2 or more: 2 is oval.
    radius_m, wall_m : float
        To the middle of the wall, which is under about a tenth of it.
    modulus_n_per_m2, density_kg_per_m3 : float
        Of the wall.

    Notes
    -----
    ``n (n^2 - 1) / sqrt(n^2 + 1) / (2 pi R^2) sqrt(E t^2 / (12 rho))``: R. D. Blevins, Formulas
    for Natural Frequency and Mode Shape, 1979 (from memory). Hoops, heads, beads and glued rings
    stiffen a shell: it is the lowest that it can be.

    Examples
    --------
    >>> round(ring_hz(2, radius_m=0.1494, wall_m=0.006, modulus_n_per_m2=10e9,
    ...               density_kg_per_m3=650))
    130
    """
    believed_radius(radius_m)
    shape = lobes * (lobes**2 - 1) / math.sqrt(lobes**2 + 1)
    wave = math.sqrt(modulus_n_per_m2 * wall_m**2 / (12.0 * density_kg_per_m3))
    return shape * wave / (2.0 * math.pi * radius_m**2)
