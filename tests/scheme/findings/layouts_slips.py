"""Drums with one slip in what was read, and their neighbours without it."""

from __future__ import annotations

import math
import sys
from dataclasses import replace
from typing import Any

from counterhoop.scheme.layout import Layout
from counterhoop.shell.readings import RimReadings

made = sys.modules["findings_layouts"]
STATIONS = 16


def dial(
    *, off_mm: float = 0.0, at: int | None = None, missed: int | None = None, zero_mm: float = 0.0
) -> RimReadings:
    """An oval of 3 mm by dial; one reading ``off_mm``, or one station passed over."""
    skin = [
        made.ACROSS_MM / 2.0 + zero_mm + 0.75 * math.cos(math.radians(45.0 * k - 60.0))
        for k in range(STATIONS)
    ]
    if at is not None:
        skin[at] += off_mm
    if missed is not None:
        skin = [*skin[:missed], *skin[missed + 1 :], skin[0]]
    return made.rim(*skin, resolution_mm=0.01)


def across(*, slip_mm: float = 0.0) -> RimReadings:
    """The same oval by caliper; the third diameter ``slip_mm`` off."""
    sizes = [
        made.ACROSS_MM + 1.5 * math.cos(math.radians(45.0 * k - 60.0)) for k in range(STATIONS // 2)
    ]
    sizes[2] += slip_mm
    return made.rim(*sizes, turn_deg=180.0)


def edge(*, astray_mm: float = 0.0, lean_mm: float = 0.0) -> RimReadings:
    """Heights by gauge of a flat edge; the fifth ``astray_mm`` off, all of them leaning."""
    heights = [lean_mm * math.cos(math.radians(22.5 * k)) for k in range(STATIONS)]
    heights[4] += astray_mm
    return made.rim(*heights, resolution_mm=0.05)


def depths(*, slip_mm: float = 0.0) -> Layout:
    """Depths at six places; the third ``slip_mm`` off."""
    layout = made.read()
    depth = [layout.drum.depth_mm] * 6
    depth[2] += slip_mm
    return _of(
        layout,
        depth_readings_mm=tuple((f"{60 * k} deg", mm) for k, mm in enumerate(depth)),
        depth_along_deg=tuple(60.0 * k for k in range(6)),
    )


def leaning(*, depth_leans_mm: float) -> Layout:
    """Heights that lean by 1 mm to each side; the depth between the planes by this."""
    return _of(made.read(edge=edge(lean_mm=1.0)), depth_cos_mm=depth_leans_mm)


def _of(layout: Layout, **changed: Any) -> Layout:
    return replace(layout, drum=replace(layout.drum, **changed))
