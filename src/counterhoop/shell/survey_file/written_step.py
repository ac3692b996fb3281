"""How finely a length was written down."""

from __future__ import annotations

import re


def half_step_mm(as_written: str) -> float:
    """Return half of the last step that a length was written to; from 5.4 mm nobody knows 5.44.

    Examples
    --------
    >>> half_step_mm("5.4 mm"), half_step_mm("0.544 cm"), round(half_step_mm("7/32 in"), 3)
    (0.05, 0.005, 0.397)
    """
    unit = re.search(r"[0-9]\s*(mm|cm|thou)", as_written)
    unit_mm = {"mm": 1.0, "cm": 10.0, "thou": 0.0254}[unit[1]] if unit else 25.4
    if fraction := re.search(r"/\s*([0-9]+)", as_written):
        return unit_mm / int(fraction[1]) / 2.0
    decimals = re.search(r"[.,]([0-9]+)", as_written)
    return float(unit_mm / 10 ** (len(decimals[1]) if decimals else 0) / 2.0)
