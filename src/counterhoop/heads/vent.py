"""The vent in the shell: a short pipe of air between inside and outside."""

from __future__ import annotations

import math

from counterhoop.heads.headed_shell import HeadedShell

END_CORRECTION = 1.7
"""Radii of air that move with that in the hole, both ends: 8 / (3 pi) at each, flanged."""


def vent_hz(drum: HeadedShell) -> float:
    """Return the pitch at which a drum with rigid heads would breathe through its vent.

    0 without a vent, and at an open end, beside which it does nothing.

    Notes
    -----
    ``f = c / (2 pi) sqrt(S / (V l))``, ``l`` the wall and 1.7 radii of the hole: Helmholtz's
    resonator, Kinsler and Frey, Fundamentals of Acoustics, chapter 10 (from memory).

    Examples
    --------
    >>> from counterhoop.heads.head import film_head
    >>> film = film_head(254e-6)
    >>> tom = HeadedShell(radius_m=0.1524, depth_m=0.2032, batter=film, batter_n_per_m=2000.0,
    ...                   resonant=film, resonant_n_per_m=2000.0, vent_m=0.012)
    >>> round(vent_hz(tom), 1)
    37.5
    """
    if drum.is_open or drum.vent_m == 0.0:
        return 0.0
    hole = drum.vent_m / 2.0
    volume = math.pi * drum.radius_m**2 * drum.depth_m
    stiff = math.pi * hole**2 / (volume * (drum.wall_m + END_CORRECTION * hole))
    return drum.air.sound_m_per_s / (2.0 * math.pi) * math.sqrt(stiff)
