"""How heavy a mode is: heads and air together, as a blow finds them."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.mode import Mode
from counterhoop.heads.shapes import Floats
from counterhoop.heads.stiffness import Stiffness


@lru_cache(maxsize=512)
def moved_kg(drum: HeadedShell, mode: Mode) -> float:
    """Return the mass that a mode moves, for its shapes as they are scaled.

    A blow of impulse ``P`` at a place where the mode's shape is ``s`` starts it with the speed
    ``P s / mass``.

    Notes
    -----
    ``-q' (dD / d(w^2)) q`` at the mode's pitch with ``D = K - w^2 M(w)``: the residue of the
    response there. The air's springiness makes it more than ``q' M q``.
    """
    stiffness = Stiffness(drum, mode.around, len(mode.batter_shape))
    shape = _whole_shape(stiffness, mode)
    return float(shape @ stiffness.inertia(mode.hz) @ shape) * round_rad(mode.around)


def round_rad(around: int) -> float:
    """Return the integral of the squared cosine round a head."""
    return 2.0 * math.pi if around == 0 else math.pi


def _whole_shape(stiffness: Stiffness, mode: Mode) -> Floats:
    """An open end's air follows the head: what it does is solved for."""
    batter, n = np.asarray(mode.batter_shape), len(mode.batter_shape)
    if not stiffness.drum.is_open:
        return np.concatenate([batter, np.asarray(mode.resonant_shape)])
    matrix = stiffness.at(mode.hz)
    return np.concatenate([batter, -np.linalg.solve(matrix[n:, n:], matrix[n:, :n] @ batter)])
