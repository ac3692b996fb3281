"""Depths read round the rim become one depth, or a slanting one where they show it clearly."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from counterhoop.development.rim import between_stations_mm, rim_plane, swing_doubt_mm
from counterhoop.quantities.length import Length
from counterhoop.quantities.place_along import parse_place_along
from counterhoop.shell.readings import Readings, RimReadings
from counterhoop.shell.survey_file.models_job import DrumWritten
from counterhoop.shell.survey_file.resolve_along import PlaceFinder
from counterhoop.shell.survey_file.resolve_height import Depth
from counterhoop.shell.survey_file.resolve_hole import DOUBT_MM
from counterhoop.shell.survey_file.resolve_shell import possible, readings_of
from counterhoop.shell.survey_file.written_step import half_step_mm

DEPTH_MM = (30.0, 1200.0)
CLEAR = 3.0
"""Standard uncertainties of a swing that it must stand clear of. A swing is the length of two
figures with the same doubt: where there is none, one of two standard uncertainties comes up by
chance once in seven (exp(-2)), one of three once in ninety (exp(-4.5)), Rayleigh's law."""


def depth_readings(written: DrumWritten, *, where: str) -> list[tuple[str, str, Length]]:
    """Return place, path and length of each reading of the depth.

    Raises
    ------
    BadInput
        For a depth that no drum has, or a place that cannot be read.
    """
    readings = list(readings_of(written.depth, where=f"{where}.depth"))
    for place, path, one in readings:
        possible(one.mm, DEPTH_MM, one, path, "depth")
        if isinstance(written.depth, dict):
            parse_place_along(place, where=path)
    return readings


def resolve_depth(
    written: DrumWritten, *, readings: Readings, finder: PlaceFinder, where: str
) -> Depth:
    """Return the depth between the planes that heights are measured from.

    A rule goes from edge to edge, so what the edges stand out beyond those planes at its place is
    taken off. From three different places on a plane is laid through the depths by least squares;
    its swing is taken when it is more than ``CLEAR`` of its own standard uncertainties, with
    ``u = a / sqrt(3)`` for one reading of half-width ``a`` (0.5 mm by rule, half of the last step
    written if that is more), or what the plane leaves over if that is more. Otherwise the depth
    is the plain mean.

    Raises
    ------
    BadInput
        When a depth's place is on something that is not on this drum.
    """
    found = depth_readings(written, where=where)
    edges = [read for end in (readings.batter, readings.resonant) if (read := end.edge)]
    as_read = tuple((place or "one reading", one.mm) for place, _, one in found)
    if not isinstance(written.depth, dict):
        stand_mm = math.fsum(_mean(edge.value_mm) for edge in edges)
        return Depth(mean_mm=_mean(mm for _, mm in as_read) - stand_mm, readings_mm=as_read)
    along = [finder.find(parse_place_along(place), where=path) for place, path, _ in found]
    depths = [
        one.mm - math.fsum(_at(edge, deg) for edge in edges)
        for deg, (_, _, one) in zip(along, found, strict=True)
    ]
    plain = Depth(mean_mm=_mean(depths), readings_mm=as_read, along_deg=tuple(along))
    if plain.by_place:
        plane = rim_plane(along, depths)
        written_mm = max(half_step_mm(one.as_written) for _, _, one in found)
        reading_mm = max(DOUBT_MM[written.read_with], written_mm) / math.sqrt(3.0)
        doubt_mm = swing_doubt_mm(plane, along, reading_mm=reading_mm)
        if math.hypot(plane.cos_mm, plane.sin_mm) > CLEAR * doubt_mm:
            return replace(plain, mean_mm=plane.mean_mm, cos_mm=plane.cos_mm, sin_mm=plane.sin_mm)
    return plain


def _at(edge: RimReadings, along_deg: float) -> float:
    return between_stations_mm(edge.along_deg, edge.value_mm, at_deg=along_deg)


def _mean(values: Iterable[float]) -> float:
    held = tuple(values)
    return math.fsum(held) / len(held)
