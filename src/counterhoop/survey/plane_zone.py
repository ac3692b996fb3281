"""The least zone that holds values over ``1, cos, sin``: for circles and planes alike."""

from __future__ import annotations

import numpy as np

from counterhoop.survey.lowest_corner import Array, lowest_corner

WIDTH_ONLY = np.array([(0.0, 0.0, 0.0, 1.0), (0.0, 0.0, 0.0, 0.0)])


def least_zone(columns: Array, values: Array) -> tuple[Array, float]:
    """Return the three factors that leave the least largest remainder, and half the zone.

    A linear programme, ``min t`` with ``|values - columns @ factors| <= t``.

    Parameters
    ----------
    columns : array, shape (readings, 3)
        At least four rows; any three of them independent.
    values : array, shape (readings,)
        What is to be held.

    Returns
    -------
    factors : array, shape (3,)
    half : float
        Half the width of the zone, not negative.

    Examples
    --------
    One of four raised by 0.4 (ISO 12781 by hand: half of it):

    >>> square = np.array([(1, 1, 0), (1, 0, 1), (1, -1, 0), (1, 0, -1)], dtype=float)
    >>> round(2 * least_zone(square, np.array([0.4, 0, 0, 0]))[1], 12)
    0.2
    """
    half = np.ones((len(values), 1))
    rows = np.block([[columns, -half], [-columns, -half]])
    factors = lowest_corner(rows, np.concatenate((values, -values)), aims=WIDTH_ONLY)[:3]
    return factors, float(np.abs(values - columns @ factors).max())
