"""Readings at equal steps round one end become stations with what was read there."""

from __future__ import annotations

import math

from counterhoop.errors import BadInput
from counterhoop.quantities.length import Length
from counterhoop.quantities.place_along import PlaceAlong
from counterhoop.quantities.readings_row import ReadingsRow
from counterhoop.shell.readings import RimReadings
from counterhoop.shell.survey_file.models_readings import EdgeWritten, RoundWritten
from counterhoop.shell.survey_file.resolve_along import PlaceFinder
from counterhoop.shell.survey_file.resolve_shell import DIAMETER_MM, possible

LEAST_STATIONS = 4
LEAST_ACROSS = 2
FINEST_MM = {"caliper": 0.1, "dial gauge": 0.01, "bar or card": 0.5}
EDGE_FINEST_MM = 0.05
# Beyond these lies a slip of unit.
DIAL_MM = 30.0
GAP_MM = 10.0
STANDS_MM = 20.0
COARSEST_MM = 2.0
RADIUS_SHARE = 0.2


def _stations(
    row: ReadingsRow,
    *,
    turn_deg: float,
    least: int,
    start: PlaceAlong | None,
    finder: PlaceFinder,
    instrument: str,
    step_mm: float,
    where: str,
    name: str,
    add_mm: float = 0.0,
    sign: float = 1.0,
) -> RimReadings:
    count = len(row.lengths)
    if count < least:
        raise BadInput(
            "too few stations",
            where=f"{where}.{name}",
            given=row.as_written,
            wanted=f"at least {least}, better {4 * least}",
        )
    first_deg = 0.0 if start is None else finder.find(start, where=f"{where}.from")
    return RimReadings(
        along_deg=tuple((first_deg + turn_deg * index / count) % 360.0 for index in range(count)),
        value_mm=tuple(add_mm + sign * value for value in row.mm),
        instrument=instrument,
        resolution_mm=step_mm,
        as_written=row.each_as_written,
    )


def finest_mm(written: Length | None, *, usual_mm: float, where: str) -> float:
    """Return the smallest step of the instrument."""
    if written is None:
        return usual_mm
    if written.mm > COARSEST_MM:
        raise BadInput(
            "too coarse a step for these readings",
            where=f"{where}.finest",
            given=written.as_written,
            wanted='the smallest step that the instrument shows, such as "0.1 mm"',
        )
    return written.mm


def across(rim: RoundWritten, *, finder: PlaceFinder, where: str) -> RimReadings | None:
    """Return diameters across at equal steps over half a turn."""
    if rim.across is None:
        if rim.overlap_read:
            raise BadInput(
                "the overlap was read, but no diameters stand here",
                where=f"{where}.overlap_read",
                wanted='across = "356.1, 356.4, 355.9, 356.2 mm" with it',
            )
        if rim.dial is None and rim.radii is None:
            _not_alone(rim, wanted='across = "356.1, 356.4 mm", or dial or radii', where=where)
        return None
    if rim.finest is not None and (rim.dial or rim.radii):
        raise BadInput(
            "the step of which instrument, when diameters and radii are both written?",
            where=f"{where}.finest",
            given=rim.finest.as_written,
            wanted="no finest here: 0.1 mm is taken for the caliper, 0.01 for a dial, "
            "0.5 for a bar or card",
        )
    for number, one in enumerate(rim.across.lengths, 1):
        possible(one.mm, DIAMETER_MM, one, f"{where}.across[{number}]", "diameter")
    return _stations(
        rim.across,
        turn_deg=180.0,
        least=LEAST_ACROSS,
        start=rim.from_,
        finder=finder,
        instrument="caliper",
        step_mm=finest_mm(rim.finest, usual_mm=FINEST_MM["caliper"], where=where),
        where=where,
        name="across",
    )


def radii(
    rim: RoundWritten, *, girth_mm: float, finder: PlaceFinder, where: str
) -> RimReadings | None:
    """Return radii at equal steps over a whole turn, from a dial or read as they are."""
    if rim.dial is not None and rim.radii is not None:
        raise BadInput(
            "dial and radii are both written",
            where=f"{where}.radii",
            wanted="what the dial said with its zero, or the radii themselves",
        )
    if (rim.dial is None) != (rim.zero is None):
        raise BadInput(
            "how far is it from the bar to the skin where the dial says 0?"
            if rim.zero is None
            else "a zero, but nothing that the dial said",
            where=where if rim.zero is None else f"{where}.zero",
            wanted='zero = "177.5 mm" with dial = "0, 0.12, -0.05, 0.3 mm"',
        )
    row, name = (rim.dial, "dial") if rim.dial is not None else (rim.radii, "radii")
    if row is None:
        return None
    for number, one in enumerate(row.lengths, 1):
        if name == "dial" and abs(one.mm) > DIAL_MM:
            raise BadInput(
                f"reading {number}: no dial goes so far",
                where=f"{where}.dial",
                given=one.as_written,
                wanted=f"what the dial said, within {DIAL_MM:g} mm either way",
                step="Radii themselves are written as radii.",
            )
    instrument = "dial gauge" if name == "dial" else "bar or card"
    found = _stations(
        row,
        turn_deg=360.0,
        least=LEAST_STATIONS,
        start=rim.from_,
        finder=finder,
        instrument=instrument,
        step_mm=finest_mm(rim.finest, usual_mm=FINEST_MM[instrument], where=where),
        where=where,
        name=name,
        add_mm=rim.zero.mm if rim.zero is not None else 0.0,
    )
    mean_mm = math.fsum(found.value_mm) / len(found.value_mm)
    radius_mm = girth_mm / (2.0 * math.pi)
    if abs(mean_mm - radius_mm) > RADIUS_SHARE * radius_mm or min(found.value_mm) <= 0.0:
        raise BadInput(
            "these are no radii of this drum",
            where=f"{where}.{'zero' if name == 'dial' else name}",
            given=f"{mean_mm:.1f} mm on the mean",
            wanted=f"from a bar near the middle to the skin, near {radius_mm:.0f} mm",
            step="Look at the unit, and that no diameter is written.",
        )
    return found


def edge_stands(edge: EdgeWritten, *, finder: PlaceFinder, where: str) -> RimReadings | None:
    """Return how far the edge stands out beyond its plane, a gap counting below zero."""
    row = edge.gaps if edge.gaps is not None else edge.heights
    name = "gaps" if edge.gaps is not None else "heights"
    if row is None:
        _not_alone(edge, wanted='gaps = "0, 0.1, 0.25, 0 mm" or heights with it', where=where)
        return None
    if edge.gaps is not None and edge.heights is not None:
        raise BadInput(
            "gaps and heights are both written",
            where=f"{where}.heights",
            wanted="one of them: gaps by feeler on the plate, or heights by gauge",
        )
    if not edge.there or not edge.surveyed:
        raise BadInput(
            "readings of an edge that is not there"
            if not edge.there
            else "readings of an edge that is said not to be surveyed",
            where=f"{where}.{name}",
            given=row.as_written,
            wanted="no readings, or the edge as it is",
        )
    most_mm = GAP_MM if name == "gaps" else STANDS_MM
    for number, one in enumerate(row.lengths, 1):
        if abs(one.mm) > most_mm:
            raise BadInput(
                f"reading {number}: no edge lies so far off",
                where=f"{where}.{name}",
                given=one.as_written,
                wanted=f"within {most_mm:g} mm",
                step="Look at the unit and the decimal point.",
            )
    if name == "gaps" and min(row.mm) > 0.0:
        raise BadInput(
            "nothing touches the plate: no gap is 0",
            where=f"{where}.gaps",
            given=row.as_written,
            wanted="0 where no feeler goes in",
            step="Read it with the shell resting on the plate, between stations too.",
        )
    return _stations(
        row,
        turn_deg=360.0,
        least=LEAST_STATIONS,
        start=edge.from_,
        finder=finder,
        instrument="feeler gauges on a flat plate" if name == "gaps" else "height gauge",
        step_mm=finest_mm(edge.finest, usual_mm=EDGE_FINEST_MM, where=where),
        where=where,
        name=name,
        sign=-1.0 if name == "gaps" else 1.0,
    )


def _not_alone(written: RoundWritten | EdgeWritten, *, wanted: str, where: str) -> None:
    for name, given in (("from", written.from_), ("finest", written.finest)):
        if given is not None:
            raise BadInput(
                "nothing is read that it could belong to",
                where=f"{where}.{name}",
                given=given.as_written,
                wanted=wanted,
            )
