"""Where a dynamic stiffness gives way: every pitch in a range, none missed, none invented."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from counterhoop.heads.shapes import Floats
from counterhoop.heads.stiffness import Stiffness

LOWEST_HZ = 0.5
CLOSE_HZ = 1e-7
_BESIDE = 1e-9


def roots(stiffness: Stiffness, up_to_hz: float) -> Iterator[tuple[float, Floats]]:
    """Yield each pitch and its shape, shape (n,), by rising pitch.

    Notes
    -----
    Between two resonances of the air alone each eigenvalue of ``K - w^2 M(w)`` falls steadily as
    the pitch rises, so that it passes nought once or not at all, and how many do is the number of
    modes there. W. H. Wittrick and F. W. Williams, Quarterly Journal of Mechanics and Applied
    Mathematics 24 (1971) 263 (from memory), count in the same way.
    """
    from scipy.optimize import brentq

    def eigenvalue(hz: float, index: int) -> float:
        return float(np.linalg.eigvalsh(stiffness.at(hz))[index])

    poles = stiffness.poles_hz(up_to_hz)
    below = [LOWEST_HZ, *(pole * (1.0 + _BESIDE) for pole in poles)]
    above = [*(pole * (1.0 - _BESIDE) for pole in poles), up_to_hz]
    for low, high in zip(below, above, strict=True):
        if low >= high:
            continue
        first, last = (negative(stiffness.at(hz)) for hz in (low, high))
        for index in range(first, last):
            hz = brentq(eigenvalue, low, high, args=(index,), xtol=CLOSE_HZ)
            yield float(hz), np.linalg.eigh(stiffness.at(hz))[1][:, index]


def negative(matrix: Floats) -> int:
    """Return how many eigenvalues are below nought."""
    return int((np.linalg.eigvalsh(matrix) < 0.0).sum())
