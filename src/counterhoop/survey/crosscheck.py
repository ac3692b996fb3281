"""All readings of one drum held against each other."""

from __future__ import annotations

import math
from collections.abc import Iterator

from counterhoop.errors import Finding
from counterhoop.shell.drum import Drum
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.survey.depth_crosscheck import Depths, depths_held, heights_against_depths
from counterhoop.survey.dial_crosscheck import (
    DIAL_STEP_MM,
    dial_turns_missed,
    reading_astray,
    station_missed,
)
from counterhoop.survey.drum_survey import DrumSurvey, EndSurvey
from counterhoop.survey.round_across import Diameters
from counterhoop.survey.round_crosscheck import (
    girth_against_diameters,
    radii_against_girth,
    witness_of,
)
from counterhoop.survey.station_count import odd_count

EDGE_STEP_MM = 1.0
RADIUS_STEP_MM = 5.0
"""One station that stands so far off those beside it is damage or a slip (common practice, no
source)."""


def readings_held(drum: Drum, survey: DrumSurvey, *, rules: ShopRules) -> tuple[Finding, ...]:
    """Return what the readings of a drum say against each other, each naming the suspect.

    Parameters
    ----------
    drum : Drum
        As found.
    survey : DrumSurvey
        What its readings come to.
    rules : ShopRules
        How far circumferences may differ, and an oval go, before a reading is suspected.
    """
    found = [
        finding
        for end in (survey.batter, survey.resonant)
        for finding in _end(drum, end, rules=rules)
    ]
    found += _depths(drum, survey)
    return tuple(found)


def _end(drum: Drum, end: EndSurvey, *, rules: ShopRules) -> Iterator[Finding]:
    says = f"{end.end} end"
    girth = drum.circumference
    # Where this end has no reading of its own it may differ from the mean by the shell's taper.
    taper = 0.0 if end.end in dict(girth.readings_mm) else rules.girth_spread_mm
    doubt = girth.doubt_mm + taper
    witness = None
    if end.roundness is not None and end.radii is not None:
        witness = witness_of(
            end.roundness.least_squares.radius_mm, resolution_mm=end.radii.resolution_mm
        )
    disagree = None
    if end.diameters is not None:
        overlap = drum.finish.thickness_mm if drum.readings.at(end.end).overlap_read else 0.0
        disagree = girth_against_diameters(
            end.girth_mm,
            end.diameters,
            girth_doubt_mm=doubt + math.pi * overlap / len(end.diameters.diameter_mm),
            oval_mm=rules.round_ask_mm,
            end_says=says,
            witness=witness,
        )
        if disagree is not None:
            yield disagree
    if end.radii is not None and witness is not None:
        slips = tuple(_radii(end, says=says, diameters=None if disagree else end.diameters))
        yield from slips
        if disagree is None and not slips:
            off = radii_against_girth(
                witness,
                girth_mm=end.girth_mm,
                girth_doubt_mm=doubt,
                end_says=says,
                diameters_read=end.diameters is not None,
                by_dial=end.radii.resolution_mm < DIAL_STEP_MM,
            )
            if off is not None:
                yield off
    lugs = tuple(len(row.lugs) for row in drum.rows)
    for read, of in ((end.radii, "radii"), (end.edge, f"gaps or heights of the {end.end} edge")):
        if read is not None:
            odd = odd_count(len(read.along_deg), lugs=lugs, of=of, where=says)
            if odd is not None:
                yield odd
    if end.edge is not None:
        astray = reading_astray(
            end.edge.along_deg,
            end.edge.height_mm,
            names=end.edge.names,
            of=f"edge heights of the {says}",
            least_mm=EDGE_STEP_MM,
            step_mm=end.edge.resolution_mm,
        )
        if astray is not None:
            yield astray


def _radii(end: EndSurvey, *, says: str, diameters: Diameters | None) -> Iterator[Finding]:
    """Go through the radii; ``diameters`` only where the girth agrees with them."""
    radii = end.radii
    if radii is None:
        return
    missed = None if diameters is None else station_missed(radii, diameters, end_says=says)
    if missed is not None:
        yield missed
        return
    turns = dial_turns_missed(radii, end_says=says)
    yield from turns
    if not turns:
        astray = reading_astray(
            radii.along_deg,
            radii.radius_mm,
            names=radii.names,
            of=f"radii of the {says}",
            least_mm=RADIUS_STEP_MM,
            step_mm=radii.resolution_mm,
        )
        if astray is not None:
            yield astray


def _depths(drum: Drum, survey: DrumSurvey) -> Iterator[Finding]:
    edges = [end.edge for end in (survey.batter, survey.resonant) if end.edge is not None]
    if drum.depth_along_deg:
        held = depths_held(
            Depths(
                along_deg=drum.depth_along_deg,
                depth_mm=tuple(mm for _, mm in drum.depth_readings_mm),
                names=tuple(place for place, _ in drum.depth_readings_mm),
                doubt_mm=drum.depth_doubt_mm,
            ),
            edges,
        )
        if held is not None:
            yield held
            return
    lean = heights_against_depths(
        edges, depth_cos_mm=drum.depth_cos_mm, depth_sin_mm=drum.depth_sin_mm
    )
    if lean is not None:
        yield lean
