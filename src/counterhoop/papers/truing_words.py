"""What comes off the ends of a shell, in words that a rule can check."""

from __future__ import annotations

import math

from counterhoop.development.truing import Removal
from counterhoop.papers.facts import Lengths
from counterhoop.quantities.angle import print_deg
from counterhoop.quantities.print_length import CALIPER_MM
from counterhoop.scheme.plan import Scheme

LEAST_SWING_MM = 0.05


def says_truing(scheme: Scheme, *, say: Lengths) -> list[str]:
    """Say what comes off each end, and how deep the shell is before and after."""
    layout = scheme.layout
    if not layout.truing.any:
        return ["No more than what makes it flat: heights stay as they are printed."]
    lines = []
    for end, removal in (("batter", layout.truing.batter), ("resonant", layout.truing.resonant)):
        if removal != Removal():
            lines.append(f"Off the {end} end: {_said(removal, say=say)}.")
    before, after = layout.drum.depth_mm, layout.flat.depth_mm
    lines.append(f"Depth {say.length(before)} before, {say.length(after)} after.")
    if layout.flat.after_truing:
        lines.append("All heights on these papers are after this step, from the new edges.")
    return lines


def _said(removal: Removal, *, say: Lengths) -> str:
    swing = math.hypot(removal.cos_mm, removal.sin_mm)
    mean = say.length(removal.mean_mm, resolution_mm=CALIPER_MM)
    if swing < LEAST_SWING_MM:
        return f"{mean} all round"
    most, least = removal.mean_mm + swing, removal.mean_mm - swing
    at = print_deg(math.degrees(math.atan2(removal.sin_mm, removal.cos_mm)) % 360.0)
    most_said = say.length(most, resolution_mm=CALIPER_MM)
    least_said = say.length(least, resolution_mm=CALIPER_MM)
    return (
        f"{most_said} at {at.removesuffix(' deg')} degrees along,"
        f" falling evenly to {least_said} opposite"
    )
