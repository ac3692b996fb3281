"""How wet wood becomes in air of a given temperature and humidity."""

from __future__ import annotations

from typing import Literal

from counterhoop.errors import BadInput

MOST_HUMIDITY_PERCENT = 95.0
MOST_WARM_C = 71.0
Unit = Literal["C", "F"]
_TERMS: dict[Unit, tuple[tuple[float, float, float], ...]] = {
    "C": (
        (349.0, 1.29, 0.0135),
        (0.805, 0.000736, -0.00000273),
        (6.27, -0.00938, -0.000303),
        (1.91, 0.0407, -0.000293),
    ),
    "F": (
        (330.0, 0.452, 0.00415),
        (0.791, 0.000463, -0.000000844),
        (6.34, 0.000775, -0.0000935),
        (1.09, 0.0284, -0.0000904),
    ),
}
"""W, K, K1 and K2 as polynomials of the temperature."""


def moisture_percent(*, humidity_percent: float, temperature: float, unit: Unit = "C") -> float:
    """Return the moisture content that wood settles at, per cent of its dry mass.

    Parameters
    ----------
    humidity_percent : float
        Relative humidity, 0 to 95.
    temperature : float
        Of the air, 0 to 71 degrees Celsius (32 to 160 Fahrenheit).
    unit : "C" or "F"
        Each has coefficients of its own; the two agree within 0.02 per cent of moisture in rooms.

    Raises
    ------
    BadInput
        Outside those ranges.

    Source: Wood Handbook, FPL-GTR-190, eq. 4-5 (Hailwood and Horrobin); Simpson 1998,
    FPL-RN-0268. Within half a per cent of moisture from 35 to 180 F and 20 to 80 per cent
    humidity; a thick shell takes weeks to follow.

    Examples
    --------
    >>> round(moisture_percent(humidity_percent=50, temperature=21.1), 2)
    9.24
    >>> round(moisture_percent(humidity_percent=60, temperature=76, unit="F"), 1)
    10.9
    """
    if not 0 <= humidity_percent <= MOST_HUMIDITY_PERCENT:
        raise BadInput(
            "humidity out of range",
            where="humidity",
            given=humidity_percent,
            wanted="0 to 95 per cent, such as 50 (a percentage, not a share)",
        )
    if unit not in _TERMS:
        raise BadInput("no such unit of temperature", given=unit, wanted='"C" or "F"')
    least, most = (0.0, MOST_WARM_C) if unit == "C" else (32.0, 160.0)
    if not least <= temperature <= most:
        raise BadInput(
            "temperature out of range",
            where="temperature",
            given=temperature,
            wanted=f"{least:g} to {most:g} degrees {unit}",
        )
    w, k, k1, k2 = (a + b * temperature + c * temperature**2 for a, b, c in _TERMS[unit])
    kh = k * humidity_percent / 100
    once, twice = k1 * kh, k1 * k2 * kh * kh
    return 1800 / w * (kh / (1 - kh) + (once + 2 * twice) / (1 + once + twice))
