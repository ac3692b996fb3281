"""The least-squares circle, by geometry."""

from __future__ import annotations

import numpy as np

from counterhoop.errors import BadInput
from counterhoop.survey.circle_readings import Points, RadialReadings
from counterhoop.survey.circle_reference import CircleKind, ReferenceCircle, distances, reference

MOST_STEPS = 200


def least_squares_circle(readings: RadialReadings) -> ReferenceCircle:
    """Return the circle with the least sum of squared distances to the readings.

    Gauss-Newton on the distances themselves (ISO 12181-1, from memory), also right on an arc,
    where algebraic fits are not.

    Raises
    ------
    BadInput
        When the readings lie as on a straight line.

    Examples
    --------
    >>> found = least_squares_circle(RadialReadings.from_dial((1, -1, 1, -1), zero_radius_mm=99))
    >>> round(found.radius_mm, 9), round(found.total_mm, 9)
    (99.0, 2.0)
    """
    points = readings.points()
    return reference(CircleKind.LEAST_SQUARES, points, centre=least_squares_middle(points))


def least_squares_middle(points: Points) -> Points:
    """Return the middle of the least-squares circle of points, shape (points, 2)."""
    # The algebraic circle (Kasa) is near enough to start from.
    shift = points.mean(axis=0)
    near = points - shift
    table = np.column_stack((2.0 * near, np.ones(len(near))))
    centre: Points = np.linalg.lstsq(table, (near**2).sum(axis=1), rcond=None)[0][:2]
    spread = _spread(near, centre)
    for _ in range(MOST_STEPS):
        away = distances(near, centre)
        towards = (near - centre) / np.where(away > 0.0, away, 1.0)[:, None]
        turned = towards - towards.mean(axis=0)
        step = np.linalg.lstsq(turned, away - away.mean(), rcond=None)[0]
        if float(np.abs(step).max()) < 1e-13 * float(away.mean()):
            found: Points = centre + step + shift
            return found
        share = 1.0
        # Rounding may raise the sum by a hair; the step itself then says when to end.
        while _spread(near, centre + share * step) > spread * (1.0 + 1e-9) + 1e-18 and share > 1e-6:
            share /= 2.0
        centre = centre + share * step
        spread = _spread(near, centre)
    raise BadInput(
        "no circle fits these readings",
        where="radial readings",
        wanted="readings round the shell, not along a straight line",
        step="see whether the radius at which the dial stood at 0 is right",
    )


def _spread(points: Points, centre: Points) -> float:
    away = distances(points, centre)
    return float(((away - away.mean()) ** 2).sum())
