"""All that the readings of one drum say, worked out once."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from counterhoop.development.flat import End
from counterhoop.development.rim import RimPlane
from counterhoop.development.surface import Skin
from counterhoop.errors import BadInput
from counterhoop.shell.drum import Drum
from counterhoop.shell.readings import EndReadings, RimReadings, ThreadRead
from counterhoop.shell.wish import Flatten
from counterhoop.survey.circle_readings import RadialReadings
from counterhoop.survey.flat import Flatness, flatness
from counterhoop.survey.flat_heights import EdgeHeights
from counterhoop.survey.harmonics import Harmonic, harmonics
from counterhoop.survey.round import Roundness, roundness
from counterhoop.survey.round_across import (
    Across,
    Diameters,
    across_from_caliper,
    across_from_radii,
)
from counterhoop.survey.thread_candidates import ThreadOdds, identify_thread
from counterhoop.survey.thread_reading import PitchReading, ThreadReading
from counterhoop.survey.truing_plan import TruingPlan, plan_truing
from counterhoop.survey.uncertainty import from_resolution

ENDS: tuple[End, ...] = ("batter", "resonant")
PLACES_OF_A_PLANE = 3
"""Depths at fewer places do not say how two edges lie to each other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EndSurvey:
    """What the readings of one end say; None for what was not read.

    Attributes
    ----------
    girth_mm : float
        Round this end, on the surface that it was read on.
    roundness : Roundness or None
        The four reference circles, from radial readings.
    waves : tuple of Harmonic
        Of the radial readings, about their own middle.
    across : Across or None
        Largest and smallest diameter, from the caliper where there is one, else from radii.
    edge, flat : EdgeHeights, Flatness or None
        The edge as read and what it comes to.
    """

    end: End
    girth_mm: float
    radii: RadialReadings | None = None
    roundness: Roundness | None = None
    waves: tuple[Harmonic, ...] = ()
    diameters: Diameters | None = None
    across: Across | None = None
    edge: EdgeHeights | None = None
    flat: Flatness | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadFound:
    """One thread as read, and which it may be."""

    read: ThreadRead
    odds: ThreadOdds


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumSurvey:
    """Both ends and every thread of one drum."""

    batter: EndSurvey
    resonant: EndSurvey
    threads: tuple[ThreadFound, ...] = ()

    def at(self, end: End) -> EndSurvey:
        """Return what the readings of one end say."""
        return self.batter if end == "batter" else self.resonant


def survey_drum(drum: Drum) -> DrumSurvey:
    """Work out roundness and flatness of both ends, and the threads.

    Raises
    ------
    BadInput
        Readings that are none: too few stations, one of them twice.
    """
    return DrumSurvey(
        batter=survey_end(drum, "batter"),
        resonant=survey_end(drum, "resonant"),
        threads=threads_of(drum),
    )


def threads_of(drum: Drum) -> tuple[ThreadFound, ...]:
    """Return which thread each screw that was read may have."""
    return tuple(thread_found(read) for read in drum.readings.threads)


def thread_found(read: ThreadRead) -> ThreadFound:
    """Return which thread a screw that was read may have."""
    return ThreadFound(read=read, odds=identify_thread(_thread(read)))


def survey_end(drum: Drum, end: End) -> EndSurvey:
    """Work out what the readings of one end say."""
    return end_survey(drum.readings.at(end), girth_mm=girth_at_mm(drum, end))


def end_survey(read: EndReadings, *, girth_mm: float) -> EndSurvey:
    """Work out what the readings of one end say, with the girth read there."""
    radii = None if read.radii is None else _radii(read.radii)
    diameters = None if read.across is None else _diameters(read.across)
    edge = None if read.edge is None else edge_heights(read.edge)
    across = None
    if diameters is not None:
        across = across_from_caliper(diameters)
    elif radii is not None:
        across = across_from_radii(radii)
    return EndSurvey(
        end=read.end,
        girth_mm=girth_mm,
        radii=radii,
        roundness=None if radii is None else roundness(radii),
        waves=()
        if radii is None
        else harmonics(
            radii.along_deg,
            radii.radius_mm,
            reading_doubt_mm=from_resolution(radii.resolution_mm),
        ),
        diameters=diameters,
        across=across,
        edge=edge,
        flat=None if edge is None else flatness(edge),
    )


def girth_at_mm(drum: Drum, end: End) -> float:
    """Return the girth read at one end, or the mean where that end has no reading of its own."""
    return dict(drum.circumference.readings_mm).get(end, drum.circumference.mean_mm)


def bare_across_mm(drum: Drum, end: End) -> float:
    """Return the diameter of the bare wood at one end, from the girth read there."""
    over = 0.0 if drum.circumference.skin is Skin.BARE else 2.0 * drum.finish.thickness_mm
    return girth_at_mm(drum, end) / math.pi - over


def truing_of(drum: Drum, flatten: Flatten) -> TruingPlan:
    """Return the planes to sand the named edges to.

    Raises
    ------
    BadInput
        When a named edge has no readings, or edges are to end parallel and too few depths tell
        how they lie to each other.
    """
    read: dict[End, EdgeHeights] = {}
    for end in ENDS:
        found = drum.readings.at(end).edge
        if found is not None:
            read[end] = edge_heights(found)
    for end in flatten.ends:
        if end not in read:
            raise BadInput(
                f"the {end} edge was not read",
                where=f"{drum.key}, truing",
                wanted="its gaps on the flat plate, or its heights by gauge, round the rim",
                step="Read them, or give a length to take off.",
            )
    places = {round(deg, 2) % 360.0 for deg in drum.depth_along_deg}
    known = len(places) >= PLACES_OF_A_PLANE or drum.depth_cos_mm != 0.0 or drum.depth_sin_mm != 0.0
    stays = next((read[end] for end in ENDS if end in read and end not in flatten.ends), None)
    try:
        return plan_truing(
            **{end: read[end] for end in flatten.ends},
            least=flatten.least,
            parallel=flatten.parallel,
            depth=RimPlane(
                mean_mm=drum.depth_mm, cos_mm=drum.depth_cos_mm, sin_mm=drum.depth_sin_mm
            )
            if known or not flatten.parallel
            else None,
            stays=stays,
            everywhere_mm=flatten.fresh_mm,
        )
    except BadInput as fault:
        raise fault.at(drum.key) from fault


def edge_heights(read: RimReadings) -> EdgeHeights:
    """Return an edge as read."""
    return EdgeHeights(height_mm=read.value_mm, **_kept(read))


def _radii(read: RimReadings) -> RadialReadings:
    return RadialReadings(radius_mm=read.value_mm, **_kept(read))


def _diameters(read: RimReadings) -> Diameters:
    return Diameters(diameter_mm=read.value_mm, **_kept(read))


def _kept(read: RimReadings) -> dict[str, Any]:
    """What a reading keeps, whatever it is of."""
    return {
        "along_deg": read.along_deg,
        "instrument": read.instrument,
        "resolution_mm": read.resolution_mm,
        "as_written": read.as_written,
    }


def _thread(read: ThreadRead) -> ThreadReading:
    pitch = None
    if read.over_mm is not None:
        pitch = PitchReading(
            length_mm=read.over_mm,
            doubt_mm=read.over_doubt_mm,
            threads=read.threads,
            by_gauge=read.by_gauge,
        )
    return ThreadReading(
        outside_mm=read.outside_mm,
        outside_doubt_mm=read.outside_doubt_mm,
        pitch=pitch,
        angle_deg=read.flanks_deg,
    )
