"""What truing leaves of the rings."""

from __future__ import annotations

import math

from counterhoop.development.truing import Removal
from counterhoop.errors import Grade
from counterhoop.scheme.findings.afterwards import Afterwards
from counterhoop.scheme.findings.read_once import cut_away
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.findings.wording import figure

RING_DOUBT_MM = 0.5  # a ring's width is read with a rule


def check_rings(after: Afterwards, tally: Tally) -> None:
    """Hold the narrowest place of each ring that an edge is cut into against its rule."""
    truing = after.layout.truing
    left = {ring.end: ring for ring in after.flat.rings}
    for ring in after.layout.drum.rings:
        off = truing.batter if ring.end == "batter" else truing.resonant
        now = left.get(ring.end)
        # A ring that goes with an offcut is said and priced where the cut is; not what it leaves.
        if off == Removal() or (now is None and cut_away(after.layout, ring.end)):
            continue
        least, at = 0.0, None
        if now is not None:
            least = now.wide_mm - math.hypot(now.wide_cos_mm, now.wide_sin_mm)
            at = math.degrees(math.atan2(-now.wide_sin_mm, -now.wide_cos_mm)) % 360.0
        slants = now is not None and (now.wide_cos_mm, now.wide_sin_mm) != (0.0, 0.0)
        where = f" at {at:.0f} degrees" if slants and at is not None else ""
        tally.hold(
            "ring-narrow",
            max(least, 0.0),
            limit=after.rules.ring_left_mm,
            doubt=RING_DOUBT_MM,
            grade=Grade.TAKE_CARE,
            fact=(
                f"what comes off the {ring.end} edge leaves {figure(max(least, 0.0))} mm of its"
                f" ring{where}"
            ),
            again="the ring's width",
            rule="ring_left_mm",
            remedy="Take off less, or glue a new ring in before the edge is made.",
            where=f"{ring.end} ring",
        )
