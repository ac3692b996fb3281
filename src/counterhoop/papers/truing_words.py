"""What comes off the ends of a shell, in words that a rule can check."""

from __future__ import annotations

import math

from counterhoop.development.truing import Removal
from counterhoop.papers.drawing.view import LEAST_SWING_MM, between_said
from counterhoop.papers.facts import Lengths
from counterhoop.quantities.angle import print_deg
from counterhoop.quantities.print_length import CALIPER_MM
from counterhoop.scheme.plan import Scheme


def says_truing(scheme: Scheme, *, say: Lengths) -> list[str]:
    """Say what comes off each end, and how deep the shell is before and after."""
    layout = scheme.layout
    if not layout.truing.any:
        return ["No more than what makes it flat: heights stay as they are printed."]
    flatten = layout.finish.flatten
    by_readings = () if flatten is None else flatten.ends
    lines = []
    for end, removal in (("batter", layout.truing.batter), ("resonant", layout.truing.resonant)):
        if removal != Removal():
            lines.append(_off(end, removal, by_readings=end in by_readings, say=say))
    drum = layout.drum
    swing = math.hypot(drum.depth_cos_mm, drum.depth_sin_mm)
    read = drum.depth_read_mm if swing == 0.0 else drum.depth_mm
    before = between_said(read - swing, read + swing, say=say.length)
    after = between_said(*layout.flat.depths_mm(), say=say.length)
    lines.append(f"Depth {before} before, {after} after.")
    if layout.flat.after_truing:
        lines.append("All heights on these papers are after this step, from the new edges.")
    return lines


def _off(end: str, removal: Removal, *, by_readings: bool, say: Lengths) -> str:
    if not by_readings:
        return f"Off the {end} end: {_said(removal, say=say)}."
    # What comes off is read at stations; the plane tells only how heights move.
    return (
        f"Off the {end} end: what the truing sheet says at each station. Heights from that edge"
        f" lose {_said(removal, say=say)}."
    )


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
