"""Radial readings at stations round a shell, and the points that they stand for."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import BadInput
from counterhoop.survey.round_stations import check_stations, equal_stations_deg, station_names

Points = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class RadialReadings:
    """Distances from a bar or card near the middle to the skin, at stations round one end.

    Attributes
    ----------
    along_deg : tuple of float
        Where each was taken, degrees from the datum; any order, at least four places.
    radius_mm : tuple of float
        Distance from the bar to the skin; the bar need not stand in the middle.
    names : tuple of str
        What the stations are called; "station 1" and so on when nothing is given.
    instrument : str
        What it was read with.
    resolution_mm : float
        The instrument's smallest step.
    as_written : tuple of str
        What was written down.
    """

    along_deg: tuple[float, ...]
    radius_mm: tuple[float, ...]
    names: tuple[str, ...] = ()
    instrument: str = "dial gauge"
    resolution_mm: float = 0.01
    as_written: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        check_stations(self.along_deg, self.radius_mm, where="radial readings")
        if min(self.radius_mm) <= 0.0:
            raise BadInput(
                "a radius is not greater than 0",
                where="radial readings",
                given=min(self.radius_mm),
                wanted="the distance from the bar to the skin in mm",
                step="add the radius at which the dial stood at 0",
            )
        if not self.names:
            object.__setattr__(self, "names", station_names(len(self.along_deg)))

    @classmethod
    def from_dial(
        cls, dial_mm: Sequence[float], *, zero_radius_mm: float, resolution_mm: float = 0.01
    ) -> RadialReadings:
        """Make radii from a dial's readings at equally spaced stations, the first at the datum.

        Parameters
        ----------
        dial_mm : sequence of float
            What the dial said; more is farther out.
        zero_radius_mm : float
            Distance from the bar to the skin where the dial says 0.
        """
        return cls(
            along_deg=equal_stations_deg(len(dial_mm)),
            radius_mm=tuple(zero_radius_mm + d for d in dial_mm),
            resolution_mm=resolution_mm,
        )

    def points(self) -> Points:
        """Return the places read, shape (stations, 2), mm: x to the datum, y to 90 degrees."""
        return np.array(
            [
                (r * math.cos(math.radians(a)), r * math.sin(math.radians(a)))
                for a, r in zip(self.along_deg, self.radius_mm, strict=True)
            ]
        )
