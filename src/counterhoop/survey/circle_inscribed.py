"""The largest circle that goes inside the readings."""

from __future__ import annotations

import numpy as np

from counterhoop.errors import BadInput
from counterhoop.survey.circle_least_squares import least_squares_middle
from counterhoop.survey.circle_readings import Points, RadialReadings
from counterhoop.survey.circle_reference import CircleKind, ReferenceCircle, reference


def inscribed_circle(readings: RadialReadings) -> ReferenceCircle:
    """Return the maximum inscribed circle: the best of all Voronoi vertices inside.

    There may be several circles that no small move makes larger; all are looked at, and the
    largest is taken (ISO 12181-1, from memory).

    Raises
    ------
    BadInput
        When the readings leave half the rim out: nothing then holds the circle on that side.

    Examples
    --------
    >>> lobes = (0.25, -0.25) * 3
    >>> round(inscribed_circle(RadialReadings.from_dial(lobes, zero_radius_mm=100)).radius_mm, 9)
    99.75
    """
    points = readings.points()
    middle = inscribed_middle(points, near=least_squares_middle(points))
    return reference(CircleKind.INSCRIBED, points, centre=middle)


def surrounded(points: Points, centre: Points) -> bool:
    """Tell whether points lie on every side of a middle."""
    angles = np.sort(np.arctan2(points[:, 1] - centre[1], points[:, 0] - centre[0]))
    steps = np.diff(np.append(angles, angles[0] + 2.0 * np.pi))
    return bool(steps.max() < np.pi - 1e-9)


def inscribed_middle(points: Points, *, near: Points) -> Points:
    """Return the middle of the largest circle inside points, shape (points, 2).

    ``near`` is a middle of the shell: the readings must lie on every side of it.
    """
    from scipy.spatial import Delaunay

    skin = points - near
    if not surrounded(skin, np.zeros(2)):
        raise BadInput(
            "no inscribed circle on an arc",
            where="radial readings",
            wanted="stations on every side of the shell",
            step="read the other half of the rim too, or use the least-squares circle",
        )
    corners = skin[Delaunay(skin).simplices]
    sides = corners[:, 1:] - corners[:, :1]
    area = sides[:, 0, 0] * sides[:, 1, 1] - sides[:, 0, 1] * sides[:, 1, 0]
    kept = np.abs(area) > 1e-9
    squares = (sides[kept] ** 2).sum(axis=2)
    centres = corners[kept, 0] + np.linalg.solve(2.0 * sides[kept], squares[..., None])[..., 0]
    rooms = np.hypot(
        centres[:, None, 0] - skin[None, :, 0], centres[:, None, 1] - skin[None, :, 1]
    ).min(axis=1)
    for index in np.argsort(-rooms, kind="stable"):
        if surrounded(skin, centres[index]):
            found: Points = centres[index] + near
            return found
    raise BadInput(
        "no circle goes inside these readings",
        where="radial readings",
        wanted="stations on every side of the shell",
        step="read more stations",
    )
