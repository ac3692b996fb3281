"""Where a finding is on the drawing: a ring round each hole that it names, or round its place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.errors import Finding
from counterhoop.papers.drawing.manner import Manner
from counterhoop.papers.drawing.shell_flat import half_extent
from counterhoop.papers.drawing.view import View

ROUND_HOLE_MM, ROUND_PLACE_MM = 2.5, 5.0
"""On paper: from the rim of a hole to its ring, and the radius of a ring round a bare place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """The place of one finding: one or more circles (x, y, radius) in drawn millimetres."""

    name: str
    holes: tuple[int, ...] = ()
    circles: tuple[tuple[float, float, float], ...] = ()


def rings_of(findings: Sequence[Finding], *, view: View, manner: Manner) -> tuple[Ring, ...]:
    """Return a ring for each finding that has a place, named "place-1" by its turn among all.

    Equal findings share the first one's ring.
    """
    plans = {plan.number: plan for plan in view.holes}
    found: list[Ring] = []
    for turn, finding in enumerate(findings, 1):
        if finding in findings[: turn - 1]:
            continue
        circles = []
        for number in finding.holes:
            if (plan := plans.get(number)) is None:
                continue
            place = plan.new_place or plan.place
            r = max(half_extent(plan)) + manner.mm(ROUND_HOLE_MM)
            circles.append((view.x_mm(place.along_deg), place.down_mm, r))
        if not circles and finding.along_deg is not None:
            down = view.flat.depth_mm / 2 if finding.down_mm is None else finding.down_mm
            x = view.x_mm(finding.along_deg % 360.0)
            circles.append((x, down, manner.mm(ROUND_PLACE_MM)))
        if circles:
            found.append(Ring(name=f"place-{turn}", holes=finding.holes, circles=tuple(circles)))
    return tuple(found)
