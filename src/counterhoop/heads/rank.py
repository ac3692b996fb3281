"""What the pitch near each rod tells of the pull of each rod, and what it does not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from counterhoop.errors import BadInput
from counterhoop.heads.believed import believed
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


def heard_part(pulls: Sequence[float], *, along_deg: Sequence[float]) -> tuple[float, ...]:
    """Return of some pulls what pitch can tell: the mean and the two-lobed part.

    What is taken away, such as the difference between opposite rods of an even number, changes no
    pitch at first order, of no mode, however well one listens.

    Examples
    --------
    >>> opposite = heard_part([440, 400, 400, 400, 400, 400], along_deg=[0, 60, 120, 180, 240, 300])
    >>> [round(pull, 6) for pull in opposite]
    [420.0, 400.0, 400.0, 420.0, 400.0, 400.0]
    """
    seen = _told(along_deg)
    if len(pulls) != len(along_deg):
        raise BadInput("not as many pulls as rods", where="pulls", given=len(pulls),
                       wanted=str(len(along_deg)))  # fmt: skip
    part = np.linalg.pinv(seen, rcond=SURE) @ (seen @ np.asarray(pulls, dtype=float))
    return tuple(float(pull) for pull in part)


def evening_pulls(
    lean: float, *, tight_deg: float, along_deg: Sequence[float], passed: float = 1.0
) -> tuple[float, ...]:
    """Return the smallest changes of pull that even the pitch and leave the mean.

    Parameters
    ----------
    lean, tight_deg : float
        As in ``uneven.doublet``: the two-lobed tension at the edge over the mean, and where along
        it is highest.
    along_deg : sequence of float, shape (rods,)
        Where the rods are.
    passed : float
        As in ``pitch_matrix``.

    Returns
    -------
    tuple of float
        For each rod, over the mean pull: more is positive. With four rods a quarter apart what
        lies between the rods stays as it is, since they cannot reach it.

    Examples
    --------
    >>> even = evening_pulls(0.05, tight_deg=60, along_deg=[0, 60, 120, 180, 240, 300])
    >>> [round(change, 4) for change in even]
    [0.025, -0.05, 0.025, 0.025, -0.05, 0.025]
    """
    turn = 2.0 * np.radians(tight_deg)
    believed(passed, where="passed", least=SURE, most=1.0, unit="of the wave")
    wanted = -lean / passed * np.array([0.0, np.cos(turn), np.sin(turn)])
    return tuple(float(change) for change in np.linalg.pinv(_told(along_deg), rcond=SURE) @ wanted)


def _twice_round(along_deg: Sequence[float]) -> Floats:
    """Places of rods as a two-lobed wave has them, in radians, shape (rods,)."""
    turn = np.asarray(2.0 * np.radians(np.asarray(along_deg, dtype=np.float64)))
    if len(turn) < FEWEST_RODS or not np.all(np.isfinite(turn)):
        raise BadInput("a head needs three rods or more, each at its place", where="along_deg",
                       given=list(along_deg))  # fmt: skip
    return turn


def _told(along_deg: Sequence[float]) -> Floats:
    """Pulls over their mean to the mean and the two-lobed wave of the load, shape (3, rods)."""
    turn = _twice_round(along_deg)
    rods = len(turn)
    return np.array([np.ones(rods) / rods, 2.0 * np.cos(turn) / rods, 2.0 * np.sin(turn) / rods])
