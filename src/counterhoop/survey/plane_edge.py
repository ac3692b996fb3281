"""Planes through the heights of an edge."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from counterhoop.development.rim import rim_plane
from counterhoop.survey.flat_heights import EdgeHeights
from counterhoop.survey.lowest_corner import Array
from counterhoop.survey.plane_zone import least_zone


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgePlane:
    """A plane as heights round the rim: ``mean + cos cos(along) + sin sin(along)``.

    Attributes
    ----------
    mean_mm, cos_mm, sin_mm : float
        The plane, as millimetres at the rim.
    deviations_mm : tuple of float
        Height less plane at each station, square to the old plane; at the tilts of an edge the
        same as square to the new one (under 1 in 10 000 up to 0.8 degrees).
    """

    mean_mm: float
    cos_mm: float
    sin_mm: float
    deviations_mm: tuple[float, ...]

    @property
    def total_mm(self) -> float:
        """Peak to valley, FLTt."""
        return max(self.deviations_mm) - min(self.deviations_mm)

    def at_mm(self, along_deg: float) -> float:
        """Height of the plane at one place round the rim."""
        a = math.radians(along_deg)
        return self.mean_mm + self.cos_mm * math.cos(a) + self.sin_mm * math.sin(a)

    def tilt_deg(self, *, radius_mm: float) -> float:
        """Return how far the plane leans, for an edge of this radius."""
        return math.degrees(math.atan(math.hypot(self.cos_mm, self.sin_mm) / radius_mm))


def rim_columns(edge: EdgeHeights) -> Array:
    """Return ``1, cos, sin`` at each station, shape (stations, 3)."""
    angles = np.radians(edge.along_deg)
    return np.column_stack((np.ones(len(angles)), np.cos(angles), np.sin(angles)))


def edge_plane(edge: EdgeHeights, factors: Array) -> EdgePlane:
    """Return the plane with these three factors and what the edge lies off it."""
    off = np.asarray(edge.height_mm) - rim_columns(edge) @ factors
    return EdgePlane(
        mean_mm=float(factors[0]),
        cos_mm=float(factors[1]),
        sin_mm=float(factors[2]),
        deviations_mm=tuple(float(d) for d in off),
    )


def least_squares_plane(edge: EdgeHeights) -> EdgePlane:
    """Return the plane with the least sum of squared heights over it (ISO 12781-1, from memory)."""
    fitted = rim_plane(edge.along_deg, edge.height_mm)
    return EdgePlane(
        mean_mm=fitted.mean_mm,
        cos_mm=fitted.cos_mm,
        sin_mm=fitted.sin_mm,
        deviations_mm=fitted.off_mm,
    )


def minimum_zone_plane(edge: EdgeHeights) -> EdgePlane:
    """Return the middle of the two closest planes that hold the edge (ISO 12781-1, from memory).

    Examples
    --------
    >>> edge = EdgeHeights.from_gaps((0, 0.3, 0, 0.3))
    >>> round(minimum_zone_plane(edge).total_mm, 9)
    0.3
    """
    return edge_plane(edge, least_zone(rim_columns(edge), np.asarray(edge.height_mm))[0])
