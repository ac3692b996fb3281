"""Heights of one edge at stations round the rim."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.survey.round_stations import check_stations, equal_stations_deg, station_names


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeHeights:
    """How far the edge stands out beyond a plane, at stations; more is more wood.

    Attributes
    ----------
    along_deg : tuple of float
        Where each was taken, at least four places.
    height_mm : tuple of float
        Outward from the plane that heights on the shell are measured from.
    names : tuple of str
        "station 1" and so on when nothing is given.
    instrument, resolution_mm, as_written
        What it was read with, its smallest step, what was written down.
    """

    along_deg: tuple[float, ...]
    height_mm: tuple[float, ...]
    names: tuple[str, ...] = ()
    instrument: str = "feeler gauges on a flat plate"
    resolution_mm: float = 0.05
    as_written: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        check_stations(self.along_deg, self.height_mm, where="edge heights")
        if not self.names:
            object.__setattr__(self, "names", station_names(len(self.along_deg)))

    @classmethod
    def from_gaps(cls, gaps_mm: Sequence[float]) -> EdgeHeights:
        """Make heights from gaps under an edge that stands on a flat plate, at equal stations.

        Raises
        ------
        BadInput
            A gap is less than 0, or nothing touches the plate.

        Examples
        --------
        >>> EdgeHeights.from_gaps((0, 0.3, 0, 0.2)).height_mm
        (0.0, -0.3, 0.0, -0.2)
        """
        if gaps_mm and min(gaps_mm) < 0.0:
            raise BadInput(
                "a gap is less than 0",
                where="gaps on the plate",
                given=min(gaps_mm),
                wanted="the thickest feeler that goes in, 0 where none does",
            )
        return cls(
            along_deg=equal_stations_deg(len(gaps_mm)),
            height_mm=tuple(0.0 - float(g) for g in gaps_mm),
        )
