"""What the book must say of each kind of fitting, as a person writes it."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field, StrictBool, StrictInt

from counterhoop.development.flat import End
from counterhoop.fittings.fields import (
    BehindWritten,
    BendingNM2,
    HoleWritten,
    LengthMm,
    MassG,
    MouthWritten,
    Name,
    OffsetMm,
    Price,
    ScrewWritten,
    Shape,
    SuitsWritten,
    ThicknessMm,
    Thread,
    Written,
)

Holes: TypeAlias = Annotated[tuple[HoleWritten, ...], Field(min_length=1, max_length=40)]
Ends: TypeAlias = Annotated[tuple[End, ...], Field(min_length=1, max_length=2)]


class Entry(Written):
    """What every entry may say."""

    name: Name
    source: Annotated[str, Field(min_length=1, pattern=r"\S")]
    maker: str = ""
    family: str = ""
    finish: str = ""
    says: str = ""
    mass: MassG | None = None
    price: Price | None = None


class Mounted(Entry):
    """What is fixed to the shell."""

    base: Shape
    holes: Holes
    reach: LengthMm
    inside_reach: ThicknessMm = 0.0
    gasket: ThicknessMm = 0.0
    behind: BehindWritten = BehindWritten()
    screw: ScrewWritten | None = None
    inserts: tuple[Name, ...] = ()


class AnyLug(Mounted):
    """What lugs of both sorts say."""

    thread: Thread
    swivel: StrictBool = False
    rod_line: LengthMm
    free_depth: LengthMm
    free_rod: LengthMm | None = None
    serves: Ends | None = None


class Lug(AnyLug):
    """A lug for one head, drawn with its mouth toward the batter edge."""

    kind: Literal["lug"]
    mouth: OffsetMm


class LongLug(AnyLug):
    """A lug for both heads."""

    kind: Literal["long lug"]
    mouths: Annotated[tuple[MouthWritten, ...], Field(min_length=2, max_length=2)]
    suits: SuitsWritten | None = None


class Hoop(Entry):
    """A counterhoop of one size; without ears it is held by claws."""

    kind: Literal["hoop"]
    hoop_kind: Literal["flanged", "die-cast", "wood"]
    nominal: LengthMm
    ears: Annotated[StrictInt, Field(ge=3, le=20)] | None = None
    inside: LengthMm
    height: LengthMm | None = None
    bending: BendingNM2 | None = None
    ear_hole: LengthMm | None = None
    ear_circle: LengthMm | None = None
    below_edge: OffsetMm
    seat_below_edge: OffsetMm
    washer: ThicknessMm = 0.0


class Rod(Entry):
    """A rod; its length is under the head."""

    kind: Literal["rod", "T-rod"]
    thread: Thread
    length: LengthMm
    thread_length: LengthMm
    shank: LengthMm
    washer: ThicknessMm | None = None


class Claw(Entry):
    """A claw over a hoop; ``rod_hole`` is what the rod goes through."""

    kind: Literal["claw"]
    rod_hole: LengthMm
    reach: LengthMm
    washer: ThicknessMm | None = None


class Bracket(Mounted):
    """A bracket for a tom arm, a cymbal arm or a shell-mounted holder."""

    kind: Literal["bracket"]
    takes: LengthMm | None = None


class Leg(Entry):
    """A leg."""

    kind: Literal["leg"]
    diameter: LengthMm
    length: LengthMm


class LegBracket(Mounted):
    """A bracket that takes a leg."""

    kind: Literal["leg bracket"]
    takes: LengthMm


class Spur(Mounted):
    """A spur with its bracket; ``length`` is what stands outside."""

    kind: Literal["spur"]
    diameter: LengthMm
    length: LengthMm


class Strainer(Mounted):
    """A strainer; ``throw`` is the room its lever swings through."""

    kind: Literal["strainer"]
    throw: Shape | None = None
    opposite: str = ""


class Plain(Mounted):
    """What is fixed to the shell and needs no more said."""

    kind: Literal["butt", "damper", "badge"]


class Gate(Entry):
    """A gate for straps or cords at a hoop; ``width`` is the opening."""

    kind: Literal["gate"]
    width: LengthMm


class Wires(Entry):
    """Snare wires."""

    kind: Literal["wires"]
    length: LengthMm
    width: LengthMm


class Lining(Mounted):
    """A grommet or a vent: lines a hole and holds itself."""

    kind: Literal["grommet", "vent"]


class CoverPlate(Mounted):
    """A plate that covers old holes, held by screws of its own."""

    kind: Literal["cover plate"]


class Washer(Entry):
    """A washer: its hole, outside diameter and thickness."""

    kind: Literal["washer"]
    hole: LengthMm
    diameter: LengthMm
    thickness: LengthMm


class Gasket(Entry):
    """What lies between a base and the shell, in the base's outline."""

    kind: Literal["gasket"]
    base: Shape
    thickness: LengthMm


class LugSpring(Entry):
    """A spring that holds a swivel nut."""

    kind: Literal["lug spring"]
    diameter: LengthMm
    length: LengthMm


class Screw(Entry):
    """A mounting screw; its length is under the head."""

    kind: Literal["screw"]
    thread: Thread
    length: LengthMm


AnyEntry: TypeAlias = Annotated[
    Lug
    | LongLug
    | Hoop
    | Rod
    | Claw
    | Bracket
    | Leg
    | LegBracket
    | Spur
    | Strainer
    | Plain
    | Gate
    | Wires
    | Lining
    | CoverPlate
    | Washer
    | Gasket
    | LugSpring
    | Screw,
    Field(discriminator="kind"),
]
