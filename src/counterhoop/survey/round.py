"""How round one end of a shell is, from radial readings."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.survey.circle_circumscribed import circumscribed_middle
from counterhoop.survey.circle_inscribed import inscribed_middle, surrounded
from counterhoop.survey.circle_least_squares import least_squares_middle
from counterhoop.survey.circle_readings import RadialReadings
from counterhoop.survey.circle_reference import CircleKind, ReferenceCircle, reference
from counterhoop.survey.circle_zone import minimum_zone_middle


@dataclass(frozen=True, slots=True, kw_only=True)
class Roundness:
    """The four reference circles of one end and what they say.

    Attributes
    ----------
    stations : int
        How many places it rests on.
    least_squares, minimum_zone, circumscribed : ReferenceCircle
        RONt is ``total_mm`` of each; RONp, RONv and RONq are ``peak_mm``, ``valley_mm`` and
        ``rms_mm`` of the least-squares circle.
    inscribed : ReferenceCircle or None
        None when the readings leave half the rim out.
    """

    stations: int
    least_squares: ReferenceCircle
    minimum_zone: ReferenceCircle
    circumscribed: ReferenceCircle
    inscribed: ReferenceCircle | None


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
    inside = None
    if surrounded(points, middle):
        inside = reference(CircleKind.INSCRIBED, points, centre=inscribed_middle(points))
    return Roundness(
        stations=len(points),
        least_squares=reference(CircleKind.LEAST_SQUARES, points, centre=middle),
        minimum_zone=reference(
            CircleKind.MINIMUM_ZONE, points, centre=minimum_zone_middle(points, near=middle)
        ),
        circumscribed=reference(
            CircleKind.CIRCUMSCRIBED, points, centre=circumscribed_middle(points)
        ),
        inscribed=inside,
    )
