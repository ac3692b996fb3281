"""The smallest circle that holds every reading."""

from __future__ import annotations

from itertools import combinations

import numpy as np

from counterhoop.survey.circle_readings import Points, RadialReadings
from counterhoop.survey.circle_reference import CircleKind, ReferenceCircle, distances, reference


def circumscribed_circle(readings: RadialReadings) -> ReferenceCircle:
    """Return the minimum circumscribed circle, exact: two or three readings hold it.

    Whatever lies farthest out joins the two or three that hold the circle, until nothing lies
    outside; each time the circle grows (ISO 12181-1, from memory).

    Examples
    --------
    >>> lobes = (0.25, -0.25) * 3
    >>> readings = RadialReadings.from_dial(lobes, zero_radius_mm=100)
    >>> round(circumscribed_circle(readings).radius_mm, 9)
    100.25
    """
    points = readings.points()
    return reference(CircleKind.CIRCUMSCRIBED, points, centre=circumscribed_middle(points))


def circumscribed_middle(points: Points) -> Points:
    """Return the middle of the smallest circle round points, shape (points, 2)."""
    first = int(np.argmax(distances(points, points.mean(axis=0))))
    holders = [first, int(np.argmax(distances(points, points[first])))]
    centre, radius = _smallest(points[holders])[:2]
    for _ in range(20 * len(points)):
        away = distances(points, centre)
        farthest = int(np.argmax(away))
        if away[farthest] <= radius * (1.0 + 1e-15) or farthest in holders:
            break
        tried = [*holders, farthest]
        centre, wider, kept = _smallest(points[tried])
        if wider <= radius:
            break
        radius, holders = wider, [tried[i] for i in kept]
    return centre


def _smallest(few: Points) -> tuple[Points, float, tuple[int, ...]]:
    """Return middle, radius and holders of the smallest circle round two to four points."""
    found: tuple[Points, float, tuple[int, ...]] | None = None
    for size in (2, 3):
        for held in combinations(range(len(few)), size):
            centre = _through(few[list(held)])
            if centre is None:
                continue
            radius = float(distances(few[list(held)], centre).max())
            if distances(few, centre).max() > radius * (1.0 + 1e-14):
                continue
            if found is None or radius < found[1]:
                found = centre, radius, held
    assert found is not None  # some pair or triple always holds the others
    return found


def _through(held: Points) -> Points | None:
    """Return the middle of the circle on two points as diameter, or through three points."""
    if len(held) == 2:
        middle: Points = held.mean(axis=0)
        return middle
    sides = held[1:] - held[0]
    if abs(float(sides[0, 0] * sides[1, 1] - sides[0, 1] * sides[1, 0])) < 1e-12:
        return None
    solved: Points = held[0] + np.linalg.solve(2.0 * sides, (sides**2).sum(axis=1))
    return solved
