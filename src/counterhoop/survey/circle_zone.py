"""The minimum-zone circles: two about one middle, as close together as can be."""

from __future__ import annotations

import numpy as np

from counterhoop.survey.circle_least_squares import least_squares_middle
from counterhoop.survey.circle_readings import Points, RadialReadings
from counterhoop.survey.circle_reference import CircleKind, ReferenceCircle, distances, reference
from counterhoop.survey.plane_zone import least_zone

MOST_STEPS = 60


def minimum_zone_circle(readings: RadialReadings) -> ReferenceCircle:
    """Return the middle about which the readings lie between the closest pair of circles.

    Linear programmes on the distances, each made straight about the middle found last; the first
    is the limacon, the rest bring in the geometry (ISO 12181-1, from memory). The end is a least
    zone near the least-squares circle, the least of all when the shell is nearly round.

    Examples
    --------
    >>> raised = (0.4, 0, 0, 0, 0, 0, 0, 0)
    >>> found = minimum_zone_circle(RadialReadings.from_dial(raised, zero_radius_mm=100))
    >>> round(found.total_mm, 6), round(found.x_mm, 6)
    (0.341321, 0.2)
    """
    points = readings.points()
    centre = minimum_zone_middle(points, near=least_squares_middle(points))
    return reference(CircleKind.MINIMUM_ZONE, points, centre=centre)


def minimum_zone_middle(points: Points, *, near: Points) -> Points:
    """Return the middle of the minimum zone of points, searched from a middle near it."""
    centre = near
    zone = _zone(points, centre)
    for _ in range(MOST_STEPS):
        away = distances(points, centre)
        towards = (points - centre) / away[:, None]
        columns = np.column_stack((np.ones(len(away)), towards))
        step = least_zone(columns, away - away.mean())[0][1:]
        share = 1.0
        while _zone(points, centre + share * step) > zone and share > 1e-6:
            share /= 2.0
        if share <= 1e-6:  # rounding stops it: this is the middle
            return centre
        centre = centre + share * step
        zone = _zone(points, centre)
        # A whole step leaves its own square over the radius: the next one would be no more.
        if share == 1.0 and float(np.abs(step).max()) < 3e-7 * float(away.mean()):
            return centre
    return centre


def _zone(points: Points, centre: Points) -> float:
    away = distances(points, centre)
    return float(away.max() - away.min())
