"""One reading, or a run of them, that steps off the line of its neighbours."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

LEAST_STATIONS = 8
OWN = (70.0, -56.0, 28.0, -8.0, 1.0)
"""What the fourth differences of a single step come to, against themselves and against those of a
step one to four stations on: the products of 1, -4, 6, -4, 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stray:
    """A run of readings that is off by one and the same step.

    Attributes
    ----------
    first, count : int
        Index of its first station, and how many stations it runs on.
    step_mm : float
        How far it is off.
    left : float
        What is left of the roughness of all readings once it is mended, as a share.
    """

    first: int
    count: int
    step_mm: float
    left: float


def worst_stray(values_mm: Sequence[float], *, longest: int) -> Stray | None:
    """Return the run whose step explains most of the roughness, or None when there is none.

    Roughness is the sum of squared fourth differences round the rim: lobes hardly show in it, a
    step in one reading shows seventyfold its square. The step of each run is that of least squares.

    Parameters
    ----------
    values_mm : sequence of float
        At equal steps round the rim, at least eight.
    longest : int
        Most stations that a run may have; half of all at the most, as the other half is then off
        by the opposite step.

    Examples
    --------
    >>> found = worst_stray((0.0,) * 5 + (1.0, 1.0) + (0.0,) * 9, longest=8)
    >>> found.first, found.count, round(found.step_mm, 9), round(found.left, 9)
    (5, 2, 1.0, 0.0)
    """
    values = np.asarray(values_mm, dtype=float)
    count = len(values)
    if count < LEAST_STATIONS:
        return None
    rough = _fourth(values)
    total = float(rough @ rough)
    if total < 1e-18:
        return None
    # Of every run, by length and first station: the readings' part along it, and its own square.
    lengths = np.arange(1, min(longest, count // 2) + 1)
    summed = np.concatenate(([0.0], np.cumsum(np.tile(_fourth(rough), 2))))
    starts = np.arange(count)
    along = summed[starts + lengths[:, None]] - summed[starts]
    own = OWN[0] * lengths + 2.0 * sum(
        share * np.maximum(lengths - apart, 0) for apart, share in enumerate(OWN) if apart
    )
    gains = along**2 / own[:, None]
    # The first of equals is the shortest.
    longer, first = np.unravel_index(int(np.argmax(gains)), gains.shape)
    return Stray(
        first=int(first),
        count=int(lengths[longer]),
        step_mm=float(along[longer, first] / own[longer]),
        left=max(0.0, 1.0 - float(gains[longer, first]) / total),
    )


def _fourth(values: np.ndarray) -> np.ndarray:
    """Return the fourth differences round the rim."""
    round_it = np.concatenate((values[-2:], values, values[:2]))
    near, far = round_it[1:-3] + round_it[3:-1], round_it[:-4] + round_it[4:]
    found: np.ndarray = far - 4.0 * near + 6.0 * values
    return found
