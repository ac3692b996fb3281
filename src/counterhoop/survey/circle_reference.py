"""A circle that readings are held against, and how far they lie off it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from counterhoop.survey.circle_readings import Points


class CircleKind(StrEnum):
    """The four reference circles of ISO 12181-1 (from memory)."""

    LEAST_SQUARES = "least squares"
    MINIMUM_ZONE = "minimum zone"
    CIRCUMSCRIBED = "minimum circumscribed"
    INSCRIBED = "maximum inscribed"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReferenceCircle:
    """One reference circle with the deviation of every reading from it.

    Attributes
    ----------
    kind : CircleKind
        Which of the four.
    x_mm, y_mm : float
        Its middle as seen from the bar: x to the datum, y to 90 degrees along.
    radius_mm : float
        Its radius; of the minimum zone, half way between its two circles.
    deviations_mm : tuple of float
        Distance from the middle less the radius, in the order of the readings.
    """

    kind: CircleKind
    x_mm: float
    y_mm: float
    radius_mm: float
    deviations_mm: tuple[float, ...]

    @property
    def total_mm(self) -> float:
        """Peak to valley, RONt."""
        return max(self.deviations_mm) - min(self.deviations_mm)

    @property
    def peak_mm(self) -> float:
        """How far the farthest reading lies outside; RONp when the circle is least squares."""
        return max(self.deviations_mm)

    @property
    def valley_mm(self) -> float:
        """How far the nearest reading lies inside; RONv when the circle is least squares."""
        return -min(self.deviations_mm)

    @property
    def rms_mm(self) -> float:
        """Root of the mean square; RONq when the circle is least squares."""
        return math.sqrt(sum(d * d for d in self.deviations_mm) / len(self.deviations_mm))

    @property
    def outer_mm(self) -> float:
        """Radius of the smallest circle about this middle that holds every reading."""
        return self.radius_mm + self.peak_mm

    @property
    def inner_mm(self) -> float:
        """Radius of the largest circle about this middle that holds no reading."""
        return self.radius_mm - self.valley_mm


def distances(points: Points, centre: Points) -> Points:
    """Return how far each point lies from the middle, shape (points,)."""
    found: Points = np.hypot(points[:, 0] - centre[0], points[:, 1] - centre[1])
    return found


def reference(kind: CircleKind, points: Points, *, centre: Points) -> ReferenceCircle:
    """Return the circle of this kind about a middle already found."""
    away = distances(points, centre)
    radius = {
        CircleKind.LEAST_SQUARES: float(away.mean()),
        CircleKind.MINIMUM_ZONE: float(away.max() + away.min()) / 2.0,
        CircleKind.CIRCUMSCRIBED: float(away.max()),
        CircleKind.INSCRIBED: float(away.min()),
    }[kind]
    return ReferenceCircle(
        kind=kind,
        x_mm=float(centre[0]),
        y_mm=float(centre[1]),
        radius_mm=radius,
        deviations_mm=tuple(float(d) for d in away - radius),
    )
