"""Depths held against each other and against the edges between which they were read."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from counterhoop.development.rim import between_stations_mm
from counterhoop.errors import Finding, Grade
from counterhoop.quantities.print_length import CALIPER_MM, TAPE_MM, print_mm
from counterhoop.survey.flat_heights import EdgeHeights
from counterhoop.survey.plane_edge import least_squares_plane
from counterhoop.survey.plane_zone import least_zone
from counterhoop.survey.round_stations import LEAST_APART_DEG, gaps_deg
from counterhoop.survey.slips import any_of, slip_between, slips_of
from counterhoop.survey.uncertainty import from_resolution

UNREAD_EDGE_MM = 0.5
"""How far an edge that nobody read may lie to either side of a plane (common practice, no
source)."""
LEAST_PLACES = 4
LEAN_MM = 0.3
"""An edge's lean, highest less lowest, that is still no lean (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Depths:
    """Depths from edge to edge, by rule.

    Attributes
    ----------
    along_deg, depth_mm : tuple of float
        Where and how deep.
    names : tuple of str
        What the places are called.
    doubt_mm : float
        Half-width of the doubt of one.
    """

    along_deg: tuple[float, ...]
    depth_mm: tuple[float, ...]
    names: tuple[str, ...]
    doubt_mm: float


def depths_held(depths: Depths, edges: Sequence[EdgeHeights]) -> Finding | None:
    """Say that no two planes hold all depths within their doubt, and which one is to blame.

    What the edges stand out at the place is taken off each depth; what is then left lies on a
    plane as far as readings are right, whatever the shell: an edge that was not read may add half
    a millimetre to either side. None when a plane holds them all, or there are fewer than four
    different places.

    Parameters
    ----------
    edges : sequence of EdgeHeights
        The edges that were read, two at the most.
    """
    along = depths.along_deg
    if len(along) < LEAST_PLACES or min(gaps_deg(along)) < LEAST_APART_DEG:
        return None
    left = [
        mm - sum(between_stations_mm(e.along_deg, e.height_mm, at_deg=at) for e in edges)
        for at, mm in zip(along, depths.depth_mm, strict=True)
    ]
    allowed = (
        depths.doubt_mm
        + sum(e.resolution_mm / 2.0 for e in edges)
        + UNREAD_EDGE_MM * (2 - len(edges))
    )
    angles = np.radians(np.asarray(along))
    columns = np.column_stack((np.ones(len(along)), np.cos(angles), np.sin(angles)))
    values = np.asarray(left)
    half = least_zone(columns, values)[1]
    if half <= allowed:
        return None
    suspects = _suspects(depths, columns, values, allowed=allowed)
    says = (
        f"The depths round the rim lie {print_mm(half, resolution_mm=CALIPER_MM)} to either side "
        f"of the nearest plane, more than the rule{' and the edges' if len(edges) < 2 else ''} "
        "can be off"
    )
    named = [name for name, _ in suspects]
    alone = suspects[0] if len(suspects) == 1 else None
    return Finding(
        code="depths-disagree",
        grade=Grade.TAKE_CARE,
        says=f"{says}; most likely {any_of(f'the depth at {n}{why}' for n, why in suspects)}."
        if suspects
        else f"{says}; more than one of them is wrong, or an edge is broken out.",
        where=f"depth at {alone[0]}" if alone else "depth round the rim",
        along_deg=along[depths.names.index(alone[0])] if alone else None,
        measured=half,
        limit=allowed,
        doubt=depths.doubt_mm,
        rule="depths between two flat edges lie on a plane",
        remedy=f"Read the depth at {any_of(named)} again." if named else "Read the depths again.",
    )


def _suspects(
    depths: Depths, columns: np.ndarray, values: np.ndarray, *, allowed: float
) -> list[tuple[str, str]]:
    """Return each depth that alone explains it, with the slip in words."""
    count = len(values)
    found = []
    for i, (name, read) in enumerate(zip(depths.names, depths.depth_mm, strict=True)):
        if count > LEAST_PLACES:
            kept = np.arange(count) != i
            factors, half = least_zone(columns[kept], values[kept])
            if half > allowed:
                continue
            right = read - float(values[i] - columns[i] @ factors)
            # A plane through the others is the less sure the fewer they are.
            why = slip_between(read, right, within_mm=2.0 * allowed)
            found.append((name, f", {why}" if why else ""))
            continue
        # A plane always holds any three: only a slip that mends it tells one of four.
        for slip in slips_of(read):
            mended = values.copy()
            mended[i] += slip.right_mm - read
            if least_zone(columns, mended)[1] <= allowed:
                found.append((name, f", {slip.says}"))
    slips = [one for one in found if one[1]]
    return slips or found


def heights_against_depths(
    edges: Sequence[EdgeHeights], *, depth_cos_mm: float, depth_sin_mm: float
) -> Finding | None:
    """Say that heights by gauge and depths tell two stories of a wedge.

    Either the planes measured from lie parallel, and the depth leans as the edges do; or each
    edge was read from the plate that it stood on and does not lean, and the depth leans as it
    will. Heights that lean while the planes still do not lie parallel were read from a plane
    that leaned: something lay under the shell or the plate.

    Parameters
    ----------
    edges : sequence of EdgeHeights
        The edges that were read.
    depth_cos_mm, depth_sin_mm : float
        Swing of the depth between the planes measured from, 0 where it is not clear of its doubt.
    """
    by_gauge = [edge for edge in edges if max(edge.height_mm) != 0.0]
    if not by_gauge or (depth_cos_mm == 0.0 and depth_sin_mm == 0.0):
        return None
    planes = [least_squares_plane(edge) for edge in by_gauge]
    cos, sin = (math.fsum(p.cos_mm for p in planes), math.fsum(p.sin_mm for p in planes))
    doubt = 2.0 * math.hypot(
        *(
            from_resolution(edge.resolution_mm) * math.sqrt(2.0 / len(edge.along_deg))
            for edge in by_gauge
        )
    )
    lean, wedge = 2.0 * math.hypot(cos, sin), 2.0 * math.hypot(depth_cos_mm, depth_sin_mm)
    if lean <= max(LEAN_MM, 2.0 * doubt):
        return None
    high, deep = (
        round(math.degrees(math.atan2(s, c))) % 360
        for c, s in ((cos, sin), (cos + depth_cos_mm, sin + depth_sin_mm))
    )
    depth = 2.0 * math.hypot(cos + depth_cos_mm, sin + depth_sin_mm)
    depths = (
        f"the depths by {print_mm(depth)} toward {deep}"
        if depth >= TAPE_MM
        else "the depths do not swing"
    )
    return Finding(
        code="heights-lean",
        grade=Grade.TAKE_CARE,
        says=(
            f"The edge heights rise by {print_mm(lean, resolution_mm=CALIPER_MM)} toward "
            f"{high} degrees, but {depths}: the plane that heights were read from leaned by "
            f"{print_mm(wedge)}, or a depth is wrong."
        ),
        where="edge heights and depths",
        along_deg=float(high),
        measured=wedge,
        limit=0.0,
        doubt=2.0 * doubt,
        rule="a wedge shows in heights and in depths alike",
        remedy="Stand the shell on a clean flat plate and read the heights again, then the depths.",
    )
