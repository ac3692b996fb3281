"""The planes to sand the edges to: no wood added, as little taken off as can be."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from counterhoop.development.flat import End
from counterhoop.development.rim import RimPlane
from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import BadInput
from counterhoop.survey.flat_heights import EdgeHeights
from counterhoop.survey.lowest_corner import Array
from counterhoop.survey.plane_cut import (
    Least,
    cut_alone,
    cut_leaning,
    cut_parallel,
    standing_plane,
)
from counterhoop.survey.plane_edge import EdgePlane, edge_plane, rim_columns
from counterhoop.survey.round_stations import shares
from counterhoop.survey.uncertainty import doubt_between


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
    resolution_mm, doubt_mm : float
        The smallest step of what the edge was read with; half-width of the doubt of a removal.
    """

    end: End
    names: tuple[str, ...]
    along_deg: tuple[float, ...]
    removal_mm: tuple[float, ...]
    mean_mm: float
    plane: EdgePlane
    resolution_mm: float
    doubt_mm: float

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
        Least and greatest depth between the new planes, when a depth was given.
    """

    truing: Truing
    batter: EdgeCut | None
    resonant: EdgeCut | None
    least: Least
    parallel: bool
    depth_after_mm: tuple[float, float] | None


def plan_truing(
    *,
    batter: EdgeHeights | None = None,
    resonant: EdgeHeights | None = None,
    least: Least = "most",
    parallel: bool = False,
    depth: RimPlane | None = None,
    stays: EdgeHeights | None = None,
    everywhere_mm: float = 0.0,
) -> TruingPlan:
    """Return the planes to sand to, by linear programming.

    Parameters
    ----------
    batter, resonant : EdgeHeights, optional
        The edges to true, each measured outward from its own plane; at least one. Their stations
        may differ.
    least : {"most", "total"}
        Make the most at any station least, or the wood taken off all round. Where several plans
        are as good, the other of the two decides.
    parallel : bool
        The edges end parallel; needs ``depth``.
    depth : RimPlane, optional
        Depth round the rim between the two planes that heights are measured from.
    stays : EdgeHeights, optional
        The edge that is not trued, where it was read: the other one then ends parallel to the
        plate that it stands on, else to the plane that its heights are measured from.
    everywhere_mm : float
        Wood that comes off even at the lowest station (to fresh wood).

    Raises
    ------
    BadInput
        No edge; parallel without a depth.

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
    _check(edges, parallel=parallel, depth=depth, everywhere_mm=everywhere_mm)
    cuts = {
        end: _cut(end, edge, factors, everywhere_mm=everywhere_mm)
        for (end, edge), factors in zip(
            edges.items(),
            _planes(
                tuple(edges.values()), least=least, depth=depth if parallel else None, stays=stays
            ),
            strict=True,
        )
    }
    truing = Truing(**{end: _removal(cut.plane) for end, cut in cuts.items()})
    return TruingPlan(
        truing=truing,
        batter=cuts.get("batter"),
        resonant=cuts.get("resonant"),
        least=least,
        parallel=parallel,
        depth_after_mm=None if depth is None else _depth_after(depth, truing),
    )


def _planes(
    edges: tuple[EdgeHeights, ...],
    *,
    least: Least,
    depth: RimPlane | None,
    stays: EdgeHeights | None,
) -> tuple[Array, ...]:
    """Return the factors of the plane under each edge; with a depth, parallel to each other."""
    if depth is None:
        return tuple(cut_alone(edge, least=least) for edge in edges)
    lean = np.array([depth.cos_mm, depth.sin_mm])
    if len(edges) == 2:
        return cut_parallel(edges[0], edges[1], least=least, lean=lean)
    if stays is not None:
        lean = lean + standing_plane(stays)[1:]
    return (cut_leaning(edges[0], lean=-lean),)


def _cut(end: End, edge: EdgeHeights, factors: Array, *, everywhere_mm: float) -> EdgeCut:
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
        resolution_mm=edge.resolution_mm,
        doubt_mm=doubt_between(edge.resolution_mm),
    )


def _removal(plane: EdgePlane) -> Removal:
    return Removal(
        mean_mm=0.0 - plane.mean_mm, cos_mm=0.0 - plane.cos_mm, sin_mm=0.0 - plane.sin_mm
    )


def _depth_after(depth: RimPlane, truing: Truing) -> tuple[float, float]:
    ends = (truing.batter, truing.resonant)
    mean = depth.mean_mm - sum(r.mean_mm for r in ends)
    lean = math.hypot(
        depth.cos_mm - sum(r.cos_mm for r in ends), depth.sin_mm - sum(r.sin_mm for r in ends)
    )
    return mean - lean, mean + lean


def _check(
    edges: dict[End, EdgeHeights],
    *,
    parallel: bool,
    depth: RimPlane | None,
    everywhere_mm: float,
) -> None:
    if not edges:
        raise BadInput("no edge to true", where="truing", wanted="the heights of an edge or both")
    if not 0.0 <= everywhere_mm < math.inf:
        raise BadInput(
            "wood cannot be added",
            where="truing",
            given=everywhere_mm,
            wanted="0 mm or more that comes off everywhere",
        )
    if parallel and depth is None:
        raise BadInput(
            "parallel to what cannot be told",
            where="truing",
            wanted="the depth from edge to edge at three places or more round the rim",
            step="Measure the depth there.",
        )
