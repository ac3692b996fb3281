"""What other weather would do to a size that is close."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.survey.wood_moisture import MOST_HUMIDITY_PERCENT, moisture_percent
from counterhoop.survey.wood_movement import Direction, movement_mm, shrinkage_percent

LEAST_HUMIDITY_PERCENT = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherChange:
    """How much a size changes in drier and in wetter air than on the day it was measured.

    Attributes
    ----------
    drier_mm, wetter_mm : float
        Change of the size, minus for shrinking.
    now_percent, drier_percent, wetter_percent : float
        Moisture of the wood once it has settled.
    drier_by, wetter_by : float
        How much drier and wetter the air was taken, in per cent of humidity.
    """

    drier_mm: float
    wetter_mm: float
    now_percent: float
    drier_percent: float
    wetter_percent: float
    drier_by: float
    wetter_by: float


def weather_change(
    size_mm: float,
    *,
    species: str,
    direction: Direction,
    humidity_percent: float,
    temperature_c: float,
    swing_percent: float = 20.0,
) -> WeatherChange:
    """Return what ``swing_percent`` more or less humidity would do to a size.

    The diameter of a ply shell is ``Direction.CROSS_PLY``, of a steam-bent shell
    ``Direction.ALONG``; its depth is tangential or radial. Air is kept within 5 to 95 per cent.

    Source: see :func:`moisture_percent` and :func:`movement_mm`; the wood is taken as settled.

    Examples
    --------
    >>> day = weather_change(
    ...     354.0,
    ...     species="hard maple",
    ...     direction=Direction.CROSS_PLY,
    ...     humidity_percent=50,
    ...     temperature_c=20,
    ... )
    >>> round(day.drier_mm, 2), round(day.wetter_mm, 2)
    (-0.23, 0.28)
    """
    airs = (
        humidity_percent,
        max(humidity_percent - swing_percent, min(humidity_percent, LEAST_HUMIDITY_PERCENT)),
        min(humidity_percent + swing_percent, max(humidity_percent, MOST_HUMIDITY_PERCENT)),
    )
    now, drier, wetter = (
        moisture_percent(humidity_percent=air, temperature=temperature_c) for air in airs
    )
    green_to_dry = shrinkage_percent(species, direction)
    drier_mm, wetter_mm = (
        movement_mm(size_mm, green_to_dry_percent=green_to_dry, from_percent=now, to_percent=then)
        for then in (drier, wetter)
    )
    return WeatherChange(
        drier_mm=drier_mm,
        wetter_mm=wetter_mm,
        now_percent=now,
        drier_percent=drier,
        wetter_percent=wetter,
        drier_by=humidity_percent - airs[1],
        wetter_by=airs[2] - humidity_percent,
    )
