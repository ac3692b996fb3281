"""What was read round the ends of a shell, on its heads, its screws and in the air of that day."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from counterhoop.development.flat import End

CUTS = (
    "round-over",
    "round-over and 45 inside",
    "45 with back-cut",
    "single 45",
    "30",
)
"""Cuts of a bearing edge, as the trade calls them."""
WOODS = (
    "yellow birch",
    "beech",
    "hard maple",
    "yellow-poplar",
    "mahogany",
    "African mahogany",
)
"""Woods whose movement is known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RimReadings:
    """One reading at each station round the rim.

    Attributes
    ----------
    along_deg : tuple of float
        Where each was taken, degrees from the datum.
    value_mm : tuple of float
        What was read, in mm.
    instrument : str
        What it was read with.
    resolution_mm : float
        The instrument's smallest step.
    as_written : tuple of str
        What was written down.
    """

    along_deg: tuple[float, ...]
    value_mm: tuple[float, ...]
    instrument: str
    resolution_mm: float
    as_written: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadRead:
    """A head and a counterhoop as measured for one end; never a nominal size.

    Attributes
    ----------
    collar_mm : float
        Inside of the head's collar, where it goes over the shell.
    rim_mm, hoop_mm : float or None
        Outside of the head's rim and inside of the counterhoop, when measured.
    says : str
        Which head it was.
    doubt_mm : float
        Half-width of the doubt of each.
    """

    collar_mm: float
    rim_mm: float | None = None
    hoop_mm: float | None = None
    says: str = ""
    doubt_mm: float = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class ProfileRead:
    """The cut of a bearing edge as found.

    Attributes
    ----------
    cut : str
        One of ``CUTS``.
    apex_mm : float or None
        From the outside of the bare shell to the highest line of the edge.
    inner_deg : float or None
        Slope of the inner cut against the plane of the edge.
    outer_mm : float or None
        Radius of the outer round-over; of a counter-cut, how far down it reaches.
    """

    cut: str
    apex_mm: float | None = None
    inner_deg: float | None = None
    outer_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class EndReadings:
    """Everything read round one end.

    Attributes
    ----------
    across : RimReadings or None
        Diameters over the surface that the girth was read on, within the top 20 mm; ``along_deg``
        is one end of each.
    overlap_read : bool
        One of the diameters ran through the wrap's overlap.
    radii : RimReadings or None
        From a bar or card near the middle to the skin.
    edge : RimReadings or None
        How far the edge stands out beyond the plate that heights are measured from; a feeler's
        gap counts below zero.
    head : HeadRead or None
        What is to go on.
    profile : ProfileRead or None
        The cut of the edge.
    """

    end: End
    across: RimReadings | None = None
    overlap_read: bool = False
    radii: RimReadings | None = None
    edge: RimReadings | None = None
    head: HeadRead | None = None
    profile: ProfileRead | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadRead:
    """What was read off one external thread.

    Attributes
    ----------
    of : str
        Whose it is ("batter rods").
    head : {"batter", "resonant", ""}
        Whose lugs it goes into; "" for a screw that is not a rod.
    outside_mm, outside_doubt_mm : float
        Over the crests, and the half-width of its doubt.
    over_mm, over_doubt_mm : float or None, float
        Length over ``threads`` threads; of a gauge's blade, its pitch.
    threads : int
        Over how many threads: from one crest to the eleventh is ten. 1 for a gauge.
    by_gauge : bool
        The pitch was read with a gauge's blade.
    flanks_deg : float or None
        Between the flanks, when they were seen against a gauge.
    as_written : tuple of str
        What was written down.
    """

    of: str
    head: Literal["batter", "resonant", ""] = ""
    outside_mm: float
    outside_doubt_mm: float = 0.02
    over_mm: float | None = None
    over_doubt_mm: float = 0.1
    threads: int = 10
    by_gauge: bool = False
    flanks_deg: float | None = None
    as_written: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Air:
    """Temperature and relative humidity of the day on which it was measured."""

    temperature_c: float
    humidity_percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """All of these for one drum; ``wood`` is its species, "" when it is not known."""

    batter: EndReadings = EndReadings(end="batter")
    resonant: EndReadings = EndReadings(end="resonant")
    threads: tuple[ThreadRead, ...] = ()
    air: Air | None = None
    wood: str = ""

    def at(self, end: End) -> EndReadings:
        """Return what was read round one end."""
        return self.batter if end == "batter" else self.resonant
