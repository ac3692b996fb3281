"""Largest and smallest diameter of one end, and where."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.survey.circle_least_squares import least_squares_circle
from counterhoop.survey.circle_readings import RadialReadings
from counterhoop.survey.harmonics import curve_mm, harmonics
from counterhoop.survey.round_stations import LEAST_APART_DEG
from counterhoop.survey.uncertainty import from_resolution


@dataclass(frozen=True, slots=True, kw_only=True)
class Diameters:
    """Diameters across one end, each read once.

    Attributes
    ----------
    along_deg : tuple of float
        One end of each diameter; the other lies opposite.
    diameter_mm : tuple of float
        What the caliper said, in mm.
    instrument, resolution_mm, as_written
        What it was read with, its smallest step, what was written down.
    """

    along_deg: tuple[float, ...]
    diameter_mm: tuple[float, ...]
    instrument: str = "caliper"
    resolution_mm: float = 0.1
    as_written: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        count = len(self.diameter_mm)
        if count < 2 or count != len(self.along_deg):
            raise BadInput(
                "not one reading for each direction, at least two",
                where="diameters",
                given=f"{count} diameters in {len(self.along_deg)} directions",
                wanted="2 or more, better 6",
            )
        for angle, value in zip(self.along_deg, self.diameter_mm, strict=True):
            if not (math.isfinite(angle) and math.isfinite(value) and value > 0.0):
                raise BadInput(
                    "not a diameter", where="diameters", given=value, wanted="more than 0 mm"
                )
        half = sorted(a % 180.0 for a in self.along_deg)
        ends = [*half[1:], half[0] + 180.0]
        if min(b - a for a, b in zip(half, ends, strict=True)) < LEAST_APART_DEG:
            raise BadInput(
                "one diameter is read twice",
                where="diameters",
                given=self.along_deg,
                wanted="different directions within half a turn",
                step="keep one of the two readings, or their mean",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Across:
    """Largest and smallest diameter of one end.

    Attributes
    ----------
    largest_mm, smallest_mm, mean_mm : float
        Diameters.
    largest_deg, smallest_deg : float
        Their nearer end from the datum, in [0, 180).
    doubt_mm : float
        Half-width of the doubt of largest minus smallest: twice its standard uncertainty.
    resolution_mm : float
        Nothing finer is printed.
    readings : int
        How many diameters it rests on.
    sees_odd_lobes : bool
        Whether the instrument saw odd lobes (radii do, diameters do not).
    """

    largest_mm: float
    largest_deg: float
    smallest_mm: float
    smallest_deg: float
    mean_mm: float
    doubt_mm: float
    resolution_mm: float
    readings: int
    sees_odd_lobes: bool

    @property
    def difference_mm(self) -> float:
        """Largest minus smallest."""
        return self.largest_mm - self.smallest_mm


def across_from_caliper(read: Diameters) -> Across:
    """Return the largest and smallest of diameters read with a caliper.

    Examples
    --------
    >>> found = across_from_caliper(Diameters(along_deg=(0, 90), diameter_mm=(355.0, 357.5)))
    >>> found.difference_mm, found.largest_deg
    (2.5, 90.0)
    """
    return _across(
        [a % 180.0 for a in read.along_deg],
        list(read.diameter_mm),
        one_doubt_mm=from_resolution(read.resolution_mm),
        resolution_mm=read.resolution_mm,
        sees_odd_lobes=False,
    )


def across_from_radii(readings: RadialReadings) -> Across:
    """Return the largest and smallest diameter from radial readings, wherever the bar stood.

    Opposite stations make a diameter; where a station has none opposite, the even waves of the
    readings give it. Right to the first order of what is out of round (0.02 mm for 3 mm on a
    shell of 350 mm).
    """
    circle = least_squares_circle(readings)
    points = readings.points() - (circle.x_mm, circle.y_mm)
    along = [math.degrees(math.atan2(y, x)) % 360.0 for x, y in points]
    pairs: dict[float, float] = {}
    for i, first in enumerate(readings.along_deg):
        for j, second in enumerate(readings.along_deg[:i]):
            if abs((first - second) % 360.0 - 180.0) < LEAST_APART_DEG:
                pairs[min(first % 360.0, second % 360.0)] = (
                    2.0 * circle.radius_mm + circle.deviations_mm[i] + circle.deviations_mm[j]
                )
    if 2 * len(pairs) < len(along):
        even = [wave for wave in harmonics(along, circle.deviations_mm) if wave.order % 2 == 0]
        pairs = {
            float(a): 2.0 * circle.radius_mm + 2.0 * curve_mm(even, float(a)) for a in range(180)
        }
    return _across(
        [a % 180.0 for a in pairs],
        list(pairs.values()),
        one_doubt_mm=math.sqrt(2.0) * from_resolution(readings.resolution_mm),
        resolution_mm=readings.resolution_mm,
        sees_odd_lobes=True,
    )


def _across(
    along: list[float],
    sizes: list[float],
    *,
    one_doubt_mm: float,
    resolution_mm: float,
    sees_odd_lobes: bool,
) -> Across:
    most, least = sizes.index(max(sizes)), sizes.index(min(sizes))
    return Across(
        largest_mm=sizes[most],
        largest_deg=float(along[most]),
        smallest_mm=sizes[least],
        smallest_deg=float(along[least]),
        mean_mm=sum(sizes) / len(sizes),
        doubt_mm=2.0 * math.sqrt(2.0) * one_doubt_mm,
        resolution_mm=resolution_mm,
        readings=len(sizes),
        sees_odd_lobes=sees_odd_lobes,
    )
