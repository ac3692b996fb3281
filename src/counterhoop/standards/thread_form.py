"""Profiles of screw threads: how far each diameter lies below the major one, per pitch."""

from __future__ import annotations

import math
from dataclasses import dataclass

_H = math.sqrt(3) / 2
"""Height of the sharp 60 degree triangle per pitch. Source: ISO 68-1, ASME B1.1."""
_WHITWORTH_DEPTH = 2 / 3 / (2 * math.tan(math.radians(27.5)))
"""Depth of thread per pitch: two thirds of the sharp 55 degree triangle, 0.640327 (BS 84)."""
_BA_DEPTH = 0.6
"""Depth of thread per pitch; the sharp 47.5 degree triangle is 1.13634 high. Source: BS 93."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadForm:
    """One profile; all lengths are per pitch, taken off the major diameter.

    Attributes
    ----------
    name : str
        As it stands in the tables ("iso metric").
    angle_deg : float
        Between the flanks.
    pitch_diameter : float
        Where thread and groove are equally wide.
    internal_minor : float
        Basic minor diameter of the nut.
    external_minor : float
        Minor diameter of the screw, root rounded as the standard draws it.
    stress : float
        Diameter of the bar that pulls as strong as the screw.
    full_thread : float
        What workshops call 100 per cent when they choose a drill for tapping.
    source : str
        Where the figures come from.
    """

    name: str
    angle_deg: float
    pitch_diameter: float
    internal_minor: float
    external_minor: float
    stress: float
    full_thread: float
    source: str


FORMS: dict[str, ThreadForm] = {
    form.name: form
    for form in (
        ThreadForm(
            name="iso metric",
            angle_deg=60.0,
            pitch_diameter=3 / 4 * _H,
            internal_minor=5 / 4 * _H,
            external_minor=17 / 12 * _H,
            stress=(3 / 4 + 17 / 12) / 2 * _H,
            full_thread=3 / 2 * _H,
            source="ISO 68-1 profile, ISO 724 basic dimensions, ISO 898-1 stress area",
        ),
        ThreadForm(
            name="unified",
            angle_deg=60.0,
            pitch_diameter=3 / 4 * _H,
            internal_minor=5 / 4 * _H,
            external_minor=11 / 8 * _H,
            stress=9 / 8 * _H,
            full_thread=3 / 2 * _H,
            source="ASME B1.1, UNR root; stress area 0.7854 (D - 0.9743/n)^2",
        ),
        ThreadForm(
            name="whitworth",
            angle_deg=55.0,
            pitch_diameter=_WHITWORTH_DEPTH,
            internal_minor=2 * _WHITWORTH_DEPTH,
            external_minor=2 * _WHITWORTH_DEPTH,
            stress=3 / 2 * _WHITWORTH_DEPTH,
            full_thread=2 * _WHITWORTH_DEPTH,
            source="BS 84; stress area on the mean of effective and core diameter (from memory)",
        ),
        ThreadForm(
            name="ba",
            angle_deg=47.5,
            pitch_diameter=_BA_DEPTH,
            internal_minor=2 * _BA_DEPTH,
            external_minor=2 * _BA_DEPTH,
            stress=3 / 2 * _BA_DEPTH,
            full_thread=2 * _BA_DEPTH,
            source="BS 93; stress area on the mean of effective and minor diameter (from memory)",
        ),
    )
}
"""The profiles that are known. A further one is one more entry here and rows in the table."""
