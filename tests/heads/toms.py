"""Drums that tests ask about."""

from __future__ import annotations

import math

from counterhoop.heads.head import Head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.modes import modes_around

INCH = 0.0254
THICK, THIN = Head(mass_kg_per_m2=0.353), Head(mass_kg_per_m2=0.265)


def drum(across_in=12.0, deep_in=8.0, *, batter=2000.0, resonant=2000.0, **other):
    """A tom with a head of 10 mil and one of 7.5 below; ``resonant=None``: open."""
    return HeadedShell(
        radius_m=across_in * INCH / 2, depth_m=deep_in * INCH, batter=THICK,
        batter_n_per_m=batter, resonant=None if resonant is None else THIN,
        resonant_n_per_m=resonant, **other,
    )  # fmt: skip


def pitches(shell, around, **how):
    return [mode.hz for mode in modes_around(shell, around=around, **how)]


def cents(to, since):
    return 1200 * math.log2(to / since)
