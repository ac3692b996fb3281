"""How round one end of a shell is, from radial readings."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from counterhoop.survey.circle_circumscribed import circumscribed_middle
from counterhoop.survey.circle_inscribed import inscribed_middle, surrounded
from counterhoop.survey.circle_least_squares import least_squares_middle
from counterhoop.survey.circle_readings import Points, RadialReadings
from counterhoop.survey.circle_reference import CircleKind, ReferenceCircle, reference
from counterhoop.survey.circle_zone import minimum_zone_middle
from counterhoop.survey.uncertainty import doubt_between, from_resolution


@dataclass(frozen=True, slots=True, kw_only=True)
class Roundness:
    """The four reference circles of one end and what they say.

    Attributes
    ----------
    readings : RadialReadings
        What they are laid through.
    stations : int
        How many places it rests on.
    least_squares, minimum_zone, circumscribed : ReferenceCircle
        RONt is ``total_mm`` of each; RONp, RONv and RONq are ``peak_mm``, ``valley_mm`` and
        ``rms_mm`` of the least-squares circle.
    resolution_mm : float
        Nothing finer is printed.
    doubt_mm : float
        Half-width of the doubt of a peak-to-valley figure: twice the standard uncertainty of the
        difference of two readings.
    radius_doubt_mm, middle_doubt_mm : float
        Standard uncertainty of the least-squares radius and of its middle, the way in which that
        is least sure.
    """

    readings: RadialReadings
    stations: int
    least_squares: ReferenceCircle
    minimum_zone: ReferenceCircle
    circumscribed: ReferenceCircle
    resolution_mm: float
    doubt_mm: float
    radius_doubt_mm: float
    middle_doubt_mm: float

    @property
    def inscribed(self) -> ReferenceCircle | None:
        """The maximum inscribed circle; None when the readings leave half the rim out.

        Worked out when it is asked for: only the table of circles prints it.
        """
        points = self.readings.points()
        middle = np.array((self.least_squares.x_mm, self.least_squares.y_mm))
        if not surrounded(points, middle):
            return None
        return reference(CircleKind.INSCRIBED, points, centre=inscribed_middle(points, near=middle))


def roundness(readings: RadialReadings) -> Roundness:
    """Return the four reference circles (ISO 12181-1, from memory) of radial readings.

    Examples
    --------
    >>> found = roundness(RadialReadings.from_dial((0.25, -0.25) * 3, zero_radius_mm=100))
    >>> found.stations, round(found.minimum_zone.total_mm, 9)
    (6, 0.5)
    """
    points = readings.points()
    middle = least_squares_middle(points)
    squares = reference(CircleKind.LEAST_SQUARES, points, centre=middle)
    radius_doubt, middle_doubt = _doubts(points, squares, step_mm=readings.resolution_mm)
    return Roundness(
        readings=readings,
        stations=len(points),
        least_squares=squares,
        minimum_zone=reference(
            CircleKind.MINIMUM_ZONE, points, centre=minimum_zone_middle(points, near=middle)
        ),
        circumscribed=reference(
            CircleKind.CIRCUMSCRIBED, points, centre=circumscribed_middle(points)
        ),
        resolution_mm=readings.resolution_mm,
        doubt_mm=doubt_between(readings.resolution_mm),
        radius_doubt_mm=radius_doubt,
        middle_doubt_mm=middle_doubt,
    )


def _doubts(points: Points, circle: ReferenceCircle, *, step_mm: float) -> tuple[float, float]:
    """Return the standard uncertainty of the least-squares radius and of its middle.

    That of one reading is what the circle leaves over, the instrument's step at the least,
    carried through the linear fit about the middle (JCGM 100:2008, 5.1.2 and 4.2.3). What the
    shell is out of round counts as doubt: other stations would have met other lobes.
    """
    towards = points - (circle.x_mm, circle.y_mm)
    towards = towards / np.hypot(towards[:, 0], towards[:, 1])[:, None]
    table = np.column_stack((towards, np.ones(len(points))))
    left = sum(d * d for d in circle.deviations_mm) / (len(points) - 3)
    spread = np.linalg.inv(table.T @ table) * max(left, from_resolution(step_mm) ** 2)
    return math.sqrt(spread[2, 2]), math.sqrt(np.linalg.eigvalsh(spread[:2, :2])[-1])
