"""Air in and round a drum: how heavy it is and how fast sound goes in it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.heads.believed import believed

GAS_J_PER_KG_K = 287.05
"""Dry air: 8.314463 J/(mol K) over 28.965 g/mol (from memory)."""
HEATS = 1.4
"""Ratio of the specific heats of dry air (from memory)."""
USUAL_PA = 101_325.0
"""Standard atmosphere, ISO 2533 (from memory)."""
ZERO_K = 273.15


@dataclass(frozen=True, slots=True, kw_only=True)
class Air:
    """Air of one temperature.

    Attributes
    ----------
    density_kg_per_m3, sound_m_per_s, celsius : float
        Density, speed of sound, temperature.
    """

    density_kg_per_m3: float
    sound_m_per_s: float
    celsius: float


def air_at(celsius: float = 20.0, *, pressure_pa: float = USUAL_PA) -> Air:
    """Return dry air as an ideal gas.

    Parameters
    ----------
    celsius : float
        Temperature of the room. Damp air is up to 1 % lighter, which is left out.
    pressure_pa : float
        Pressure of the air; it changes the density, not the speed of sound.

    Raises
    ------
    BadInput
        For air in which nobody plays: -60 to 60 degrees, 40 000 to 120 000 Pa.

    Notes
    -----
    ``rho = p / (R T)``, ``c = sqrt(1.4 R T)``: ideal gas, any textbook of acoustics.

    Examples
    --------
    >>> air = air_at(20.0)
    >>> round(air.density_kg_per_m3, 3), round(air.sound_m_per_s, 1)
    (1.204, 343.2)
    """
    believed(celsius, where="celsius", least=-60.0, most=60.0, unit="degrees")
    believed(pressure_pa, where="pressure_pa", least=40_000.0, most=120_000.0, unit="Pa")
    kelvin = celsius + ZERO_K
    return Air(
        density_kg_per_m3=pressure_pa / (GAS_J_PER_KG_K * kelvin),
        sound_m_per_s=math.sqrt(HEATS * GAS_J_PER_KG_K * kelvin),
        celsius=celsius,
    )
