"""What the pitch near each rod tells of the pull of each rod, and what it does not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from counterhoop.errors import BadInput
from counterhoop.heads.rim_load import FEWEST_RODS
from counterhoop.heads.shapes import Floats
from counterhoop.heads.uneven import CENTS_PER_UNIT

SURE = 1e-6
"""A pattern of pulls that moves no pitch by more than this part of the plainest is not heard."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hearing:
    """How plainly patterns of pull are heard.

    Attributes
    ----------
    cents : tuple of float
        For each pattern that is heard, plainest first: cents of pitch for a pattern of pulls of
        size 1, both as roots of sums of squares over the rods.
    rods : int
        How many there are.
    """

    cents: tuple[float, ...]
    rods: int

    @property
    def unheard(self) -> int:
        """How many patterns of pull change no pitch near any rod."""
        return self.rods - len(self.cents)


def pitch_matrix(along_deg: Sequence[float], *, passed: float = 1.0) -> Floats:
    """Return how the pitch near each rod goes with the pull of each, shape (rods, rods), in cents.

    Parameters
    ----------
    along_deg : sequence of float, shape (rods,)
        Where the rods are.
    passed : float
        What share of a two-lobed wave the hoop passes on: ``hoop.passed_share(2, ...)``.

    Returns
    -------
    array
        Row: where one listens; column: which rod pulls more, by 1 of the mean pull.

    Notes
    -----
    First order, ``1 / 2 dT / T + 1 / 4 n_2 / T cos 2 (here - axis)``: of all that the rods do
    (1,1) tells the mean and the two-lobed part. The rank is 3, or 2 with four rods a quarter
    apart.

    Examples
    --------
    >>> [round(float(cents), 1) for cents in pitch_matrix([0, 60, 120, 180, 240, 300])[0] / 10]
    [28.9, 7.2, 7.2, 28.9, 7.2, 7.2]
    """
    turn = _twice_round(along_deg)
    lobes = np.cos(turn[:, None] - turn[None, :])
    return np.asarray(CENTS_PER_UNIT * (0.5 + 0.5 * passed * lobes) / len(turn))


def hearing(along_deg: Sequence[float], *, passed: float = 1.0) -> Hearing:
    """Return how plainly patterns of pull are heard near the rods; see ``pitch_matrix``.

    Examples
    --------
    >>> ears = hearing([0, 60, 120, 180, 240, 300], passed=0.864)
    >>> [round(cents) for cents in ears.cents], ears.unheard
    ([866, 374, 374], 3)
    """
    sizes = np.linalg.svd(pitch_matrix(along_deg, passed=passed), compute_uv=False)
    heard = sizes[sizes > SURE * sizes[0]]
    return Hearing(cents=tuple(float(size) for size in heard), rods=len(along_deg))


def _twice_round(along_deg: Sequence[float]) -> Floats:
    """Places of rods as a two-lobed wave has them, in radians, shape (rods,)."""
    turn = np.asarray(2.0 * np.radians(np.asarray(along_deg, dtype=np.float64)))
    if len(turn) < FEWEST_RODS or not np.all(np.isfinite(turn)):
        raise BadInput("a head needs three rods or more, each at its place", where="along_deg",
                       given=list(along_deg))  # fmt: skip
    return turn
