"""Holes, rows of lugs, fittings and marks as a person writes them."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from counterhoop.shell.hole import Condition, Origin
from counterhoop.shell.survey_file.field import (
    MOST_LISTED,
    Along,
    Height,
    Lean,
    Offset,
    OneOrSeveral,
    Size,
    Written,
    YesNo,
    one_of,
    one_word_of,
    text_field,
    whole_field,
)

Short: TypeAlias = Annotated[str, text_field(most=80)]
Note: TypeAlias = Annotated[str, text_field(most=400, empty=True)]
End: TypeAlias = Annotated[Literal["batter", "resonant"], one_word_of("batter", "resonant")]
Lie: TypeAlias = Annotated[Literal["along", "down"], one_word_of("along", "down")]
OriginWord: TypeAlias = Annotated[Origin, one_of(Origin)]
ConditionWord: TypeAlias = Annotated[Condition, one_of(Condition)]
ShapeWord: TypeAlias = Annotated[
    Literal["round", "slot", "oval", "rectangle"],
    one_word_of("round", "slot", "oval", "rectangle"),
]
Tool: TypeAlias = Annotated[
    Literal["rule", "tape", "caliper"], one_word_of("rule", "tape", "caliper")
]


class HoleWritten(Written):
    """What is read at any hole: its near side and diameter, or both its sides.

    ``near`` and ``far`` are the sides nearest to and farthest from the edge that ``from_edge``
    names (the batter edge when it names none).
    """

    number: Annotated[int, whole_field(least=1, most=9999, noun="a hole's number")] | None = None
    near: Height | None = None
    far: Height | None = None
    from_edge: End = "batter"
    shape: ShapeWord = "round"
    dia: Size | None = None
    wide: Size | None = None
    long: Size | None = None
    tall: Size | None = None
    lies: Lie | None = None
    purpose: Annotated[str, text_field(most=80, empty=True)] = ""
    origin: OriginWord | None = None
    who: Annotated[str, text_field(most=80, empty=True)] = ""
    condition: ConditionWord = Condition.SOUND
    read_with: Tool | None = None
    says: Note = ""


class SingleHole(HoleWritten):
    """A hole on its own: where along it lies, by its middle or by its sides."""

    along: Along | None = None
    left_side: Along | None = None
    right_side: Along | None = None


class FittingHole(HoleWritten):
    """A hole that a fitting stands on; ``right`` is how far along from the fitting's middle."""

    right: Offset | None = None
    along: Along | None = None


class LugException(Written):
    """One lug of a row that is not where, or what, the row says.

    ``right`` is how far along the lug stands from where the row puts it (below zero: toward the
    lug before it); ``along`` says its place outright.
    """

    lug: Annotated[int, whole_field(least=1, most=40, noun="a lug's number")]
    along: Along | None = None
    right: Offset | None = None
    down: tuple[Height, ...] | None = None
    near: tuple[Height, ...] | None = None
    hole: OneOrSeveral | None = None
    holes: Annotated[tuple[FittingHole, ...], Field(max_length=20)] | None = None
    condition: ConditionWord | None = None
    origin: OriginWord | None = None
    missing: YesNo | None = None
    says: Note = ""


class RowWritten(Written):
    """The lugs of one head: how many, where the first stands, how high the holes are.

    ``along`` lists every lug's place, ``gaps`` every gap between lugs including the last, back to
    lug 1; with neither, lugs stand equally spaced from ``first``.
    """

    head: Annotated[
        Literal["batter", "resonant", "both"], one_word_of("batter", "resonant", "both")
    ]
    lugs: Annotated[int, whole_field(least=1, most=40, noun="a number of lugs", word="lug")]
    fitting: Short
    called: Annotated[str, text_field(most=40)] | None = None
    first: Along | None = None
    along: Annotated[tuple[Along, ...], Field(max_length=40)] | None = None
    gaps: Annotated[tuple[Size, ...], Field(max_length=40)] | None = None
    down: Annotated[tuple[Height, ...], Field(max_length=20)] | None = None
    near: Annotated[tuple[Height, ...], Field(max_length=20)] | None = None
    from_edge: End = "batter"
    right: Annotated[tuple[Offset, ...], Field(max_length=20)] | None = None
    hole: OneOrSeveral
    middle: Height | None = None
    turned: Lean | None = None
    pinned: Note = ""
    origin: OriginWord = Origin.NOT_SURE
    who: Annotated[str, text_field(most=80, empty=True)] = ""
    condition: ConditionWord = Condition.SOUND
    missing: YesNo = False
    read_with: Tool | None = None
    says: Note = ""
    exceptions: Annotated[tuple[LugException, ...], Field(max_length=40)] = ()


class FittingWritten(Written):
    """Anything on the shell that is not a lug of a row.

    ``down`` is the height of the fitting's own middle (the reference point of its book entry);
    without it the place is made from its holes.
    """

    label: Annotated[str, text_field(most=40)]
    fitting: Short
    along: Along
    down: Height | None = None
    from_edge: End = "batter"
    turned: Lean | None = None
    origin: OriginWord = Origin.NOT_SURE
    who: Annotated[str, text_field(most=80, empty=True)] = ""
    missing: YesNo = False
    says: Note = ""
    holes: Annotated[tuple[FittingHole, ...], Field(max_length=60)] = ()


class Rounded(Written):
    """A rectangle with corners of one radius; half the width gives round ends."""

    shape: Literal["rounded"]
    width: Size
    height: Size
    corner: Height


class Rectangle(Written):
    """A rectangle."""

    shape: Literal["rectangle"]
    width: Size
    height: Size


class Disc(Written):
    """A disc."""

    shape: Literal["disc"]
    diameter: Size


class Polygon(Written):
    """Corner by corner, right and down from its middle."""

    shape: Literal["polygon"]
    points: Annotated[tuple[tuple[Offset, Offset], ...], Field(min_length=3, max_length=400)]


OutlineWritten: TypeAlias = Annotated[
    Rounded | Rectangle | Disc | Polygon, Field(discriminator="shape")
]


class Lying(Written):
    """Where an outline lies: its middle's height, or its side nearest to the edge."""

    along: Along
    down: Height | None = None
    near: Height | None = None
    from_edge: End = "batter"
    turned: Lean | None = None
    outline: OutlineWritten


class MarkWritten(Lying):
    """A shadow in the colour or an imprint as a dent."""

    kind: Annotated[Literal["shadow", "imprint"], one_word_of("shadow", "imprint")]
    of: Annotated[str, text_field(most=80, empty=True)] = ""


class InsideWritten(Lying):
    """Something inside the shell that a screw or nut may meet."""

    what: Short


Holes: TypeAlias = Annotated[tuple[SingleHole, ...], Field(max_length=MOST_LISTED)]
