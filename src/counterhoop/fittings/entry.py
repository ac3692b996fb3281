"""What the fittings book says of a fitting.

Coordinates are millimetres right and down from the fitting's own reference point, the fitting
upright (a lug with its mouth toward the batter edge), seen from outside. A fitting on the resonant
side is turned by 180 degrees.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from counterhoop.development.flat import End
from counterhoop.development.outline import Outline


class Kind(StrEnum):
    """What a fitting is."""

    LUG = "lug"
    LONG_LUG = "long lug"
    HOOP = "hoop"
    ROD = "rod"
    T_ROD = "T-rod"
    CLAW = "claw"
    BRACKET = "bracket"
    LEG = "leg"
    LEG_BRACKET = "leg bracket"
    SPUR = "spur"
    STRAINER = "strainer"
    BUTT = "butt"
    GATE = "gate"
    WIRES = "wires"
    DAMPER = "damper"
    BADGE = "badge"
    GROMMET = "grommet"
    VENT = "vent"
    COVER_PLATE = "cover plate"
    WASHER = "washer"
    GASKET = "gasket"
    LUG_SPRING = "lug spring"
    SCREW = "screw"


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternHole:
    """A hole that a fitting wants in the shell.

    ``hole_mm`` is the diameter wanted, ``screw_mm`` what goes through it. ``slot_along_mm`` and
    ``slot_down_mm`` are the travel that slotted holes in the part itself allow, end to end of the
    screw's centre (0 for a round hole). ``called`` is its name ("upper").
    """

    right_mm: float
    down_mm: float
    hole_mm: float
    screw_mm: float
    slot_along_mm: float = 0.0
    slot_down_mm: float = 0.0
    called: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mouth:
    """Where a rod enters a lug: its height from the reference point and the edge it looks to."""

    down_mm: float
    toward: End


@dataclass(frozen=True, slots=True, kw_only=True)
class Behind:
    """What stands behind the shell on a screw."""

    washer_mm: float = 0.0  # thickness
    washer_diameter_mm: float = 0.0
    nut_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """One entry of the fittings book. Fields that a kind does not have stay None.

    Attributes
    ----------
    name, maker, family, finish : str
        How it is called; drums that must match use one family and finish.
    source : str
        "measured" or where the figures come from.
    base : Outline or None
        Where it touches the shell.
    holes : tuple of PatternHole
        What it wants in the shell.
    serves : tuple of End
        Heads that a lug serves.
    mouths : tuple of Mouth
        Lug mouths.
    rod_line_mm : float or None
        Distance of the rod's line from the shell's skin.
    free_depth_mm : float or None
        How far a rod can go in before it bottoms, from the mouth.
    free_rod_mm : float or None
        Free length of rod between ear and lug mouth, where the book knows it.
    thread, swivel : str, bool
        Thread that the rod takes (a name), and whether it swivels.
    screw_thread, screw_length_mm, screw_depth_mm : str, float, float
        Mounting screws. From inside into a thread ``screw_depth_mm`` deep: the length is under
        the head. From outside with a nut behind (no depth): it is what stands beyond the base.
    gasket_mm, behind : float, Behind
        What lies between base and shell, and behind it.
    reach_mm, inside_reach_mm : float
        How far it stands out from the skin, and in from the bore.
    inserts : tuple of str
        Names of loose parts that belong to it.
    suits_from_mm, suits_to_mm : float or None
        Long lugs: the shells between whose edges it goes, as the book says.
    hoop_kind, ears, nominal_mm, inside_mm : str, int or None, float, float
        Hoops: kind; ears (None where claws hold it, in any number); the head's nominal size;
        inside diameter. ``inside_mm`` is also the hole of a washer.
    ear_hole_mm, ear_circle_mm : float or None
        Hoops: diameter of the ears' holes, and of the circle that they stand on.
        ``ear_hole_mm`` is also the hole that a claw has for its rod.
    below_edge_mm, seat_below_edge_mm : float or None
        Hoops: its lowest part, and where the rod's washer sits, below the edge line, the head at
        pitch; below zero stands above the line.
    height_mm : float or None
        Hoops: from its upper to its lower side.
    bending_n_m2 : float or None
        Hoops: stiffness E I against bending up and down between two rods (about the radial
        axis of its section); None where nobody has measured it.
    washer_mm : float or None
        Hoops: thickness of the washers under the rods' heads. Washers: their own thickness.
    rod_length_mm, thread_length_mm, shank_mm : float
        Rods: length under the head, threaded length, shank diameter.
    opposite : str
        A strainer's butt, by name; empty otherwise.
    throw : Outline or None
        Room that a lever swings through.
    diameter_mm, length_mm : float or None
        Legs, spurs, wires, springs, screws, washers: outside diameter and length; the leg that a
        leg bracket takes.
    price_minor, currency : int or None, str
        Price in minor units of this currency (ISO 4217).
    says : str
        What a colleague would add.
    """

    name: str
    kind: Kind
    maker: str = ""
    family: str = ""
    finish: str = ""
    source: str
    base: Outline | None = None
    holes: tuple[PatternHole, ...] = ()
    mass_g: float | None = None
    price_minor: int | None = None
    currency: str = ""
    says: str = ""
    reach_mm: float = 0.0
    inside_reach_mm: float = 0.0
    gasket_mm: float = 0.0
    behind: Behind = Behind()
    screw_thread: str = ""
    screw_length_mm: float | None = None
    screw_depth_mm: float | None = None
    inserts: tuple[str, ...] = ()
    # lugs
    serves: tuple[End, ...] = ()
    mouths: tuple[Mouth, ...] = ()
    rod_line_mm: float | None = None
    free_depth_mm: float | None = None
    free_rod_mm: float | None = None
    suits_from_mm: float | None = None
    suits_to_mm: float | None = None
    thread: str = ""
    swivel: bool = False
    # hoops
    hoop_kind: Literal["flanged", "die-cast", "wood", ""] = ""
    ears: int | None = None
    nominal_mm: float | None = None
    inside_mm: float | None = None
    height_mm: float | None = None
    bending_n_m2: float | None = None
    ear_hole_mm: float | None = None
    ear_circle_mm: float | None = None
    below_edge_mm: float | None = None  # lowest part below the edge line, head at pitch
    seat_below_edge_mm: float | None = None  # where the rod's washer sits, below the edge line
    # rods
    rod_length_mm: float | None = None  # under the head
    thread_length_mm: float | None = None
    shank_mm: float | None = None
    washer_mm: float | None = None
    # strainers, legs, wires and the rest
    opposite: str = ""
    throw: Outline | None = None  # room a lever swings through
    diameter_mm: float | None = None
    length_mm: float | None = None

    @property
    def middle_down_mm(self) -> float:
        """Height of the middle between the mouths of a long lug; of the base otherwise."""
        if len(self.mouths) > 1:
            return sum(mouth.down_mm for mouth in self.mouths) / len(self.mouths)
        if self.base is None:
            return 0.0
        _, top, _, bottom = self.base.bounds_mm
        return (top + bottom) / 2.0

    @property
    def span_mm(self) -> float | None:
        """Length of a long lug from mouth to mouth; None of what has no two mouths."""
        heights = [mouth.down_mm for mouth in self.mouths]
        return max(heights) - min(heights) if len(heights) > 1 else None
