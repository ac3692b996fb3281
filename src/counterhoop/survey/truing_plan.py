"""The planes to sand the edges to: no wood added, as little taken off as can be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from counterhoop.development.flat import End
from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import BadInput
from counterhoop.survey.flat_heights import EdgeHeights
from counterhoop.survey.plane_cut import cut_planes
from counterhoop.survey.plane_edge import EdgePlane, edge_plane, minimum_zone_plane, rim_columns
from counterhoop.survey.round_stations import shares

Least = Literal["most", "total"]


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeCut:
    """What comes off one edge.

    Attributes
    ----------
    end : {"batter", "resonant"}
        Which edge.
    names, along_deg : tuple
        The stations read.
    removal_mm : tuple of float
        Wood off at each station, never less than 0.
    mean_mm : float
        Wood off, taken all round.
    plane : EdgePlane
        The new edge as heights beyond the old plane measured from.
    """

    end: End
    names: tuple[str, ...]
    along_deg: tuple[float, ...]
    removal_mm: tuple[float, ...]
    mean_mm: float
    plane: EdgePlane

    @property
    def most_mm(self) -> float:
        """Wood off at the highest station."""
        return max(self.removal_mm)

    @property
    def most_at(self) -> tuple[str, ...]:
        """Names of the stations where most comes off (to a hundredth of a millimetre)."""
        near = self.most_mm - 0.005
        return tuple(n for n, r in zip(self.names, self.removal_mm, strict=True) if r >= near)


@dataclass(frozen=True, slots=True, kw_only=True)
class TruingPlan:
    """What comes off both edges, at each station and as planes that move every height.

    Attributes
    ----------
    truing : Truing
        How far the planes that heights are measured from move at any place: the wood off less
        what the edge stood out there.
    batter, resonant : EdgeCut or None
        None for an edge that is left alone.
    least : {"most", "total"}
        Whether the most at any station was made least, or the wood all round.
    parallel : bool
        Whether the edges end parallel.
    depth_after_mm : tuple of float or None
        Least and greatest depth between the new planes, when depths were given.
    depth_misfit_mm : float or None
        How far the worst depth reading lies off what the edges' heights allow: a check of the
        readings.
    """

    truing: Truing
    batter: EdgeCut | None
    resonant: EdgeCut | None
    least: Least
    parallel: bool
    depth_after_mm: tuple[float, float] | None
    depth_misfit_mm: float | None


def plan_truing(
    *,
    batter: EdgeHeights | None = None,
    resonant: EdgeHeights | None = None,
    least: Least = "most",
    parallel: bool = False,
    depth_mm: Sequence[float] = (),
    everywhere_mm: float = 0.0,
) -> TruingPlan:
    """Return the planes to sand to, by linear programming.

    Parameters
    ----------
    batter, resonant : EdgeHeights, optional
        The edges to true, each measured outward from its own plane; at least one.
    least : {"most", "total"}
        Make the most at any station least, or the wood taken off all round. Where several plans
        are as good, the other of the two decides.
    parallel : bool
        The edges end parallel; needs ``depth_mm``. An edge that is not given stays as it is, and
        depths are then from its plane (the shell standing on a flat plate).
    depth_mm : sequence of float
        Depth from edge to edge at the stations, which both edges must share.
    everywhere_mm : float
        Wood that comes off even at the lowest station (to fresh wood).

    Raises
    ------
    BadInput
        No edge, depths that do not belong to the stations, parallel without depths.

    Examples
    --------
    >>> plan = plan_truing(batter=EdgeHeights.from_gaps((0, 0.3, 0, 0.3)))
    >>> [round(r, 6) for r in plan.batter.removal_mm], round(plan.truing.batter.mean_mm, 6)
    ([0.3, 0.0, 0.3, 0.0], 0.3)
    """
    edges: dict[End, EdgeHeights] = {}
    if batter is not None:
        edges["batter"] = batter
    if resonant is not None:
        edges["resonant"] = resonant
    _check(edges, parallel=parallel, depth_mm=depth_mm, everywhere_mm=everywhere_mm)
    depth = _depth_plane(edges, depth_mm) if depth_mm else None
    if parallel and depth is not None:
        planes = cut_planes(
            tuple(edges.values()), least=least, lean=np.array([depth.cos_mm, depth.sin_mm])
        )
    elif least == "most":
        planes = tuple(_lowest(edge) for edge in edges.values())
    else:
        planes = tuple(cut_planes((edge,), least=least)[0] for edge in edges.values())
    cuts = {
        end: _cut(end, edge, factors, everywhere_mm=everywhere_mm)
        for (end, edge), factors in zip(edges.items(), planes, strict=True)
    }
    truing = Truing(**{end: _removal(cut.plane) for end, cut in cuts.items()})
    return TruingPlan(
        truing=truing,
        batter=cuts.get("batter"),
        resonant=cuts.get("resonant"),
        least=least,
        parallel=parallel,
        depth_after_mm=None if depth is None else _depth_after(depth, truing),
        depth_misfit_mm=None if depth is None else max(abs(d) for d in depth.deviations_mm),
    )


def _lowest(edge: EdgeHeights) -> np.ndarray:
    """Return the lower plane of the minimum zone: the most that comes off is then least."""
    zone = minimum_zone_plane(edge)
    return np.array([zone.mean_mm + min(zone.deviations_mm), zone.cos_mm, zone.sin_mm])


def _cut(end: End, edge: EdgeHeights, factors: np.ndarray, *, everywhere_mm: float) -> EdgeCut:
    # Rounding may leave a station a hair under the plane: lower it until no wood is added.
    under = float((np.asarray(edge.height_mm) - rim_columns(edge) @ factors).min())
    plane = edge_plane(edge, factors + np.array([min(under, 0.0) - everywhere_mm, 0.0, 0.0]))
    removal = tuple(max(0.0, d) for d in plane.deviations_mm)
    return EdgeCut(
        end=end,
        names=edge.names,
        along_deg=edge.along_deg,
        removal_mm=removal,
        mean_mm=sum(s * r for s, r in zip(shares(edge.along_deg), removal, strict=True)),
        plane=plane,
    )


def _removal(plane: EdgePlane) -> Removal:
    return Removal(
        mean_mm=0.0 - plane.mean_mm, cos_mm=0.0 - plane.cos_mm, sin_mm=0.0 - plane.sin_mm
    )


def _depth_plane(edges: dict[End, EdgeHeights], depth_mm: Sequence[float]) -> EdgePlane:
    """Return the depth between the two planes measured from, round the rim."""
    between = np.asarray(depth_mm, dtype=float)
    for edge in edges.values():
        between = between - np.asarray(edge.height_mm)
    any_edge = next(iter(edges.values()))
    depths = EdgeHeights(along_deg=any_edge.along_deg, height_mm=tuple(map(float, between)))
    factors = np.linalg.lstsq(rim_columns(depths), between, rcond=None)[0]
    return edge_plane(depths, factors)


def _depth_after(depth: EdgePlane, truing: Truing) -> tuple[float, float]:
    ends = (truing.batter, truing.resonant)
    mean = depth.mean_mm - sum(r.mean_mm for r in ends)
    lean = float(
        np.hypot(
            depth.cos_mm - sum(r.cos_mm for r in ends), depth.sin_mm - sum(r.sin_mm for r in ends)
        )
    )
    return mean - lean, mean + lean


def _check(
    edges: dict[End, EdgeHeights],
    *,
    parallel: bool,
    depth_mm: Sequence[float],
    everywhere_mm: float,
) -> None:
    if not edges:
        raise BadInput("no edge to true", where="truing", wanted="the heights of an edge or both")
    if not 0.0 <= everywhere_mm < float("inf"):
        raise BadInput(
            "wood cannot be added",
            where="truing.everywhere_mm",
            given=everywhere_mm,
            wanted="0 or more mm",
        )
    if parallel and not depth_mm:
        raise BadInput(
            "parallel to what cannot be told",
            where="truing.depth_mm",
            wanted="the depth from edge to edge at every station",
            step="measure the depth at each station",
        )
    places = {edge.along_deg for edge in edges.values()}
    if depth_mm and (len(places) > 1 or len(depth_mm) != len(next(iter(places)))):
        raise BadInput(
            "depths do not belong to the stations",
            where="truing.depth_mm",
            given=f"{len(depth_mm)} depths",
            wanted="one at each station, the same stations on both edges",
        )
