"""How flat the bearing edges are that a head goes on, and what truing leaves of it."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.development.flat import End
from counterhoop.development.truing import Removal
from counterhoop.errors import Finding, Grade
from counterhoop.quantities.print_length import print_mm
from counterhoop.scheme.findings.afterwards import Afterwards
from counterhoop.scheme.findings.read_once import ends_with_a_head, surveyed
from counterhoop.scheme.findings.tally import Tally
from counterhoop.survey.drum_survey import EndSurvey
from counterhoop.survey.flat import flat_finding


def check_flatness(after: Afterwards, tally: Tally) -> None:
    """Say which edge is not flat, or will still not be.

    An edge trued by its readings is flat. One that loses a plain length is cut to a plane too,
    and that plane reaches the low places only where it lies below them: what then stays low is
    said, with the station. An edge that is flat is passed over, unless that is too close to call.
    """
    layout = after.layout
    flatten = layout.finish.flatten
    for end in ends_with_a_head(layout):
        if not layout.drum.edge(end).there or layout.drum.readings.at(end).edge is None:
            continue
        if flatten is not None and end in flatten.ends:
            continue
        found = surveyed(layout.drum, end)
        finding = _finding(after, end, found)
        if finding is not None:
            tally.say(finding)


def _finding(after: Afterwards, end: End, found: EndSurvey) -> Finding | None:
    if found.flat is None or found.edge is None:
        return None
    limit = after.rules.flat_mm
    said = flat_finding(found.flat, edge_says=f"{end} edge", limit_mm=limit)
    truing = after.layout.truing
    off = truing.batter if end == "batter" else truing.resonant
    # A cut that takes less than a station is low does not reach the wood there.
    over = [
        height + off.at_mm(along)
        for along, height in zip(found.edge.along_deg, found.edge.height_mm, strict=True)
    ]
    if off == Removal() or max(over) <= 0.0:
        return said if said.code == "edge-not-flat" or said.too_close else None
    low = -min(over)
    if low <= limit or said.code != "edge-not-flat":
        return None
    at = over.index(min(over))
    left = print_mm(low, resolution_mm=found.flat.resolution_mm)
    return replace(
        said,
        grade=Grade.TAKE_CARE,
        says=(
            f"The {end} edge is cut down by {print_mm(off.mean_mm, resolution_mm=0.1)} and"
            f" {found.edge.names[at]} still lies {left} below the cut."
        ),
        along_deg=found.edge.along_deg[at],
        measured=low,
        remedy="True it by its readings, or take off that much more.",
        too_close=abs(low - limit) < found.flat.doubt_mm,
    )
