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
    plane: list[complex] = (points[:, 0] + 1j * points[:, 1]).tolist()
    middle, radius, _ = _smallest([plane[i] for i in holders])
    for _ in range(20 * len(points)):
        away = distances(points, np.array((middle.real, middle.imag)))
        farthest = int(np.argmax(away))
        if away[farthest] <= radius * (1.0 + 1e-15) or farthest in holders:
            break
        tried = [*holders, farthest]
        centre, wider, kept = _smallest([plane[i] for i in tried])
        if wider <= radius:
            break
        middle, radius, holders = centre, wider, [tried[i] for i in kept]
    return np.array((middle.real, middle.imag))


def _smallest(few: list[complex]) -> tuple[complex, float, tuple[int, ...]]:
    """Return middle, radius and holders of the smallest circle round two to four points."""
    found: tuple[float, complex, tuple[int, ...]] | None = None
    for size in (2, 3):
        for held in combinations(range(len(few)), size):
            centre = _through([few[i] for i in held])
            if centre is None:
                continue
            radius = max(abs(few[i] - centre) for i in held)
            if max(abs(point - centre) for point in few) > radius * (1.0 + 1e-14):
                continue
            if found is None or radius < found[0]:
                found = radius, centre, held
    assert found is not None  # some pair or triple always holds the others
    return found[1], found[0], found[2]


def _through(held: list[complex]) -> complex | None:
    """Return the middle of the circle on two points as diameter, or through three points."""
    if len(held) == 2:
        return (held[0] + held[1]) / 2.0
    one, two = held[1] - held[0], held[2] - held[0]
    across = (one.conjugate() * two).imag
    if abs(across) < 1e-12:
        return None
    return held[0] + 1j * (two * abs(one) ** 2 - one * abs(two) ** 2) / (-2.0 * across)
