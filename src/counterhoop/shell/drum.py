"""A drum as found: what the survey says, never overwritten."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Literal

from counterhoop.development.flat import End, Ring
from counterhoop.development.outline import Outline
from counterhoop.development.place import Place
from counterhoop.development.surface import Skin
from counterhoop.shell.hole import Hole, Origin
from counterhoop.shell.readings import Readings


class DrumKind(StrEnum):
    """What sort of drum."""

    TOM = "tom"
    FLOOR_TOM = "floor tom"
    SNARE = "snare"
    MARCHING_SNARE = "marching snare"
    BASS = "bass drum"
    OTHER = "other"


class Material(StrEnum):
    """What the shell is made of; plug, edge and glue advice is for wood only."""

    WOOD = "wood"
    METAL = "metal"
    ACRYLIC = "acrylic"
    FIBREGLASS = "fibreglass"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedFitting:
    """A fitting on the shell, named as in the fittings book.

    Attributes
    ----------
    label : str
        Its name on this drum ("batter lug 3", "bracket", "strainer").
    fitting : str
        Name of the entry in the fittings book.
    place : Place
        Where the entry's reference point lies.
    turned_deg : float
        Turn on the skin; 180 for a lug that faces the resonant edge.
    holes : tuple of int
        Numbers of the holes it stands on, in the order of the entry's holes.
    origin : Origin
        Factory, extra or not sure.
    missing : bool
        The part is gone; its holes and shadow are there.
    place_from : {"reading", "holes"}
        "holes" when nobody read the reference point: ``place`` is then only the middle of the
        holes, until the entry's own pattern is laid over them.
    """

    label: str
    fitting: str
    place: Place
    turned_deg: float = 0.0
    holes: tuple[int, ...] = ()
    origin: Origin = Origin.NOT_SURE
    missing: bool = False
    place_from: Literal["reading", "holes"] = "reading"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """The lugs of one head, numbered along.

    ``serves`` names both heads for a row of long lugs. ``pinned`` says that the hoop cannot be
    turned (gates over beds, parts fixed to the hoop, the badge-to-lug look must stay).
    """

    head: End
    fitting: str
    lugs: tuple[PlacedFitting, ...]
    hoop: str = ""
    pinned: bool = False
    pinned_why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A shadow in the colour or an imprint as a dent, left by a base that is gone."""

    kind: Literal["shadow", "imprint"]
    place: Place
    outline: Outline
    of: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """One end of the shell as found."""

    end: End
    there: bool = True
    ring: bool = False
    wrap_to_edge: bool = False
    surveyed: bool = True
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam:
    """The wrap's overlap as an interval along; it may run across the datum."""

    from_deg: float
    to_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PlySeam:
    """A butt or scarf of a ply, a crack or a ring's joint: a line down the shell at one angle."""

    kind: Literal["ply seam", "crack", "ring joint", "lifted ply"]
    along_deg: float
    from_mm: float
    to_mm: float
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """Something inside the shell that a screw, washer or nut may meet."""

    what: str
    place: Place
    outline: Outline


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """A snare bed's middle on the resonant edge; ``flat_mm`` of its width is at full depth."""

    along_deg: float
    wide_mm: float = 0.0
    deep_mm: float = 0.0
    flat_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Circumference:
    """The shell's girth: readings by place, corrected for the tape, and what they were taken on.

    ``from_diameters`` is true when no tape was used: then the girth is pi times the mean.
    """

    skin: Skin
    mean_mm: float
    readings_mm: tuple[tuple[str, float], ...] = ()
    from_diameters: bool = False
    doubt_mm: float = 0.5
    as_written: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class OldFinish:
    """The finish on the drum as found."""

    kind: Literal["wrap", "lacquer", "paint", "bare"]
    thickness_mm: float = 0.0
    maybe_nitrate: bool = False
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drum:
    """One drum as found.

    Attributes
    ----------
    key : str
        Its name in the job ("small tom").
    wall_mm : float
        Bare wood, away from the rings.
    depth_mm : float
        Between the planes of the edges as found: the mean round the rim.
    depth_cos_mm, depth_sin_mm : float
        How the depth swings round the rim, where the readings show it clear of their doubt.
    depth_readings_mm, depth_along_deg : tuple
        Depths from edge to edge as read, and where; no places when none were named.
    heads : int
        1 for a single-headed drum, 2 otherwise.
    holes : tuple of Hole
        Every hole, numbered from 1.
    rows : tuple of Row
        Rows of lugs; their lugs are not repeated in ``fittings``.
    fittings : tuple of PlacedFitting
        Everything else on the shell.
    hoops : tuple of (End, str)
        Hoops by head, also of a head that has no row of its own.
    readings : Readings
        Roundness, edges, heads, threads and the air of the day.
    """

    key: str
    says: str = ""
    kind: DrumKind = DrumKind.TOM
    material: Material = Material.WOOD
    size_as_written: str = ""
    nominal_diameter_mm: float | None = None
    heads: int = 2
    circumference: Circumference
    wall_mm: float
    depth_mm: float
    depth_cos_mm: float = 0.0
    depth_sin_mm: float = 0.0
    depth_readings_mm: tuple[tuple[str, float], ...] = ()
    depth_along_deg: tuple[float, ...] = ()
    depth_doubt_mm: float = 0.5
    plies: int | None = None
    finish: OldFinish = field(default_factory=lambda: OldFinish(kind="lacquer"))
    rings: tuple[Ring, ...] = ()
    edges: tuple[Edge, ...] = ()
    seam: Seam | None = None
    lines: tuple[PlySeam, ...] = ()
    beds: tuple[Bed, ...] = ()
    inside: tuple[Inside, ...] = ()
    holes: tuple[Hole, ...] = ()
    rows: tuple[Row, ...] = ()
    fittings: tuple[PlacedFitting, ...] = ()
    marks: tuple[Mark, ...] = ()
    hoops: tuple[tuple[End, str], ...] = ()
    readings: Readings = field(default_factory=Readings)

    @property
    def depth_read_mm(self) -> float:
        """The depth from edge to edge as it was read, on the mean.

        ``depth_mm`` is between the planes that heights are measured from; where an edge was read
        the two differ by how that edge stands.
        """
        read = [mm for _, mm in self.depth_readings_mm]
        return math.fsum(read) / len(read) if read else self.depth_mm

    def depth_at_mm(self, along_deg: float) -> float:
        """Return the depth as found at one place round the rim."""
        a = math.radians(along_deg)
        return self.depth_mm + self.depth_cos_mm * math.cos(a) + self.depth_sin_mm * math.sin(a)

    def hole(self, number: int) -> Hole:
        """Return the hole of that number."""
        return next(hole for hole in self.holes if hole.number == number)

    def row(self, head: End) -> Row | None:
        """Return the row of lugs of a head, if it has one."""
        return next((row for row in self.rows if row.head == head), None)

    def edge(self, end: End) -> Edge:
        """Return what the survey says of one end; an end it does not mention is a plain edge."""
        return next((edge for edge in self.edges if edge.end == end), Edge(end=end))

    @property
    def everything(self) -> tuple[PlacedFitting, ...]:
        """Lugs of all rows and all other fittings."""
        return (*(lug for row in self.rows for lug in row.lugs), *self.fittings)
