"""The least zone that holds values over ``1, cos, sin``: one solver for circles and planes."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import CannotDo

Array = NDArray[np.float64]
MOST_EXCHANGES = 1000


def least_zone(columns: Array, values: Array) -> tuple[Array, float]:
    """Return the three factors that leave the least largest remainder, and half the zone.

    A linear programme, ``min t`` with ``|values - columns @ factors| <= t``, solved in its dual
    by exchanging one of four readings at a time (Stiefel 1959; from memory). ``1, cos, sin`` at
    different angles satisfy the Haar condition, so that every exchange widens the zone of the
    four and the end is exact to rounding.

    Parameters
    ----------
    columns : array, shape (readings, 3)
        At least four rows, in order round the rim; any three of them independent.
    values : array, shape (readings,)
        What is to be held.

    Returns
    -------
    factors : array, shape (3,)
    half : float
        Half the width of the zone, not negative.

    Raises
    ------
    CannotDo
        When the exchanges find no end (rows that are not of the kind named above).

    Examples
    --------
    One of four raised by 0.4 (ISO 12781 by hand: half of it):

    >>> square = np.array([(1, 1, 0), (1, 0, 1), (1, -1, 0), (1, 0, -1)], dtype=float)
    >>> round(2 * least_zone(square, np.array([0.4, 0, 0, 0]))[1], 12)
    0.2
    """
    count = len(values)
    chosen = [i * count // 4 for i in range(4)]
    signs = np.array([1.0, -1.0, 1.0, -1.0])
    bottom = np.array([0.0, 0.0, 0.0, 1.0])
    scale = float(np.abs(values).max()) if count else 0.0
    enough = 1e-14 * max(1.0, scale)
    full = np.ones((count, 4))
    full[:, :3] = columns
    for _ in range(MOST_EXCHANGES):
        basis = full[chosen]
        basis[:, :3] *= signs[:, None]
        held = np.linalg.solve(basis, signs * values[chosen])
        if held[3] < 0.0:
            signs = -signs
            basis[:, :3] *= -1.0
            held = np.linalg.solve(basis, signs * values[chosen])
        factors = np.asarray(held[:3], dtype=np.float64)
        half = float(held[3])
        over = values - columns @ factors
        worst = int(np.argmax(np.abs(over)))
        if abs(over[worst]) <= half + enough or worst in chosen:
            return factors, max(half, float(np.abs(over).max()))
        sign = 1.0 if over[worst] > 0 else -1.0
        entering = np.append(sign * columns[worst], 1.0)
        weights, moves = np.linalg.solve(basis.T, np.column_stack((bottom, entering))).T
        ratios = np.where(moves > 1e-15, weights / np.where(moves > 1e-15, moves, 1.0), np.inf)
        leaving = int(np.argmin(ratios))
        chosen[leaving] = worst
        signs[leaving] = sign
    raise CannotDo("no least zone found for these readings; see whether two stations coincide")
