"""How flat one edge is, and where it stands high."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.errors import Finding, Grade
from counterhoop.quantities.print_length import print_mm
from counterhoop.survey.flat_heights import EdgeHeights
from counterhoop.survey.harmonics import Harmonic, harmonics
from counterhoop.survey.plane_edge import EdgePlane, least_squares_plane, minimum_zone_plane
from counterhoop.survey.uncertainty import doubt_between, from_resolution


@dataclass(frozen=True, slots=True, kw_only=True)
class HighPlace:
    """A station that stands higher than both its neighbours."""

    name: str
    along_deg: float
    above_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Flatness:
    """What the heights of one edge say.

    Attributes
    ----------
    stations : int
        How many places it rests on.
    least_squares, minimum_zone : EdgePlane
        FLTt is ``total_mm`` of each.
    waves : tuple of Harmonic
        Order 1 is the tilt against the plane measured from, order 2 the saddle.
    high_places : tuple of HighPlace
        Stations above the least-squares plane and both neighbours, highest first.
    resolution_mm : float
        Nothing finer is printed.
    doubt_mm : float
        Half-width of the doubt of a peak-to-valley figure: twice the standard uncertainty of the
        difference of two readings.
    """

    stations: int
    least_squares: EdgePlane
    minimum_zone: EdgePlane
    waves: tuple[Harmonic, ...]
    high_places: tuple[HighPlace, ...]
    resolution_mm: float
    doubt_mm: float

    @property
    def standing_high(self) -> tuple[HighPlace, ...]:
        """The high places that the instrument can tell from none, and that do not print as 0."""
        least_mm = max(self.doubt_mm, self.resolution_mm) / 2.0
        return tuple(h for h in self.high_places if h.above_mm > least_mm)

    @property
    def tilt(self) -> Harmonic:
        """The lean of the edge against the plane measured from."""
        return self.waves[0]

    @property
    def saddle(self) -> Harmonic | None:
        """Two high places opposite each other, or None when there are too few stations."""
        return self.waves[1] if len(self.waves) > 1 else None


def flatness(edge: EdgeHeights) -> Flatness:
    """Return planes, tilt, saddle and high places of one edge.

    Examples
    --------
    >>> found = flatness(EdgeHeights.from_gaps((0, 0.3, 0.4, 0.3, 0, 0.3, 0.4, 0.3)))
    >>> [(h.name, round(h.above_mm, 3)) for h in found.high_places]
    [('station 1', 0.25), ('station 5', 0.25)]
    """
    fitted = least_squares_plane(edge)
    return Flatness(
        stations=len(edge.height_mm),
        least_squares=fitted,
        minimum_zone=minimum_zone_plane(edge),
        waves=harmonics(
            edge.along_deg, edge.height_mm, reading_doubt_mm=from_resolution(edge.resolution_mm)
        ),
        high_places=_high_places(edge, fitted.deviations_mm),
        resolution_mm=edge.resolution_mm,
        doubt_mm=doubt_between(edge.resolution_mm),
    )


def _high_places(edge: EdgeHeights, above: tuple[float, ...]) -> tuple[HighPlace, ...]:
    order = sorted(range(len(above)), key=lambda i: edge.along_deg[i] % 360.0)
    found = []
    for rank, i in enumerate(order):
        left, right = above[order[rank - 1]], above[order[(rank + 1) % len(order)]]
        # A flat top of two stations counts once, at its first.
        if above[i] > 1e-9 and above[i] > left + 1e-12 and above[i] >= right - 1e-12:
            found.append(
                HighPlace(name=edge.names[i], along_deg=edge.along_deg[i], above_mm=above[i])
            )
    return tuple(sorted(found, key=lambda h: (-round(h.above_mm, 9), h.along_deg)))


def flat_finding(found: Flatness, *, edge_says: str, limit_mm: float) -> Finding:
    """Return what one edge's flatness comes to, in the words of the bench.

    Parameters
    ----------
    edge_says : str
        Which edge ("batter edge").
    limit_mm : float
        Most that it may lie off a plane.
    """
    off, step = found.minimum_zone.total_mm, found.resolution_mm
    over = off > limit_mm
    close = abs(off - limit_mm) < found.doubt_mm
    size = print_mm(off, resolution_mm=step)
    says = f"{edge_says[:1].upper()}{edge_says[1:]} " + (
        f"is {size} out of flat" if over else f"lies within {size} of flat"
    )
    says += f", read at {found.stations} stations"
    high = found.standing_high[:3]
    if high and (over or close):
        says += ", high at " + ", ".join(
            f"{h.name} (+{print_mm(h.above_mm, resolution_mm=step)})" for h in high
        )
    says += ": too close to call, read it again." if close else "."
    return Finding(
        code="edge-not-flat" if over else "edge-flat",
        grade=Grade.TAKE_CARE if over else Grade.NOTE,
        says=says,
        where=edge_says,
        along_deg=high[0].along_deg if high else None,
        measured=off,
        limit=limit_mm,
        doubt=found.doubt_mm,
        rule="flat_mm",
        remedy="True the edge on a flat plate." if over else "",
        too_close=close,
    )
