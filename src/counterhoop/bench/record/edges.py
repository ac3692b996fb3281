"""What is said of each edge: how it was found, and what was taken off."""

from __future__ import annotations

import math

from counterhoop.bench.plan_job import DrumPlan
from counterhoop.development.flat import End
from counterhoop.development.truing import Removal
from counterhoop.papers.facts import Fact, Lengths
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.scheme.layout import Layout
from counterhoop.survey.flat import Flatness

ENDS: tuple[End, ...] = ("batter", "resonant")


def edges_said(plan: DrumPlan, left: Layout | None, *, say: Lengths) -> tuple[Fact, ...]:
    """Return a line for each edge of which anything is known."""
    found = []
    for end in ENDS:
        said = [_found(plan, end), _done(left, end, say=say)]
        words = " ".join(one for one in said if one)
        if words:
            found.append((f"{end} edge", words))
    return tuple(found)


def _found(plan: DrumPlan, end: End) -> str:
    edge, read = plan.wanted.drum.edge(end), plan.surveyed.survey.at(end)
    if not edge.there:
        return "As found it had no edge: none was ever cut here."
    if read.flat is None or read.edge is None:
        return ""
    heights, step = read.edge.height_mm, read.flat.resolution_mm
    apart = print_mm(max(heights) - min(heights), resolution_mm=step)
    off = _off(read.flat)
    if apart == off:
        return f"As found within {off} of flat."
    # An edge is trued for its lean too: without it nobody would see why.
    return f"As found its heights were {apart} apart, its lean with them; within {off} of flat."


def _off(flat: Flatness) -> str:
    return print_mm(flat.minimum_zone.total_mm, resolution_mm=flat.resolution_mm)


def _done(left: Layout | None, end: End, *, say: Lengths) -> str:
    if left is None:
        return ""
    removal = left.truing.batter if end == "batter" else left.truing.resonant
    if not left.drum.edge(end).there:
        return "An edge was cut."
    if removal == Removal():
        return "Not recut."
    swing = math.hypot(removal.cos_mm, removal.sin_mm)
    most = say.length(removal.mean_mm + swing, resolution_mm=CALIPER_MM)
    if swing < CALIPER_MM:
        return f"Trued: {most} taken off all round."
    least = say.length(max(0.0, removal.mean_mm - swing), resolution_mm=CALIPER_MM)
    return f"Trued: between {least} and {most} taken off, to bring it flat."
