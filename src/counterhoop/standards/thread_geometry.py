"""What follows from a thread's major diameter, pitch and profile."""

from __future__ import annotations

import math
from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.standards.threads import Thread

Convention = Literal["trade", "iso"]
"""What counts as 100 per cent of thread. "trade": 3/4 of the sharp triangle on each side (the
percentages of American and most workshop tables); "iso": the basic overlap of ISO 68-1, 5/8 of
it. An M6 hole of 5.0 mm is 77 per cent of the first and 92 of the second, so print which. For
Whitworth and BA both mean the whole depth, 1.280654 and 1.2 pitches."""


def pitch_diameter_mm(thread: Thread) -> float:
    """Return the basic pitch diameter, d2 = D2 = d - 0.649519 P for 60 degree forms.

    The effective diameter of Whitworth and BA: d - 0.640327 P and d - 0.6 P.

    Source: ISO 724; ASME B1.1; BS 84; BS 93.

    Examples
    --------
    >>> from counterhoop.standards.threads import find_thread
    >>> round(pitch_diameter_mm(find_thread("M6")), 4)
    5.3505
    """
    return thread.major_mm - thread.form.pitch_diameter * thread.pitch_mm


def internal_minor_mm(thread: Thread) -> float:
    """Return the basic minor diameter of the nut, D1 = d - 1.082532 P for 60 degree forms.

    Whitworth d - 1.280654 P, BA d - 1.2 P.

    Source: ISO 724; ASME B1.1; BS 84; BS 93. No drill for tapping may be smaller.

    Examples
    --------
    >>> from counterhoop.standards.threads import find_thread
    >>> round(internal_minor_mm(find_thread("M6")), 4)
    4.9175
    """
    return thread.major_mm - thread.form.internal_minor * thread.pitch_mm


def external_minor_mm(thread: Thread) -> float:
    """Return the minor diameter of the screw with the root its standard draws.

    ISO: d3 = d - 1.226869 P, root radius H/6 (ISO 898-1). Unified: d - 1.190785/n, the UNR root
    (ASME B1.1); tables that print d - 1.226869/n for an inch thread mean the ISO root. Whitworth
    and BA: the minor diameter of the nut.

    Examples
    --------
    >>> from counterhoop.standards.threads import find_thread
    >>> round(external_minor_mm(find_thread("M6")), 4)
    4.7731
    """
    return thread.major_mm - thread.form.external_minor * thread.pitch_mm


def stress_area_mm2(thread: Thread) -> float:
    """Return the area of the bar that pulls as strong as the screw.

    ISO 898-1: (pi/4) ((d2 + d3)/2)^2 = (pi/4) (d - 0.9382 P)^2. ASME B1.1: 0.7854 (D - 0.9743/n)^2.
    Whitworth and BA: on the mean of effective and minor diameter (from memory).

    Examples
    --------
    >>> from counterhoop.standards.threads import find_thread
    >>> round(stress_area_mm2(find_thread("M6")), 3)
    20.123
    """
    across_mm = thread.major_mm - thread.form.stress * thread.pitch_mm
    return math.pi / 4 * across_mm**2


def tap_drill_mm(
    thread: Thread, *, percent: float = 75.0, convention: Convention = "trade"
) -> float:
    """Return the hole that leaves ``percent`` of thread: d - percent/100 c P.

    Parameters
    ----------
    thread : Thread
        What will be tapped.
    percent : float
        Above 0, at most 100.
    convention : "trade" or "iso"
        What counts as 100: c = 1.299038 or 1.082532 for 60 degree forms; 1.280654 for Whitworth
        and 1.2 for BA either way.

    Source: Machinery's Handbook, tap drill formula (from memory).

    Examples
    --------
    >>> from counterhoop.standards.threads import find_thread
    >>> round(tap_drill_mm(find_thread("12-24")), 3)
    4.455
    """
    if not 0 < percent <= 100:
        raise BadInput("a share of thread lies above 0 and at most at 100", given=percent)
    return thread.major_mm - percent / 100 * _full_mm(thread, convention=convention)


def thread_percent(thread: Thread, *, drill_mm: float, convention: Convention = "trade") -> float:
    """Return how much thread a hole leaves; the inverse of :func:`tap_drill_mm`.

    Below 0 the screw falls through; above 100 the tap has to cut the root.

    Examples
    --------
    >>> from counterhoop.standards.threads import find_thread
    >>> m6 = find_thread("M6")
    >>> round(thread_percent(m6, drill_mm=5.0), 1)
    77.0
    >>> round(thread_percent(m6, drill_mm=5.0, convention="iso"), 1)
    92.4
    """
    if not (math.isfinite(drill_mm) and drill_mm > 0):
        raise BadInput("a drill has a diameter above zero", given=drill_mm)
    return 100 * (thread.major_mm - drill_mm) / _full_mm(thread, convention=convention)


def _full_mm(thread: Thread, *, convention: Convention) -> float:
    if convention not in ("trade", "iso"):
        raise BadInput("not a way to count thread", given=convention, wanted='"trade" or "iso"')
    form = thread.form
    return (form.full_thread if convention == "trade" else form.internal_minor) * thread.pitch_mm
