"""How much thread must engage for the screw to break before the thread strips."""

from __future__ import annotations

import math

from counterhoop.errors import BadInput
from counterhoop.standards.thread_geometry import (
    internal_minor_mm,
    pitch_diameter_mm,
    stress_area_mm2,
)
from counterhoop.standards.threads import Thread


def least_engagement_mm(
    thread: Thread,
    *,
    internal_minor_most_mm: float | None = None,
    pitch_diameter_least_mm: float | None = None,
) -> float:
    """Return the shortest engagement at which the screw breaks before its thread strips.

    ``Le = 2 At / (pi Kn (1/2 + n tan(a/2) (Es - Kn)))`` with Kn the largest minor diameter of the
    nut, Es the smallest pitch diameter of the screw and n the threads per unit of length.

    Parameters
    ----------
    thread : Thread
        Screw and nut of materials equally strong. For a screw stronger than its nut (a steel rod
        in a die-cast lug) more is needed, which this formula does not give.
    internal_minor_most_mm, pitch_diameter_least_mm : float, optional
        Limits of the class of fit; the basic sizes when left out, which gives the least that
        any fit can need.

    Source: FED-STD-H28/2B, as printed in Machinery's Handbook and at engineersedge.com. Not valid
    for nuts thin enough to spread.

    Examples
    --------
    >>> from counterhoop.standards.threads import find_thread
    >>> round(least_engagement_mm(find_thread("M5")), 3)
    2.912
    """
    minor_mm = (
        internal_minor_mm(thread) if internal_minor_most_mm is None else internal_minor_most_mm
    )
    pitch_dia_mm = (
        pitch_diameter_mm(thread) if pitch_diameter_least_mm is None else pitch_diameter_least_mm
    )
    if not 0 < minor_mm < pitch_dia_mm <= thread.major_mm:
        raise BadInput(
            f"limits that {thread.designation} cannot have",
            given=f"minor {minor_mm:g}, pitch diameter {pitch_dia_mm:g}",
            wanted="minor below pitch diameter below major, in mm",
        )
    slope = math.tan(math.radians(thread.angle_deg) / 2)
    held = 0.5 + slope / thread.pitch_mm * (pitch_dia_mm - minor_mm)
    return 2 * stress_area_mm2(thread) / (math.pi * minor_mm * held)
