"""Whether two threads are one, only look alike, or differ plainly."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from counterhoop.standards.threads import Thread

ALIKE_MAJOR_MM = 0.36
"""Major diameters nearer than this pass for each other: a worn thread measures this much under.
Common practice, no source."""
ALIKE_PITCH_MM = 0.03
"""Pitches nearer than this start in each other and bind after some turns. Common practice, no
source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadsCompared:
    """Two threads held against each other.

    Attributes
    ----------
    verdict : "same", "look-alike" or "different"
        Look-alikes can be started by hand into each other and spoil each other.
    major_apart_mm, pitch_apart_mm, angle_apart_deg : float
        The second less the first.
    says : str
        The verdict with its figures, in one sentence.
    """

    verdict: Literal["same", "look-alike", "different"]
    major_apart_mm: float
    pitch_apart_mm: float
    angle_apart_deg: float
    says: str


def unlike(first: Thread, second: Thread) -> ThreadsCompared:
    """Compare two threads by major diameter, pitch and flank angle.

    Examples
    --------
    >>> from counterhoop.standards.threads import find_thread
    >>> print(unlike(find_thread("12-24"), find_thread("7/32-24")).says)
    12-24 UNC and 7/32-24 look alike but are not the same: major 5.486 and 5.556 mm, \
pitch 1.058 mm both, flanks 60 deg both
    """
    major = second.major_mm - first.major_mm
    pitch = second.pitch_mm - first.pitch_mm
    angle = second.angle_deg - first.angle_deg
    verdict: Literal["same", "look-alike", "different"] = "different"
    if max(abs(major), abs(pitch), abs(angle)) < 1e-9:
        verdict = "same"
    elif abs(major) <= ALIKE_MAJOR_MM and abs(pitch) <= ALIKE_PITCH_MM:
        verdict = "look-alike"
    return ThreadsCompared(
        verdict=verdict,
        major_apart_mm=major,
        pitch_apart_mm=pitch,
        angle_apart_deg=angle,
        says=_sentence(first, second, verdict=verdict),
    )


def _sentence(first: Thread, second: Thread, *, verdict: str) -> str:
    names = f"{first.designation} and {second.designation}"
    figures = ", ".join(
        (
            f"major {_both(first.major_mm, second.major_mm, places=3)} mm"
            + (" both" if f"{first.major_mm:.3f}" == f"{second.major_mm:.3f}" else ""),
            f"pitch {_both(first.pitch_mm, second.pitch_mm, places=3)} mm"
            + (" both" if f"{first.pitch_mm:.3f}" == f"{second.pitch_mm:.3f}" else ""),
            f"flanks {_both(first.angle_deg, second.angle_deg, places=1)} deg"
            + (" both" if first.angle_deg == second.angle_deg else ""),
        )
    )
    said = {
        "same": f"{names} are one thread",
        "look-alike": f"{names} look alike but are not the same",
        "different": f"{names} are different",
    }[verdict]
    return f"{said}: {figures}"


def _both(one: float, other: float, *, places: int) -> str:
    shown = [f"{value:.{places}f}".rstrip("0").rstrip(".") for value in (one, other)]
    return shown[0] if shown[0] == shown[1] else f"{shown[0]} and {shown[1]}"
