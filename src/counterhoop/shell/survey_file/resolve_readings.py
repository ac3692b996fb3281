"""Readings round the ends become stations with what was read there."""

from __future__ import annotations

import math

from counterhoop.development.flat import End, Ring
from counterhoop.errors import BadInput
from counterhoop.quantities.length import Length
from counterhoop.shell.drum import Circumference
from counterhoop.shell.readings import (
    Air,
    EndReadings,
    HeadRead,
    ProfileRead,
    Readings,
)
from counterhoop.shell.survey_file.models_job import DrumWritten
from counterhoop.shell.survey_file.models_readings import (
    AirWritten,
    EdgeWritten,
    FitWritten,
    ProfileWritten,
    RoundWritten,
)
from counterhoop.shell.survey_file.resolve_along import PlaceFinder
from counterhoop.shell.survey_file.resolve_stations import (
    across,
    edge_stands,
    finest_mm,
    radii,
)
from counterhoop.shell.survey_file.resolve_thread import resolve_threads

OFF_GIRTH_MM = 20.0
"""No head made for a drum is that far off it; common practice, no source."""
HEAD_DOUBT_MM = 0.1


def resolve_readings(
    written: DrumWritten,
    *,
    air: AirWritten | None,
    circumference: Circumference,
    rings: tuple[Ring, ...],
    finder: PlaceFinder,
    where: str,
) -> Readings:
    """Return everything that was read round the ends of a drum.

    Parameters
    ----------
    written : DrumWritten
        The drum of the file.
    air : AirWritten or None
        Of the whole job; the drum's own goes before it.
    circumference : Circumference
        What radii and heads are held against.
    rings : tuple of Ring
        Where the apex of an edge may lie.
    finder : PlaceFinder
        Of this drum.
    where : str
        Path of the drum in the file.

    Raises
    ------
    BadInput
        For what cannot have been read.
    """
    if written.wood is not None and written.material != "wood":
        raise BadInput(
            f"a wood for a shell of {written.material.value}",
            where=f"{where}.wood",
            given=written.wood,
            wanted='material = "wood", or no wood',
        )
    air = written.air or air

    def end(which: End) -> EndReadings:
        rim = getattr(written.round, which)
        edge: EdgeWritten | None = getattr(written.edges, which)
        fit: FitWritten | None = getattr(written.fit, which)
        girth_mm = dict(circumference.readings_mm).get(which, circumference.mean_mm)
        rim_path, edge_path = f"{where}.round.{which}", f"{where}.edges.{which}"
        rim = rim or RoundWritten()
        return EndReadings(
            end=which,
            across=across(rim, finder=finder, where=rim_path),
            overlap_read=rim.overlap_read,
            radii=radii(rim, girth_mm=girth_mm, finder=finder, where=rim_path),
            edge=None if edge is None else edge_stands(edge, finder=finder, where=edge_path),
            head=None
            if fit is None
            else _head(fit, girth_mm=girth_mm, where=f"{where}.fit.{which}"),
            profile=None
            if edge is None or edge.profile is None
            else _profile(
                edge.profile,
                wall_mm=written.wall.mm + sum(r.thick_mm for r in rings if r.end == which),
                where=f"{edge_path}.profile",
            ),
        )

    return Readings(
        batter=end("batter"),
        resonant=end("resonant"),
        threads=resolve_threads(written.threads, where=f"{where}.threads"),
        air=None
        if air is None
        else Air(temperature_c=air.temperature.celsius, humidity_percent=air.humidity.percent),
        wood=written.wood or "",
    )


def _head(fit: FitWritten, *, girth_mm: float, where: str) -> HeadRead:
    across_mm = girth_mm / math.pi
    for name in ("collar", "rim", "hoop"):
        size: Length | None = getattr(fit, name)
        far_mm = OFF_GIRTH_MM if name == "collar" else 2.0 * OFF_GIRTH_MM
        if size is not None and abs(size.mm - across_mm) > far_mm:
            raise BadInput(
                f"that {name} is of another size of drum",
                where=f"{where}.{name}",
                given=size.as_written,
                wanted=f"a diameter near {across_mm:.0f} mm, what the tape makes of this end",
                step="Measure what is to go on; a nominal size does not serve.",
            )
    if fit.rim is not None and fit.rim.mm <= fit.collar.mm:
        raise BadInput(
            "a rim no larger than the collar inside it",
            where=f"{where}.rim",
            given=fit.rim.as_written,
            wanted=f"the outside of the head's rim, more than {fit.collar.as_written}",
        )
    return HeadRead(
        collar_mm=fit.collar.mm,
        rim_mm=fit.rim.mm if fit.rim else None,
        hoop_mm=fit.hoop.mm if fit.hoop else None,
        says=fit.says,
        doubt_mm=finest_mm(fit.finest, usual_mm=HEAD_DOUBT_MM, where=where),
    )


def _profile(found: ProfileWritten, *, wall_mm: float, where: str) -> ProfileRead:
    for name in ("apex", "outer"):
        size: Length | None = getattr(found, name)
        most_mm = wall_mm if name == "apex" else 2.0 * wall_mm
        if size is not None and size.mm > most_mm:
            raise BadInput(
                "farther from the outside than the wall is thick"
                if name == "apex"
                else "larger than this wall can carry",
                where=f"{where}.{name}",
                given=size.as_written,
                wanted=f"within {most_mm:g} mm",
            )
    if found.inner is not None and not 0.0 < found.inner.deg < 90.0:
        raise BadInput(
            "no inner cut slopes so",
            where=f"{where}.inner",
            given=found.inner.as_written,
            wanted='its slope against the plane of the edge, such as "45 deg"',
        )
    return ProfileRead(
        cut=found.cut,
        apex_mm=found.apex.mm if found.apex else None,
        inner_deg=found.inner.deg if found.inner else None,
        outer_mm=found.outer.mm if found.outer else None,
    )
