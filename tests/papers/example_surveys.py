"""Invented drums with readings round their ends; figures are made up."""

from __future__ import annotations

import math
from dataclasses import replace

from example_shells import small_tom

from counterhoop.development.flat import End
from counterhoop.shell.drum import Drum
from counterhoop.shell.readings import (
    Air,
    EndReadings,
    HeadRead,
    ProfileRead,
    Readings,
    RimReadings,
    ThreadRead,
)


def stations(count: int) -> tuple[float, ...]:
    return tuple(360.0 * i / count for i in range(count))


def to_step(value: float, step: float) -> float:
    return round(round(value / step) * step, 6)


def edge_read(count: int, *, wave_mm: float = 0.3, lean_mm: float = 0.0) -> RimReadings:
    """Feeler gaps under a saddle that may lean."""
    along = stations(count)
    heights = [
        wave_mm * math.cos(2 * math.radians(a - 20)) + lean_mm * math.cos(math.radians(a - 40))
        for a in along
    ]
    gaps = tuple(to_step(h - max(heights), 0.05) for h in heights)
    return RimReadings(
        along_deg=along, value_mm=gaps, instrument="feeler gauges on a flat plate",
        resolution_mm=0.05,
    )  # fmt: skip


def radii_read(count: int, *, around_mm: float, oval_mm: float = 0.8) -> RimReadings:
    """An oval with three lobes, the bar a millimetre off its middle."""
    radii = [
        around_mm / math.tau
        + oval_mm * math.cos(2 * math.radians(a - 30))
        + 0.2 * math.cos(3 * math.radians(a))
        + math.cos(math.radians(a - 70))
        for a in stations(count)
    ]
    return RimReadings(
        along_deg=stations(count), value_mm=tuple(to_step(r, 0.01) for r in radii),
        instrument="dial gauge", resolution_mm=0.01,
    )  # fmt: skip


def across_read(*diameters_mm: float) -> RimReadings:
    """Diameters at equal steps over half a turn."""
    count = len(diameters_mm)
    return RimReadings(
        along_deg=tuple(180.0 * i / count for i in range(count)), value_mm=diameters_mm,
        instrument="caliper", resolution_mm=0.1,
    )  # fmt: skip


def surveyed(
    *, count: int = 16, around_mm: float = 957.0, depth_mm: float = 203.0, edges: bool = True,
    radii: bool = True, across: tuple[float, ...] = (), wave_mm: float = 0.3,
    lean_mm: float = 0.0, key: str = "small tom",
) -> Drum:  # fmt: skip
    """The example tom with readings at both ends."""
    drum = small_tom(around_mm=around_mm, depth_mm=depth_mm).drum

    def end(name: End) -> EndReadings:
        return EndReadings(
            end=name,
            edge=edge_read(count, wave_mm=wave_mm, lean_mm=lean_mm) if edges else None,
            radii=radii_read(count, around_mm=around_mm) if radii else None,
            across=across_read(*across) if across else None,
            head=HeadRead(collar_mm=306.2, rim_mm=312.0, hoop_mm=315.5, says="the new head"),
            profile=ProfileRead(cut="round-over", apex_mm=2.0),
        )

    return replace(
        drum,
        key=key,
        readings=Readings(
            batter=end("batter"), resonant=end("resonant"), wood="hard maple",
            air=Air(temperature_c=18.0, humidity_percent=55.0),
            threads=(ThreadRead(of="batter rods", outside_mm=5.44, over_mm=10.6),),
        ),
        circumference=replace(
            drum.circumference,
            readings_mm=(("batter", around_mm), ("resonant", around_mm + 1.0)),
        ),
    )  # fmt: skip
